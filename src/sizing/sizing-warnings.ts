import type { Locomotive } from "../logbook/locomotive.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import type { Plan } from "./plan-schema.ts";
import { inHundred, ofHundred, roundedDown, roundedUp } from "./rounding.ts";
import type { Models } from "./size.ts";
import type { Sizing } from "./sizing-schema.ts";

type Warning = Sizing["warnings"][number];
type Reckoned = Omit<Sizing, "warnings">;

const FEW_RUNS = 4;
/** How far beyond the longest run a plan may reach before it is said (our choice). */
const FAR_BEYOND = 2;
/** Fuel lasting so many times the water is worth a word where nothing can feed under pressure. */
const PROBABLE = 0.05;

/** What the owner should know before trusting the figures, in words. */
export function sizingWarnings(
  locomotive: Locomotive,
  plan: Plan,
  models: Models,
  sizing: Reckoned,
  supplyMl: number | null,
): Warning[] {
  return [
    ...ofRuns(plan, models, sizing),
    ...ofFeeding(locomotive, models, sizing, supplyMl),
    ...ofTanks(sizing),
  ];
}

function ofRuns(plan: Plan, models: Models, sizing: Reckoned): Warning[] {
  const { water, kind, amount } = models;
  if (water === null) return [];
  const found: Warning[] = [];
  const count = sizing.runs.length;
  if (count === 1) {
    const spread = Math.round((plan.spreadRelative ?? 0.15) * 100);
    found.push({
      code: "one-run",
      text: `One run alone tells nothing of how runs differ: a spread of ${spread} % is taken for granted.`,
    });
  } else if (count < FEW_RUNS) {
    found.push({
      code: "few-runs",
      text: `${count} runs tell little of how runs differ, so the bound lies far out: another run brings it in most.`,
    });
  }
  const longest = Math.max(...sizing.runs.map((run) => run.amount ?? 0));
  if (longest > 0 && amount > FAR_BEYOND * longest) {
    const unit = { laps: "laps", minutes: "minutes", distanceM: "m" }[kind];
    found.push({
      code: "beyond-the-runs",
      text: `The plan of ${amount} ${unit} is ${(amount / longest).toFixed(1)} times the longest run: what holds for ${longest.toFixed(0)} ${unit} is taken to hold for all of it.`,
    });
  }
  const load = plan.plan.trainMassKg;
  if (load !== undefined && !water.byLoad) {
    found.push({
      code: "load-not-used",
      text: "The load does not enter: it takes five runs with recorded loads that differ by a fifth to tell what load costs.",
    });
  }
  if (water.byLoad && water.beyondLoads) {
    found.push({
      code: "beyond-the-loads",
      text: "The planned load lies outside those of the runs: the line is carried on beyond them.",
    });
  }
  return found;
}

function ofFeeding(
  locomotive: Locomotive,
  models: Models,
  sizing: Reckoned,
  supplyMl: number | null,
): Warning[] {
  const { feeding, endurance } = sizing;
  const found: Warning[] = [];
  if (!feeding.underPressure) {
    const times = timesTheWater(sizing);
    const measure =
      times === null
        ? "measure the fuel so that it does"
        : times > 1
          ? `the fuel lasts about ${times.toFixed(1)} times as long as the water: put in less of it`
          : `the fuel lasts about ${times.toFixed(1)} times as long as the water`;
    found.push({
      code: "no-feed-under-pressure",
      text: `${feeding.byBottle ? "Nothing but a bottle can feed" : "Nothing can feed"} this boiler while it is in steam, so the fire must end before the ${supplyMl === null ? "water" : `${roundedDown(supplyMl, 0)} ml between its levels`}: ${measure}. Look at the glass.`,
    });
    const alone = boilerTooSmall(models, sizing, supplyMl);
    if (alone !== null) found.push(alone);
  } else if (endurance.fuelEndsFirst !== null && endurance.fuelEndsFirst < 1 - PROBABLE) {
    const first = Math.round((1 - endurance.fuelEndsFirst) * 100);
    found.push({
      code: "water-may-end-first",
      text: `${first > 98 ? "In nearly every such run" : `In about ${first} of 100 such runs`} the water is gone before the fire: look at the glass, and let the fire finish before the water.`,
    });
  }
  const canStanding = models.runs.some(({ fedInSteam: by }) => by === "hand-pump" || by === "injector");
  if (feeding.underPressure && locomotive.handPump === undefined && !canStanding) {
    found.push({
      code: "no-hand-pump",
      text: "Only the axle pump feeds this boiler: standing still, nothing can be put in under pressure.",
    });
  }
  if (models.water !== null && models.fuel === null) {
    found.push({ code: "fuel-not-told", text: "No chosen run tells what fuel a whole steaming burns." });
  }
  return found;
}

/** Where the plan outlasts the boiler and nothing can feed it. */
function boilerTooSmall(
  { kind, amount, water }: Models,
  sizing: Reckoned,
  supplyMl: number | null,
): Warning | null {
  const { waterSuffices } = sizing.endurance;
  if (supplyMl === null || water === null || waterSuffices === null || waterSuffices >= sizing.probability) {
    return null;
  }
  const unit = { laps: "laps", minutes: "minutes", distanceM: "m" }[kind];
  const lasts = roundedDown((supplyMl * WATER_G_PER_ML) / water.predictive.quantile(sizing.probability), 0);
  const wanted = inHundred(sizing.probability);
  const good =
    lasts < 1
      ? `it is not good for one of the ${unit}`
      : `${wanted} times in 100 it is good for ${lasts} ${unit}`;
  return {
    code: "boiler-too-small",
    text: `The boiler's own ${roundedDown(supplyMl, 0)} ml last ${amount} ${unit} in ${ofHundred(waterSuffices)} of 100 such runs, where ${wanted} are wanted; ${good}. No tank helps while there is no pump to feed it in steam: ${sizing.feeding.byBottle ? "fill up from the bottle or stop in time" : "stop in time"}, and look at the glass.`,
  };
}

function timesTheWater({ endurance }: Reckoned): number | null {
  const { waterLasts, fuelLasts } = endurance;
  return waterLasts.value === null || fuelLasts.value === null ? null : fuelLasts.value / waterLasts.value;
}

function ofTanks({ tanks, fit, fuel }: Reckoned): Warning[] {
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
  return [...impossible, ...notNeeded, ...short, ...fuelShort];
}
