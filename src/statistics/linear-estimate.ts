import { cholesky } from "./cholesky.ts";
import { addDiagonal, addSquare, addTimes, dot, dotSquares, quadratic } from "./vector.ts";

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
  /** signed: by how much a standard error of each reading's own moves the figure */
  ofNoise: Float64Array;
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
  /** by how much that rises for a standard error of each reading's own, and for a unit of each cause */
  likelierBy(): { noise: Float64Array; causes: readonly number[] };
}

/** Of the largest variance: what keeps readings with next to no error of their own from failing by rounding. */
const ROUNDING = 1e-14;

export function linearEstimator({ y, noise, causes, wander }: ReadingsWithCauses): LinearEstimator {
  const n = y.length;
  const matrix = wander?.slice() ?? new Float64Array(n * n);
  for (const cause of causes) addSquare(matrix, cause);
  addDiagonal(matrix, noise);
  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, matrix[i * n + i] as number);
  addDiagonal(matrix, new Float64Array(n).fill(ROUNDING * largest));
  const covariance = cholesky(matrix, n);
  const explained = covariance.solve(y);
  const misfit = dot(y, explained);
  return {
    misfit,
    logLikelihood: -0.5 * (misfit + covariance.logDeterminant),
    likelierBy: () => {
      const ofNoise = new Float64Array(n);
      for (let i = 0; i < n; i++) ofNoise[i] = -(explained[i] as number) * Math.sqrt(noise[i] as number);
      return { noise: ofNoise, causes: causes.map((cause) => -dot(explained, cause)) };
    },
    estimate: (ofWanted, ofReadings = new Float64Array(n)) => {
      const together = new Float64Array(n);
      causes.forEach((cause, c) => {
        addTimes(together, ofWanted[c] ?? 0, cause);
      });
      // a reading free of its error is the reading less the best estimate of that error
      for (let i = 0; i < n; i++)
        together[i] = (together[i] as number) - (noise[i] as number) * (ofReadings[i] as number);
      const beside = covariance.solve(together);
      const weights = beside.slice();
      addTimes(weights, 1, ofReadings);
      const ofNoise = new Float64Array(n);
      for (let i = 0; i < n; i++) ofNoise[i] = (weights[i] as number) * Math.sqrt(noise[i] as number);
      return {
        value: dot(weights, y),
        left: causes.map((cause, c) => (ofWanted[c] ?? 0) - dot(beside, cause)),
        ofNoise,
        uNoise: Math.sqrt(dotSquares(weights, noise)),
        uWander: wander === undefined ? 0 : Math.sqrt(Math.max(0, quadratic(wander, beside))),
      };
    },
  };
}
