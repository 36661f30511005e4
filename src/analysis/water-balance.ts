import type { Measured, Part } from "../quantity/measured.ts";
import { at, type Cholesky, cholesky, dot } from "../statistics/cholesky.ts";
import {
  type BalanceInput,
  type Combination,
  errorFactors,
  type Factor,
  recordedMoves,
} from "./balance-factors.ts";
import { strayCovariance } from "./demand-wander.ts";

/**
 * The water of a boiler against time, all readings weighed by their errors (generalised least squares).
 *
 *   reading = start - drawn(t) + moved(t) + pumped(t) + errors
 *   drawn(t) = steady rate of each phase x time + stray of the demand
 *
 * Reading errors are as declared, never smaller. Feed errors accumulate, those of one scale together. Size and
 * memory of the stray are not known: the answer is averaged over a grid of both, each weighed by how well it
 * explains the readings (its marginal likelihood), so that few readings do not make a bold answer.
 */
export interface WaterBalance {
  fromS: number;
  toS: number;
  /** null where the readings do not fix it */
  estimate(wanted: Combination): Measured | null;
}

/** Sizes of the stray tried, as a part of the mean rate, and its memories, s. */
const STRAY_SIZES = [0.02, 0.06, 0.12, 0.22, 0.4, 0.7];
const MEMORIES_S = [30, 150];
/** Grid points with less than this part of the best one's weight are left out. */
const NEGLIGIBLE = 1e-3;
/** A figure that is left open by more than this part of its usual size is not fixed by the readings. */
const NOT_FIXED = 0.7;

interface GridPoint {
  stray: number;
  memoryS: number;
  factor: Cholesky;
  weight: number;
}

