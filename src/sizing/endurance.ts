import { combined, isMeasured, type Measured } from "../quantity/measured.ts";
import type { Reported } from "../quantity/reported.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import { ASSUMED_SPREAD, type DemandModel, demandModelOf } from "./demand-model.ts";
import type { PlanKind, RunFigures } from "./run-figures.ts";

export interface Endurance {
  /** how long the water lasts, in the plan's own measure */
  waterLasts: Reported;
  fuelLasts: Reported;
  /** probabilities from 0 to 1; null with the reason in `why` */
  fuelEndsFirst: number | null;
  waterSuffices: number | null;
  fuelSuffices: number | null;
  why: string | null;
}

export interface Supplies {
  /** water that can be fed or boiled away, ml cold; null where no tank is known */
  waterMl: number | null;
  /** g; null where it is not known */
  fuelG: number | null;
  /** why either is not known, where that is told */
  waterWhy?: string | null | undefined;
  fuelWhy?: string | null | undefined;
}

export interface EndurancePlan {
  kind: PlanKind;
  amount: number;
  spreadRelative?: number | undefined;
  trainMassKg?: number | undefined;
}

/** Which ends first, the water or the fire, and how probably each outlasts the plan. */
export function enduranceOf(
  runs: readonly RunFigures[],
  models: {
    water: DemandModel | null;
    fuel: DemandModel | null;
    noWater?: string | null;
    noFuel?: string | null;
  },
  plan: EndurancePlan,
  supplies: Supplies,
): Endurance {
  const unit = { laps: "laps", minutes: "min", distanceM: "m" }[plan.kind];
  const { waterMl, fuelG } = supplies;
  const waterG = waterMl === null ? null : waterMl * WATER_G_PER_ML;
  const noWater = supplies.waterWhy ?? "no water tank is known";
  const noFuel = supplies.fuelWhy ?? "what the fuel tank holds is not known";
  const { noWater: whyNoWater = null, noFuel: whyNoFuel = null } = models;
  const untold = whyNoWater ?? whyNoFuel;
  const first =
    waterG === null
      ? { probability: null, why: noWater }
      : fuelG === null
        ? { probability: null, why: noFuel }
        : untold !== null
          ? { probability: null, why: untold }
          : whichFirst(runs, plan, waterG, fuelG);
  return {
    waterLasts:
      waterG === null ? { value: null, why: noWater } : lasting(models.water, whyNoWater, waterG, unit),
    fuelLasts:
      fuelG === null
        ? { value: null, why: noFuel }
        : whyNoFuel !== null
          ? { value: null, why: whyNoFuel }
          : fuelLasting(runs, plan, fuelG, unit),
    fuelEndsFirst: first.probability,
    waterSuffices: waterG === null ? null : sufficing(models.water, waterG / plan.amount),
    fuelSuffices: fuelG === null || models.fuel === null ? null : models.fuel.belief.probabilityBelow(fuelG),
    why: first.why,
  };
}

/** Water strays farther above that of the other runs than below, by blowing off and stops: its logarithm is reckoned with. */
function sufficing(water: DemandModel | null, grams: number): number | null {
  const belief = water?.beliefOfLogarithm ?? null;
  if (belief === null) return null;
  return grams > 0 ? belief.probabilityBelow(Math.log(grams)) : 0;
}

/** Fewer runs than this are the reason themselves where a range has no end (our choice). */
const FEW = 4;
const tooUncertain = (runs: number): Reported => ({
  value: null,
  why:
    runs === 1
      ? "one run, with the spread taken for granted, is too little to say how long"
      : runs < FEW
        ? `${runs} runs that differ so much are too few to say how long`
        : "the runs differ too much to say how long",
});

