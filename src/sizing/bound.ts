import type { Reported } from "../quantity/reported.ts";
import { meanSpreadSeen } from "../statistics/mean-spread-seen.ts";
import { studentTQuantile } from "../statistics/student-t-quantile.ts";
import type { DemandModel } from "./demand-model.ts";

/** Student's t at a probability of a half or more. */
const upper = (probability: number, degreesOfFreedom: number): number =>
  probability === 0.5 ? 0 : studentTQuantile(probability, degreesOfFreedom);

/** Density of the tank's water at 20 °C, g/ml (Kell 1975; 998.207 kg/m3). */
export const WATER_G_PER_ML = 0.998207;

/** What a planned run is expected to need, with the 95 % range of one such run. */
export function expectedOf(model: DemandModel, factor: number, unit: string): Reported {
  const { predictive, runs } = model;
  const parts = [
    {
      name: predictive.degreesOfFreedom === null ? "spread taken for granted" : "one run against another",
      u: predictive.spread * Math.sqrt(predictive.degreesOfFreedom === null ? 1 : 1 + 1 / runs),
    },
    { name: "errors of the runs' own figures", u: predictive.readingU },
    ...model.sharedParts.map((part) => ({ name: part.name, u: Math.abs(part.u) })),
  ]
    .map((part) => ({ ...part, u: part.u * factor }))
    .filter((part) => part.u > 0);
  return {
    value: predictive.mean * factor,
    u: Math.hypot(...parts.map((part) => part.u)),
    lo95: Math.max(0, predictive.quantile(0.025) * factor),
    hi95: predictive.quantile(0.975) * factor,
    unit,
    ...(parts.length > 0 ? { parts } : {}),
  };
}

/** A limit that the reckoning sets: it has no error of its own. */
export const limitOf = (value: number, unit: string): Reported => ({
  value,
  u: 0,
  lo95: value,
  hi95: value,
  unit,
});

export interface Shrunk {
  moreRuns: number;
  bound: number;
}

/**
 * Where the bound would lie on average with so many more runs of the same engine: factor t(n-1) sqrt(1 + 1/n) for
 * the runs' own spread, of which few runs show on average too little; what they share unchanged. Empty where the
 * spread was taken for granted (one run).
 */
export function boundWithMoreRuns(
  model: DemandModel,
  probability: number,
  factor: number,
  moreRuns: readonly number[] = [1, 2, 5],
): Shrunk[] {
  const { predictive, runs } = model;
  const shared = Math.hypot(...model.sharedParts.map((part) => part.u));
  const own2 = predictive.readingU ** 2 * runs;
  const z = upper(probability, 1e6);
  const above = (n: number, degreesOfFreedom: number) =>
    Math.hypot(
      upper(probability, degreesOfFreedom) *
        meanSpreadSeen(degreesOfFreedom) *
        Math.hypot(predictive.spread * Math.sqrt(1 + 1 / n), Math.sqrt(own2 / n)),
      z * shared,
    );
  const now = predictive.quantile(probability) - predictive.mean;
  const df = predictive.degreesOfFreedom;
  // a spread taken for granted says nothing of what the next runs will spread
  if (df === null) return [];
  // what the formula says of the runs there are is set right by what was reckoned exactly
  const asNow = above(runs, df);
  const later = (n: number, freedom: number) => (asNow > 0 ? (now / asNow) * above(n, freedom) : now);
  return moreRuns.map((more) => ({
    moreRuns: more,
    bound: factor * (predictive.mean + later(runs + more, df + more)),
  }));
}
