import { inMm } from "./drawing.ts";
import { capital } from "./fit-words.ts";
import type { Plan } from "./plan-schema.ts";
import { roundedUp } from "./rounding.ts";
import type { Reckoned, Warning } from "./sizing-schema.ts";

/** Tanks that cannot be made, are not needed, or fall short. */
export function tankWarnings(plan: Plan, { tanks, fit, fuel }: Reckoned): Warning[] {
  const solved = fit?.solved ?? null;
  const impossible = tanks.flatMap(({ name, usable, lengthMm }): Warning[] => {
    if (usable.value !== null || (solved !== null && !solved.needed && solved.tank === name)) return [];
    return lengthMm === null
      ? [{ code: "tank-not-known", text: `What the ${name} would hold cannot be told: ${usable.why}.` }]
      : [{ code: "no-such-tank", text: `The ${name} cannot be made so: ${usable.why}.` }];
  });
  const notNeeded =
    solved === null || solved.needed
      ? []
      : [{ code: "tank-not-needed", text: `The ${solved.tank}: ${solved.why}.` }];
  const short =
    fit === null || fit.short === null || !fit.drawable
      ? []
      : [{ code: "tanks-short", text: `The tanks are ${fit.short.words}.` }];
  const fuelShort =
    fuel.shortMl !== null && fuel.shortMl > 0
      ? [
          {
            code: "fuel-tank-short",
            text: `The fuel tank holds ${roundedUp(fuel.shortMl, 0)} ml less than the planned run may burn (${fuel.spare}).`,
          },
        ]
      : [];
  const noFuelTank = fuel.why === null ? [] : [{ code: "no-such-fuel-tank", text: `${capital(fuel.why)}.` }];
  return [...notSolved(plan, tanks, fit), ...impossible, ...notNeeded, ...short, ...noFuelTank, ...fuelShort];
}

/** A size to be found that was not, as there is no demand: it must not pass for an answer. */
function notSolved(plan: Plan, tanks: Reckoned["tanks"], fit: Reckoned["fit"]): Warning[] {
  const solve = plan.tanks?.solve;
  const tank = solve === undefined ? undefined : tanks[solve.tank];
  if (fit !== null || solve === undefined || tank === undefined) return [];
  const mm = { length: tank.lengthMm, height: tank.heightMm, width: tank.widthMm }[solve.dimension];
  return [
    {
      code: "not-solved",
      text: `The ${solve.dimension} of the ${tank.name} was not looked for, as nothing tells how much is needed: it stands ${mm === null ? "" : `at ${inMm(mm)} mm `}as it was given.`,
    },
  ];
}