function lasting(model: DemandModel | null, whyNot: string | null, grams: number, unit: string): Reported {
  if (model === null) return { value: null, why: whyNot ?? "no chosen run tells the demand" };
  if (grams <= 0) return { value: null, why: "there is no water to use" };
  const { predictive, runs } = model;
  return lastingOf(
    grams / predictive.mean,
    grams / predictive.quantile(0.975),
    predictive.quantile(0.025) > 0 ? grams / predictive.quantile(0.025) : Number.POSITIVE_INFINITY,
    unit,
    runs,
  );
}

function lastingOf(value: number, lo95: number, hi95: number, unit: string, runs: number): Reported {
  if (!Number.isFinite(hi95) || !(value > 0)) return tooUncertain(runs);
  return { value, u: (hi95 - lo95) / (2 * 1.96), lo95, hi95, unit };
}

interface Burning {
  fuel: Measured;
  other: Measured;
  trainMassKg: number | null;
}

const positive = (figure: Measured): boolean => figure.value > 0;

function burningOf(run: RunFigures, kind: PlanKind): Burning | null {
  const { fuel } = run.per[kind];
  const { otherFuel: other, trainMassKg } = run;
  return isMeasured(fuel) && isMeasured(other) && positive(fuel) ? { fuel, other, trainMassKg } : null;
}

/**
 * Each run tells by its own water and fuel what would have been burnt by the time the water was gone. So a hard run that
 * uses much of both counts as what it is, and what its two figures owe to one error cancels.
 */
function whichFirst(
  runs: readonly RunFigures[],
  plan: EndurancePlan,
  waterG: number,
  fuelG: number,
): { probability: number | null; why: string | null } {
  if (waterG <= 0) return { probability: 0, why: "there is no water to use" };
  if (fuelG <= 0) return { probability: 1, why: "there is no fuel to burn" };
  const burnt = runs.flatMap((run) => {
    const burning = burningOf(run, plan.kind);
    const { water } = run.per[plan.kind];
    if (burning === null || !isMeasured(water) || !positive(water)) return [];
    const { fuel, other, trainMassKg } = burning;
    const lasts = waterG / water.value;
    const all = fuel.value * lasts + other.value;
    const figure = combined(Math.log(all), "1", [
      [fuel, lasts / all],
      [water, (-fuel.value * lasts) / water.value / all],
      [other, 1 / all],
    ]);
    return [{ figure, trainMassKg }];
  });
  // fuel for water is taken to spread as either does: a hard run uses more of both (correlation 1/2, our estimate)
  const spread = plan.spreadRelative ?? ASSUMED_SPREAD;
  const model = demandModelOf(burnt, { spread, trainMassKg: plan.trainMassKg });
  return model === null
    ? { probability: null, why: "no chosen run tells both water and fuel" }
    : { probability: 1 - model.belief.probabilityBelow(Math.log(fuelG)), why: null };
}

function fuelLasting(
  runs: readonly RunFigures[],
  plan: EndurancePlan,
  fuelG: number,
  unit: string,
): Reported {
  const told = runs.flatMap((run) => burningOf(run, plan.kind) ?? []);
  const [one] = told;
  if (one === undefined) return { value: null, why: "no chosen run tells the fuel burnt" };
  if (told.some(({ other }) => other.value >= fuelG)) {
    return { value: null, why: "raising steam alone may use up the fuel" };
  }
  const lasts = told.map(({ fuel, other, trainMassKg }) => {
    const left = fuelG - other.value;
    const figure = combined(Math.log(left / fuel.value), "1", [
      [fuel, -1 / fuel.value],
      [other, -1 / left],
    ]);
    return { figure, trainMassKg };
  });
  const spread = ((plan.spreadRelative ?? ASSUMED_SPREAD) * fuelG) / (fuelG - one.other.value);
  const model = demandModelOf(lasts, { spread, trainMassKg: plan.trainMassKg });
  if (model === null) return tooUncertain(told.length);
  const { predictive } = model;
  const [low, high] = [predictive.quantile(0.025), predictive.quantile(0.975)];
  return high - low > 5
    ? tooUncertain(told.length)
    : lastingOf(Math.exp(predictive.mean), Math.exp(low), Math.exp(high), unit, told.length);
}