export function waterBalance(input: BalanceInput): WaterBalance | null {
  const { readings } = input;
  const first = readings[0];
  const last = readings.at(-1);
  if (first === undefined || last === undefined || readings.length < 2) return null;

  const n = readings.length;
  const baseline = (of: string) => {
    const reading = readings.find((one) => one.of === of);
    return reading === undefined ? 0 : reading.grams - recordedMoves(input, reading);
  };
  const base = { contents: baseline("contents"), "whole engine": baseline("whole engine") };
  const y = Float64Array.from(
    readings,
    (reading) => reading.grams - recordedMoves(input, reading) - base[reading.of],
  );
  const rangeG = Math.max(...y) - Math.min(...y);
  const lively = Float64Array.from(readings, (reading) => input.livelyS(reading.atS));
  const livelySpan = Math.max(1, at(lively, n - 1) - at(lively, 0));
  const meanRate = Math.max(rangeG, 2 * Math.max(first.uGrams, last.uGrams)) / livelySpan;
  const factors = errorFactors(input, meanRate, rangeG);
  const noise = Float64Array.from(
    readings,
    (reading) => Math.hypot(reading.uGrams, 1e-5 * rangeG, 1e-9) ** 2,
  );

  const unstrayed = unstrayedCovariance(n, noise, factors);
  const strays = MEMORIES_S.map((memoryS) => strayMatrix(lively, memoryS));
  const { grid, noiseFactor } = weighedGrid();

  return { fromS: first.atS, toS: last.atS, estimate };

  function weighedGrid(): { grid: GridPoint[]; noiseFactor: number } {
    const points = MEMORIES_S.flatMap((memoryS, m) =>
      STRAY_SIZES.map((size) => {
        const stray = size * meanRate;
        const matrix = Float64Array.from(unstrayed);
        const strayed = strays[m] ?? matrix;
        for (let i = 0; i < matrix.length; i++) matrix[i] = at(matrix, i) + stray ** 2 * at(strayed, i);
        const factor = cholesky(matrix, n);
        const misfit = dot(y, factor.solve(y));
        return { stray, memoryS, factor, misfit, logLikelihood: -0.5 * (misfit + factor.logDeterminant) };
      }),
    );
    const best = points.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
    const raw = points.map((point) => Math.exp(point.logLikelihood - best.logLikelihood));
    const total = raw.reduce((a, b) => a + b, 0);
    const kept = points
      .map((point, i) => ({ ...point, weight: (raw[i] ?? 0) / total }))
      .filter((point) => point.weight > NEGLIGIBLE / points.length);
    const keptTotal = kept.reduce((a, point) => a + point.weight, 0);
    const free = n - 1 - input.effects.length;
    const ratio = free > 0 ? best.misfit / free : 1;
    // readings that scatter more than declared errors and any stray allow: all errors are that much larger
    const beyondChance = free > 0 && ratio > 1 + 2.5 * Math.sqrt(2 / free);
    return {
      grid: kept.map((point) => ({ ...point, weight: point.weight / keptTotal })),
      noiseFactor: beyondChance ? Math.sqrt(ratio) : 1,
    };
  }

  function estimate(wanted: Combination): Measured | null {
    const own = factors.map((factor) => factor.ofWanted(wanted));
    const contents = wanted.contents ?? [];
    const known = contents.reduce(
      (total, [atS, coefficient]) => total + coefficient * (base.contents + recordedMoves(input, { atS })),
      (wanted.pumpRate ?? 0) * input.pumpPrior.gPerS,
    );
    // what is wanted of the drawn, as moments on the lively clock
    const drawn = [
      ...(wanted.drawn ?? []),
      ...contents.map(([atS, coefficient]) => [atS, -coefficient] as const),
    ].map(([atS, coefficient]) => [input.livelyS(atS) - at(lively, 0), coefficient] as const);
    const covariance = new Float64Array(n);
    factors.forEach((factor, f) => {
      const mine = own[f] ?? 0;
      if (mine === 0) return;
      for (let i = 0; i < n; i++) covariance[i] = at(covariance, i) + mine * at(factor.ofReadings, i);
    });

    const variances = new Array<number>(factors.length).fill(0);
    const signed = new Array<number>(factors.length).fill(0);
    let mean = 0;
    let meanSquare = 0;
    let readingVariance = 0;
    let strayVariance = 0;
    for (const point of grid) {
      const wholeCovariance = Float64Array.from(covariance);
      const strayCov = new Float64Array(n);
      for (let i = 0; i < n; i++) {
        const x = at(lively, i) - at(lively, 0);
        for (const [moment, coefficient] of drawn) {
          strayCov[i] = at(strayCov, i) - coefficient * signedStray(moment, x, point.memoryS);
        }
        strayCov[i] = at(strayCov, i) * point.stray ** 2;
        wholeCovariance[i] = at(wholeCovariance, i) + at(strayCov, i);
      }
      const weights = point.factor.solve(wholeCovariance);
      const value = dot(weights, y);
      mean += point.weight * value;
      meanSquare += point.weight * value ** 2;
      for (let i = 0; i < n; i++) readingVariance += point.weight * at(weights, i) ** 2 * at(noise, i);
      factors.forEach((factor, f) => {
        const left = (own[f] ?? 0) - dot(weights, factor.ofReadings);
        variances[f] = (variances[f] ?? 0) + point.weight * left ** 2;
        signed[f] = (signed[f] ?? 0) + point.weight * left;
      });
      strayVariance += point.weight * point.stray ** 2 * strayLeft(drawn, weights, point.memoryS);
    }
    strayVariance = Math.max(0, strayVariance) + Math.max(0, meanSquare - mean ** 2);

    const leftOfPrior = factors.reduce(
      (sum, factor, f) => sum + (factor.kind === "prior" ? (variances[f] ?? 0) : 0),
      0,
    );
    const usual = factors.reduce(
      (sum, factor, f) => sum + (factor.kind === "prior" ? ((own[f] ?? 0) / factor.timesUsual) ** 2 : 0),
      0,
    );
    if (leftOfPrior > NOT_FIXED ** 2 * usual) return null;

    const parts: Part[] = [
      { name: "readings", u: Math.sqrt(readingVariance) * noiseFactor },
      { name: "demand that was not steady", u: Math.sqrt(strayVariance) * noiseFactor },
      ...factors.map((factor, f) => partOf(factor, Math.sqrt(variances[f] ?? 0), signed[f] ?? 0)),
    ];
    return { value: known + mean, unit: wanted.unit, parts: parts.filter((part) => part.u !== 0) };
  }

  function strayLeft(
    drawn: readonly (readonly [number, number])[],
    weights: Float64Array,
    memoryS: number,
  ): number {
    let left = 0;
    for (const [a, ca] of drawn) for (const [b, cb] of drawn) left += ca * cb * signedStray(a, b, memoryS);
    const matrix = strays[MEMORIES_S.indexOf(memoryS)] ?? new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      const x = at(lively, i) - at(lively, 0);
      const wi = at(weights, i);
      for (const [moment, coefficient] of drawn)
        left += 2 * coefficient * wi * signedStray(moment, x, memoryS);
      for (let j = 0; j < n; j++)
        left += wi * at(weights, j) * at(matrix, Math.max(i, j) * n + Math.min(i, j));
    }
    return left;
  }
}

/** Stray counted from the first reading; before it the other way round, and independent of what came after. */
function signedStray(x: number, y: number, memoryS: number): number {
  if (x < 0 !== y < 0) return 0;
  return strayCovariance(Math.abs(x), Math.abs(y), memoryS);
}

function strayMatrix(lively: Float64Array, memoryS: number): Float64Array {
  const n = lively.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      matrix[i * n + j] = strayCovariance(
        at(lively, i) - at(lively, 0),
        at(lively, j) - at(lively, 0),
        memoryS,
      );
    }
  }
  return matrix;
}

/** Reading errors and factors; the lower triangle only. */
function unstrayedCovariance(n: number, noise: Float64Array, factors: readonly Factor[]): Float64Array {
  const matrix = new Float64Array(n * n);
  for (const { ofReadings } of factors) {
    for (let i = 0; i < n; i++) {
      const fi = at(ofReadings, i);
      if (fi === 0) continue;
      for (let j = 0; j <= i; j++) matrix[i * n + j] = at(matrix, i * n + j) + fi * at(ofReadings, j);
    }
  }
  for (let i = 0; i < n; i++) matrix[i * n + i] = at(matrix, i * n + i) + at(noise, i);
  return matrix;
}

function partOf(factor: Factor, u: number, signed: number): Part {
  if (factor.kind === "shared") return { name: factor.name, u: signed < 0 ? -u : u, source: factor.source };
  return { name: factor.name, u };
}
