/** One run's figure: `u` is its own random error; `load` where runs are told apart by it. */
export interface Observation {
  value: number;
  u: number;
  load?: number;
}

export interface WeightedFit {
  mean: number;
  varianceOfMean: number;
  /** restricted logarithmic likelihood of the run-to-run variance, but for a constant */
  logLikelihood: number;
  /** squares of what is left, each by its weight squared, over what they are worth on average if the variance is right */
  squaresOverExpected: number;
  /** weights of the runs, the part that each has in the mean, and what is left of each */
  weights: number[];
  parts: number[];
  left: number[];
  /** covariance of two runs' fitted values */
  covariance(i: number, j: number): number;
}

/**
 * Weighted mean, or line in the load read at `atLoad`, where runs differ by `variance` besides their own errors: weights
 * w = 1/(variance + u^2). A run that is read poorly counts little in the mean, and its stray from the mean, which is its
 * reading's and not the runs', counts by the square of that.
 * @param variance more than 0 where a run has no error of its own
 */
export function weightedFit(
  observations: readonly Observation[],
  atLoad: number | undefined,
  variance: number,
): WeightedFit {
  const loads = observations.map(({ load }) => (atLoad === undefined ? 0 : (load ?? 0) - atLoad));
  const weights = observations.map(({ u }) => 1 / (variance + u * u));
  let [w0, w1, w2, y0, y1, logWeights] = [0, 0, 0, 0, 0, 0];
  observations.forEach(({ value }, i) => {
    const [w, x] = [weights[i] ?? 0, loads[i] ?? 0];
    w0 += w;
    w1 += w * x;
    w2 += w * x * x;
    y0 += w * value;
    y1 += w * x * value;
    logWeights += Math.log(w);
  });
  const determinant = atLoad === undefined ? w0 : w0 * w2 - w1 * w1;
  const [corner, side, other] =
    atLoad === undefined ? [1 / w0, 0, 0] : [w2 / determinant, -w1 / determinant, w0 / determinant];
  const mean = corner * y0 + side * y1;
  const slope = side * y0 + other * y1;
  const covariance = (i: number, j: number) => {
    const [a, b] = [loads[i] ?? 0, loads[j] ?? 0];
    return corner + side * (a + b) + other * a * b;
  };
  const left = observations.map(({ value }, i) => value - mean - slope * (loads[i] ?? 0));
  let [squares, squaresTwice, expected] = [0, 0, 0];
  left.forEach((one, i) => {
    const w = weights[i] ?? 0;
    squares += w * one * one;
    squaresTwice += w * w * one * one;
    expected += w - w * w * covariance(i, i);
  });
  return {
    mean,
    varianceOfMean: corner,
    logLikelihood: (logWeights - Math.log(determinant) - squares) / 2,
    squaresOverExpected: squaresTwice / expected,
    weights,
    parts: weights.map((w, i) => w * (corner + side * (loads[i] ?? 0))),
    left,
    covariance,
  };
}
