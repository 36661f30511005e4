import { cholesky } from "./cholesky.ts";
import { dot } from "./vector.ts";

/**
 * Best linear estimate from readings whose causes are known: y = sum of causes + own errors, every cause an
 * independent number of mean 0 and unit variance that moves each reading by what `ofReadings` says. With prior means
 * taken off y, this is the Bayesian linear model, and for wide priors generalised least squares
 * (Rao & Toutenburg, Linear Models, 1995, 3.2 and 4.2).
 */
export interface ReadingsWithCauses {
  /** about their prior means */
  y: Float64Array;
  /** variance of each reading's own error */
  noise: Float64Array;
  causes: readonly Float64Array[];
  /** further covariance of the readings, row by row, lower triangle; none if absent */
  wander?: Float64Array;
}

export interface LinearEstimate {
  value: number;
  /** signed: how much of each cause is left in the figure, for a unit of it */
  left: readonly number[];
  /** standard uncertainties from the readings' own errors and from the wander */
  uNoise: number;
  uWander: number;
}

export interface LinearEstimator {
  /**
   * @param ofWanted how much a unit of each cause moves the wanted figure
   * @param ofReadings and how much each reading does, were it free of its own error; none if absent
   */
  estimate(ofWanted: readonly number[], ofReadings?: Float64Array): LinearEstimate;
  /** squares of the readings about their prior means, weighed by their covariance */
  misfit: number;
  logLikelihood: number;
}

/** Of the largest variance: what keeps readings with next to no error of their own from failing by rounding. */
const ROUNDING = 1e-14;

export function linearEstimator({ y, noise, causes, wander }: ReadingsWithCauses): LinearEstimator {
  const n = y.length;
  const matrix = wander === undefined ? new Float64Array(n * n) : Float64Array.from(wander);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j] as number;
      for (const cause of causes) sum += (cause[i] as number) * (cause[j] as number);
      matrix[i * n + j] = sum;
    }
    matrix[i * n + i] = (matrix[i * n + i] as number) + (noise[i] as number);
  }
  const largest = Array.from({ length: n }, (_, i) => matrix[i * n + i] as number).reduce(
    (a, b) => Math.max(a, b),
    0,
  );
  for (let i = 0; i < n; i++) matrix[i * n + i] = (matrix[i * n + i] as number) + ROUNDING * largest;
  const covariance = cholesky(matrix, n);
  const explained = covariance.solve(y);
  const misfit = dot(y, explained);
  return {
    misfit,
    logLikelihood: -0.5 * (misfit + covariance.logDeterminant),
    estimate: (ofWanted, ofReadings = new Float64Array(n)) => {
      const together = new Float64Array(n);
      causes.forEach((cause, c) => {
        const mine = ofWanted[c] ?? 0;
        if (mine !== 0)
          for (let i = 0; i < n; i++) together[i] = (together[i] as number) + mine * (cause[i] as number);
      });
      // a reading free of its error is the reading less the best estimate of that error
      for (let i = 0; i < n; i++)
        together[i] = (together[i] as number) - (noise[i] as number) * (ofReadings[i] as number);
      const beside = covariance.solve(together);
      const weights = beside.map((weight, i) => weight + (ofReadings[i] as number));
      return {
        value: dot(weights, y),
        left: causes.map((cause, c) => (ofWanted[c] ?? 0) - dot(beside, cause)),
        uNoise: Math.sqrt(weights.reduce((sum, w, i) => sum + w * w * (noise[i] as number), 0)),
        uWander: wander === undefined ? 0 : Math.sqrt(Math.max(0, quadratic(wander, beside))),
      };
    },
  };
}

function quadratic(lower: Float64Array, x: Float64Array): number {
  const n = x.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const xi = x[i] as number;
    sum += xi * xi * (lower[i * n + i] as number);
    for (let j = 0; j < i; j++) sum += 2 * xi * (x[j] as number) * (lower[i * n + j] as number);
  }
  return sum;
}
