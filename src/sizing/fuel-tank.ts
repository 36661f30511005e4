import { fuelProperties, isSolid } from "../analysis/fuel/fuel-table.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import { isMeasured, scaled, sum } from "../quantity/measured.ts";
import type { Reported } from "../quantity/reported.ts";
import { expectedOf, limitOf } from "./bound.ts";
import { checkedMm, USUAL } from "./build-up.ts";
import { type DemandModel, demandModelOf } from "./demand-model.ts";
import type { Plan } from "./plan-schema.ts";
import type { PlanKind, RunFigures } from "./run-figures.ts";
import { scaleRatio } from "./typed-length.ts";

/** Gas must never stand above this part of its tank: the liquid swells when it warms (practice, as for LPG cylinders). */
export const MOST_GAS = 0.8;
/** Space left above spirit for it to swell (practice: 5 to 10 %). */
export const SPIRIT_EXPANSION = 0.08;

export interface FuelSizing {
  demand: Reported;
  bound: Reported;
  /** liquid that the bound is, ml */
  liquidMl: Reported;
  /** tank that holds it with the space that must stay empty, ml */
  tankMl: Reported;
  /** the tank that there is or is planned, ml in all and filled no further than it may be */
  holdsMl: number | null;
  fillMl: number | null;
  shortMl: number | null;
  /** why a planned tank cannot be made */
  why: string | null;
  spare: string;
}

export const isGas = (kind: Locomotive["fuel"]["kind"]): boolean =>
  kind === "butane" || kind === "propane" || kind === "butane-propane-70-30";

/** Part of a tank of this engine's fuel that may be filled; null for a fuel that is no liquid. */
export function fillFraction(locomotive: Locomotive, plan: Plan): number | null {
  const { kind } = locomotive.fuel;
  if (isGas(kind)) return Math.min(MOST_GAS, plan.tanks?.fuel?.liquidFraction ?? MOST_GAS);
  if (kind === "spirit") return 1 - (plan.tanks?.fuel?.expansionFraction ?? SPIRIT_EXPANSION);
  return null;
}

/** Fuel of each run as if it had been the planned one: what burns running, and what burns beside it. */
export function fuelModelOf(
  runs: readonly RunFigures[],
  plan: Plan,
  kind: PlanKind,
  amount: number,
): DemandModel | null {
  const figures = runs.map((run) => {
    const running = run.per[kind].fuel;
    const figure =
      isMeasured(running) && isMeasured(run.otherFuel)
        ? sum(scaled(running, amount, "g"), run.otherFuel)
        : isMeasured(running)
          ? run.otherFuel
          : running;
    return { figure, trainMassKg: run.trainMassKg };
  });
  return demandModelOf(figures, {
    spreadRelative: plan.spreadRelative,
    trainMassKg: plan.plan.trainMassKg,
  });
}

export function fuelSizingOf(
  locomotive: Locomotive,
  model: DemandModel | null,
  plan: Plan,
  probability: number,
  whyNoModel: string | null,
): FuelSizing {
  const none = (why: string): Reported => ({ value: null, why });
  const fraction = fillFraction(locomotive, plan);
  const densityGPerMl = fuelProperties(locomotive.fuel)?.densityGPerMl ?? null;
  const tankMl = fuelTankMl(locomotive, plan);
  const holdsMl = typeof tankMl === "string" ? null : tankMl;
  const why = typeof tankMl === "string" ? tankMl : null;
  const fillMl = holdsMl === null || fraction === null ? null : holdsMl * fraction;
  const spare =
    fraction === null
      ? isSolid(locomotive.fuel)
        ? "a solid fuel is carried in a bunker and weighed: no tank is reckoned"
        : "no tank is reckoned for another fuel than spirit or gas: how far it may be filled is not known"
      : isGas(locomotive.fuel.kind)
        ? `gas: never more than ${Math.round(fraction * 100)} % liquid`
        : `${Math.round((1 - fraction) * 100)} % left empty for the spirit to swell`;
  if (model === null) {
    const untold = none(whyNoModel ?? "not told");
    const noTank = fraction === null ? none(spare) : untold;
    return {
      demand: untold,
      bound: untold,
      liquidMl: noTank,
      tankMl: noTank,
      holdsMl,
      fillMl,
      shortMl: null,
      why,
      spare,
    };
  }
  const boundG = model.predictive.quantile(probability);
  const liquid = fraction === null || densityGPerMl === null ? null : boundG / densityGPerMl;
  const noLiquid = none(fraction === null ? spare : "the fuel's density is not known");
  return {
    demand: expectedOf(model, 1, "g"),
    bound: limitOf(boundG, "g"),
    liquidMl: liquid === null ? noLiquid : limitOf(liquid, "ml"),
    tankMl: liquid === null || fraction === null ? noLiquid : limitOf(liquid / fraction, "ml"),
    holdsMl,
    fillMl,
    shortMl: liquid === null || fillMl === null ? null : Math.max(0, liquid - fillMl),
    why,
    spare,
  };
}

/** A planned box by its outside, a tank said to be there, or the engine's own, ml; why there can be no such box. */
function fuelTankMl(locomotive: Locomotive, plan: Plan): number | string | null {
  const fuel = plan.tanks?.fuel;
  const scale = scaleRatio(plan.tanks?.scale ?? "1:32") ?? 1 / 32;
  if (fuel?.box !== undefined) {
    const plateMm = fuel.plate === undefined ? USUAL.plate : checkedMm(fuel.plate, scale);
    const inside = [fuel.box.length, fuel.box.width, fuel.box.height].map(
      (side) => checkedMm(side, scale) - 2 * plateMm,
    );
    if (inside.some((mm) => !(mm > 0))) return "the fuel tank cannot be made so: the plates leave no room";
    return inside.reduce((a, b) => a * b, 1) / 1000;
  }
  return fuel?.holdsMl ?? locomotive.fuel.tankMl ?? null;
}
