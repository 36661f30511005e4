import type { LinearEstimator } from "../statistics/linear-estimate.ts";
import { normalBelow } from "../statistics/normal-distribution.ts";
import { addTimes, dot } from "../statistics/vector.ts";
import { gathered, type Part } from "./measured.ts";

/** One cause of error, and what a unit of it does to each reading. */
export interface Cause {
  part: Omit<Part, "u">;
  column: Float64Array;
}

/** A way in which things may have been, and how likely the readings make it; all together 1. */
export interface WeighedWay {
  weight: number;
  estimator: LinearEstimator;
}

/** @param beforehand how likely each way is before anything was read, against the others; all alike if absent */
export function weighedWays<Way>(
  ways: readonly Way[],
  estimatorOf: (way: Way) => LinearEstimator,
  beforehand: (way: Way) => number = () => 1,
): WeighedWay[] {
  const estimators = ways.map(estimatorOf);
  const best = Math.max(...estimators.map(({ logLikelihood }) => logLikelihood));
  const raw = estimators.map(
    ({ logLikelihood }, i) => beforehand(ways[i] as Way) * Math.exp(logLikelihood - best),
  );
  const total = raw.reduce((a, b) => a + b, 0);
  return estimators.map((estimator, i) => ({ estimator, weight: (raw[i] ?? 0) / total }));
}

export interface Wanted {
  /** how much a unit of each cause moves the figure; for each way by its place, where it differs */
  ofWanted: readonly number[] | ((place: number) => readonly number[]);
  /** what the figure is thought to be in each way before anything was read; 0 if absent */
  thought?: (place: number) => number;
  ofReadings?: Float64Array;
  unit: string;
  /** of each cause */
  parts: readonly Omit<Part, "u">[];
  /** of what the readings' own errors, the wander, and the ways' disagreement leave */
  names: { readings: string; wander: string; ways: string };
}

/** A way of less weight moves no digit that is told. */
const NEGLIGIBLE = 1e-14;

/**
 * A figure averaged over all ways, with what each cause leaves in it; shared ones signed as they move the figure. An error of
 * a reading moves what each way gives, and how likely each is: both are its part. What the ways disagree about is the rest.
 */
export function averaged(weighed: readonly WeighedWay[], wanted: Wanted) {
  const { ofWanted, ofReadings, unit, names } = wanted;
  const estimates = weighed.flatMap(({ weight, estimator }, place) => {
    if (weight < NEGLIGIBLE) return [];
    const estimate = estimator.estimate(
      typeof ofWanted === "function" ? ofWanted(place) : ofWanted,
      ofReadings,
    );
    const value = estimate.value + (wanted.thought?.(place) ?? 0);
    return [{ ...estimate, ...estimator.likelierBy(), weight, value }];
  });
  type One = (typeof estimates)[number];
  const mean = (of: (estimate: One) => number) =>
    estimates.reduce((sum, estimate) => sum + estimate.weight * of(estimate), 0);
  const root = (square: (estimate: One) => number) => Math.sqrt(Math.max(0, mean(square)));
  const value = mean((estimate) => estimate.value);
  const readings = estimates[0]?.ofNoise.slice().fill(0) ?? new Float64Array();
  for (const estimate of estimates) {
    addTimes(readings, estimate.weight, estimate.ofNoise);
    addTimes(readings, estimate.weight * (estimate.value - value), estimate.noise);
  }
  const left = wanted.parts.map((_, c) => root((estimate) => (estimate.left[c] ?? 0) ** 2));
  const uReadings = Math.sqrt(dot(readings, readings));
  let disagreed = mean((estimate) => estimate.uNoise ** 2 + (estimate.value - value) ** 2) - uReadings ** 2;
  const causes = wanted.parts.map((part, c): Part => {
    const u = left[c] ?? 0;
    if (part.source === undefined) return { ...part, u };
    const moved = mean((one) => (one.value - value) * (one.causes[c] ?? 0) - (one.left[c] ?? 0));
    disagreed += u ** 2 - moved ** 2;
    return { ...part, u: moved };
  });
  const parts: Part[] = [
    { name: names.readings, u: uReadings },
    { name: names.wander, u: root(({ uWander }) => uWander ** 2) },
    { name: names.ways, u: estimates.length > 1 ? Math.sqrt(Math.max(0, disagreed)) : 0 },
    ...causes,
  ];
  const lumps = estimates.map(({ weight, value, uNoise, uWander, left }): Lump => {
    return { weight, value, u: Math.hypot(uNoise, uWander, ...left) };
  });
  return { value, unit, parts: gathered(parts), left, lumps };
}

/** What a figure may be in one way, a normal by itself. */
export interface Lump {
  weight: number;
  value: number;
  u: number;
}

/**
 * The ends between which a figure of many ways lies so many times in 100, as many beyond the one as beyond the other.
 * @param uBeside a further standard uncertainty, the same in all ways
 */
export function rangeOf(lumps: readonly Lump[], uBeside = 0, level = 0.95): [number, number] {
  const wide = lumps.map(({ u, ...lump }) => ({ ...lump, u: Math.hypot(u, uBeside) }));
  const below = (x: number) =>
    wide.reduce(
      (sum, { weight, value, u }) =>
        sum + weight * (u > 0 ? normalBelow((x - value) / u) : x < value ? 0 : 1),
      0,
    );
  const end = (share: number) => {
    let low = Math.min(...wide.map(({ value, u }) => value - FAR * u));
    let high = Math.max(...wide.map(({ value, u }) => value + FAR * u));
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (below(middle) < share) low = middle;
      else high = middle;
    }
    return { low, high };
  };
  return [end((1 - level) / 2).low, end((1 + level) / 2).high];
}

/** Beyond so many standard uncertainties there is nothing. */
const FAR = 6;
const HALVINGS = 40;
