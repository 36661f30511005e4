import { isMeasured } from "../quantity/measured.ts";
import type { Reported } from "../quantity/reported.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import { ASSUMED_SPREAD, type DemandModel } from "./demand-model.ts";
import { type Observation, predictiveOf } from "./predictive.ts";
import { ownAndShared, type PlanKind, type RunFigures } from "./run-figures.ts";

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
}

/** Which ends first, the water or the fire, and how probably each outlasts the plan. */
export function enduranceOf(
  runs: readonly RunFigures[],
  models: { water: DemandModel | null; fuel: DemandModel | null },
  plan: { kind: PlanKind; amount: number; spreadRelative?: number | undefined },
  supplies: Supplies,
): Endurance {
  const unit = { laps: "laps", minutes: "min", distanceM: "m" }[plan.kind];
  const { waterMl, fuelG } = supplies;
  const waterG = waterMl === null ? null : waterMl * WATER_G_PER_ML;
  const first = whichFirst(runs, plan, waterG, fuelG);
  return {
    waterLasts:
      waterG === null ? { value: null, why: "no water tank is known" } : lasting(models.water, waterG, unit),
    fuelLasts: fuelLasting(runs, plan, fuelG, unit),
    fuelEndsFirst: first.probability,
    waterSuffices:
      waterG === null || models.water === null
        ? null
        : models.water.predictive.probabilityBelow(waterG / plan.amount),
    fuelSuffices:
      fuelG === null || models.fuel === null ? null : models.fuel.predictive.probabilityBelow(fuelG),
    why: first.why,
  };
}

const tooUncertain: Reported = { value: null, why: "the runs differ too much to say how long" };

function lasting(model: DemandModel | null, grams: number, unit: string): Reported {
  if (model === null) return { value: null, why: "no chosen run tells the demand" };
  const { predictive } = model;
  return lastingOf(
    grams / predictive.mean,
    grams / predictive.quantile(0.975),
    predictive.quantile(0.025) > 0 ? grams / predictive.quantile(0.025) : Number.POSITIVE_INFINITY,
    unit,
  );
}

function lastingOf(value: number, lo95: number, hi95: number, unit: string): Reported {
  if (!Number.isFinite(hi95) || !(value > 0)) return tooUncertain;
  return { value, u: (hi95 - lo95) / (2 * 1.96), lo95, hi95, unit };
}

interface Paired {
  fuelLasts: number;
  waterPerUnit: number;
  waterU: number;
  waterShared: number;
  fuelU: number;
}

/** Each run's own water and fuel together, so that a hard run which uses much of both is told as one. */
function pairs(runs: readonly RunFigures[], kind: PlanKind, fuelG: number): Paired[] {
  return runs.flatMap((run) => {
    const { water, fuel } = run.per[kind];
    if (!isMeasured(water) || !isMeasured(fuel) || !isMeasured(run.otherFuel)) return [];
    const [own, ownFuel] = [ownAndShared(water), ownAndShared(fuel)];
    return [
      {
        fuelLasts: (fuelG - run.otherFuel.value) / fuel.value,
        waterPerUnit: water.value,
        waterU: own.own / water.value,
        waterShared: Math.hypot(...own.shared.values()) / water.value,
        fuelU: ownFuel.own / fuel.value,
      },
    ];
  });
}

function whichFirst(
  runs: readonly RunFigures[],
  plan: { kind: PlanKind; spreadRelative?: number | undefined },
  waterG: number | null,
  fuelG: number | null,
): { probability: number | null; why: string | null } {
  if (waterG === null) return { probability: null, why: "no water tank is known" };
  if (fuelG === null) return { probability: null, why: "what the fuel tank holds is not known" };
  const paired = pairs(runs, plan.kind, fuelG);
  if (paired.length === 0) return { probability: null, why: "no chosen run tells both water and fuel" };
  if (paired.some((one) => one.fuelLasts <= 0)) {
    return { probability: 1, why: "in some of the runs so much fuel went before and beside the running" };
  }
  if (waterG <= 0) return { probability: 0, why: "there is no water to use" };
  const observations = paired.map(
    (one): Observation => ({
      value: Math.log(one.fuelLasts) - Math.log(waterG / one.waterPerUnit),
      u: Math.hypot(one.waterU, one.fuelU),
    }),
  );
  const sharedU = paired.reduce((sum, one) => sum + one.waterShared, 0) / paired.length;
  const spread = plan.spreadRelative ?? ASSUMED_SPREAD;
  const predictive = predictiveOf(observations, { sharedU, assumedSpread: spread * Math.SQRT2 });
  return { probability: predictive.probabilityBelow(0), why: null };
}

function fuelLasting(
  runs: readonly RunFigures[],
  plan: { kind: PlanKind; spreadRelative?: number | undefined },
  fuelG: number | null,
  unit: string,
): Reported {
  if (fuelG === null) return { value: null, why: "what the fuel tank holds is not known" };
  const lasts = pairs(runs, plan.kind, fuelG);
  if (lasts.length === 0) return { value: null, why: "no chosen run tells the fuel burnt" };
  if (lasts.some((one) => one.fuelLasts <= 0)) {
    return { value: null, why: "raising steam alone may use up the fuel" };
  }
  const predictive = predictiveOf(
    lasts.map((one) => ({ value: Math.log(one.fuelLasts), u: one.fuelU })),
    { sharedU: 0, assumedSpread: plan.spreadRelative ?? ASSUMED_SPREAD },
  );
  const [low, high] = [predictive.quantile(0.025), predictive.quantile(0.975)];
  return high - low > 5
    ? tooUncertain
    : lastingOf(Math.exp(predictive.mean), Math.exp(low), Math.exp(high), unit);
}
