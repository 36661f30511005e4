import { type Cholesky, cholesky } from "../../statistics/cholesky.ts";
import { addDiagonal, addSquare, addTimes, dot } from "../../statistics/vector.ts";
import type { Factor } from "./balance-factors.ts";
import { strayCovariance } from "./demand-wander.ts";

/** A stray of the demand that may be: its size as a part of the mean rate, and how long it remembers itself, s. */
export interface Stray {
  size: number;
  memoryS: number;
}

/** The strays tried. */
export const STRAYS: readonly Stray[] = [30, 150].flatMap((memoryS) =>
  [0.04, 0.14, 0.4].map((size) => ({ size, memoryS })),
);
/** Strays with less than this part of the mean weight are left out. */
const NEGLIGIBLE = 0.02;

export interface WeighedStray {
  memoryS: number;
  /** g/s */
  rateGPerS: number;
  /** how likely the readings make it; all together 1 */
  weight: number;
  /** of the covariance of the readings under this stray */
  covariance: Cholesky;
  /** inverse covariance x readings */
  explained: Float64Array;
  /** covariance of the readings' stray for a rate of unit variance, s2; lower triangle */
  unitStray: Float64Array;
}

export interface StrayGrid {
  weighed: readonly WeighedStray[];
  /** how much larger than declared all errors must be for the readings to be likely; 1 if they are */
  errorFactor: number;
}

export interface ReadingsToExplain {
  /** g, about 0 */
  y: Float64Array;
  /** variance of each reading's own error, g2 */
  noise: Float64Array;
  factors: readonly Factor[];
  /** seconds of lively demand from the first reading to each */
  lively: Float64Array;
  meanRateGPerS: number;
  /** unknowns that the readings must fix */
  unknowns: number;
}

/** Weighs strays by their marginal likelihood. */
export function strayGrid(explain: ReadingsToExplain, strays: readonly Stray[]): StrayGrid {
  const { y, lively, meanRateGPerS } = explain;
  const n = y.length;
  const still = stillCovariance(explain);
  const unit = new Map(
    [...new Set(strays.map((stray) => stray.memoryS))].map((m) => [m, strayMatrix(lively, m)]),
  );
  const points = strays.map(({ size, memoryS }) => {
    const rateGPerS = size * meanRateGPerS;
    const unitStray = unit.get(memoryS) ?? new Float64Array(n * n);
    const matrix = still.slice();
    addTimes(matrix, rateGPerS ** 2, unitStray);
    const covariance = cholesky(matrix, n);
    const explained = covariance.solve(y);
    const misfit = dot(y, explained);
    const logLikelihood = -0.5 * (misfit + covariance.logDeterminant);
    return { memoryS, rateGPerS, covariance, unitStray, explained, misfit, logLikelihood };
  });
  const best = points.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
  const raw = points.map((point) => Math.exp(point.logLikelihood - best.logLikelihood));
  const mean = raw.reduce((a, b) => a + b, 0) / raw.length;
  const kept = points
    .map((point, i) => ({ ...point, weight: raw[i] ?? 0 }))
    .filter((point) => point.weight > NEGLIGIBLE * mean);
  const total = kept.reduce((sum, point) => sum + point.weight, 0);
  return {
    weighed: kept.map((point) => ({ ...point, weight: point.weight / total })),
    errorFactor: beyondChance(best.misfit, n - explain.unknowns),
  };
}

/**
 * Readings that scatter more than declared errors and any stray allow (chi-squared beyond 2.5 standard deviations):
 * all errors are larger by the root of the ratio (Birge, Phys. Rev. 40 (1932) 207). Never smaller than declared.
 */
function beyondChance(chiSquared: number, free: number): number {
  const ratio = chiSquared / free;
  return ratio > 1 + 2.5 * Math.sqrt(2 / free) ? Math.sqrt(ratio) : 1;
}

/** Covariance of the readings without any stray: own errors and all causes in common. Lower triangle. */
function stillCovariance({ noise, factors }: ReadingsToExplain): Float64Array {
  const n = noise.length;
  const matrix = new Float64Array(n * n);
  for (const { ofReadings } of factors) addSquare(matrix, ofReadings);
  addDiagonal(matrix, noise);
  return matrix;
}

function strayMatrix(lively: Float64Array, memoryS: number): Float64Array {
  const n = lively.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++)
      matrix[i * n + j] = strayCovariance(lively[i] as number, lively[j] as number, memoryS);
  }
  return matrix;
}
