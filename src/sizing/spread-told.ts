import { chiSquaredBelow } from "../statistics/chi-squared.ts";
import { type Observation, weightedFit } from "./weighted-fit.ts";

export interface SpreadTold {
  mean: number;
  /** variance of the mean if the run-to-run variance is so much */
  varianceOfMean(variance: number): number;
  /** confidence from 0 to 1 that the run-to-run variance is at most so much */
  confidence(variance: number): number;
  /** error of the mean that the runs' own errors leave */
  readingU: number;
  /** how far a well-read run lies from the mean, all errors together: the length to measure spreads by */
  oneRun: number;
}

/**
 * What runs with errors of their own tell of the mean and of the run-to-run variance. Weights are settled once, by the
 * variance that the squares of what is left make most plausible. Those squares, weighed, are a sum whose mean and variance
 * are known for every run-to-run variance: as a multiple of chi-squared with fitting degrees of freedom (Satterthwaite,
 * Biometrics Bulletin 2, 1946) they say how far the variance may go. With equal errors that is exact, and the degrees of
 * freedom are the runs less what was fitted.
 * @param scale what runs stray with the worst of their errors, more than 0
 */
export function spreadTold(
  observations: readonly Observation[],
  atLoad: number | undefined,
  scale: number,
): SpreadTold {
  const variance = plausibleVariance(observations, atLoad, scale);
  const { mean, weights, parts, left, covariance } = weightedFit(observations, atLoad, variance);
  const places = observations.map((_, i) => i);
  const w = (i: number) => weights[i] ?? 0;
  const own = (i: number) => (observations[i]?.u ?? 0) ** 2;
  // what is left of run i, in terms of the strays of all: relieved[i][k]
  const relieved = places.map((i) => places.map((k) => (i === k ? 1 : 0) - covariance(i, k) * w(k)));
  const squares = left.reduce((sum, one, i) => sum + (w(i) * one) ** 2, 0);
  let [mean0, mean1, half0, half1, half2] = [0, 0, 0, 0, 0];
  for (const i of places) {
    for (const j of places) {
      let [fromErrors, fromRuns] = [0, 0];
      for (const k of places) {
        const both = (relieved[i]?.[k] ?? 0) * (relieved[j]?.[k] ?? 0);
        fromErrors += both * own(k);
        fromRuns += both;
      }
      if (i === j) {
        mean0 += w(i) ** 2 * fromErrors;
        mean1 += w(i) ** 2 * fromRuns;
      }
      const weight = (w(i) * w(j)) ** 2;
      half0 += weight * fromErrors ** 2;
      half1 += 2 * weight * fromErrors * fromRuns;
      half2 += weight * fromRuns ** 2;
    }
  }
  const [ofErrors, ofRuns] = parts.reduce(
    ([errors, runs], part, i) => [errors + part ** 2 * own(i), runs + part ** 2],
    [0, 0],
  );
  return {
    mean,
    readingU: Math.sqrt(ofErrors),
    oneRun: Math.sqrt(observations.length / weights.reduce((a, b) => a + b, 0)),
    varianceOfMean: (at) => ofErrors + at * ofRuns,
    confidence: (at) => {
      const expected = mean0 + at * mean1;
      const degreesOfFreedom = expected ** 2 / (half0 + at * half1 + at * at * half2);
      return 1 - chiSquaredBelow((degreesOfFreedom * squares) / expected, degreesOfFreedom);
    },
  };
}

const LEAST = 1e-8;
const STEP = 2;
const HALVINGS = 30;

/** The smallest variance that leaves squares no larger than it lets expect. Where all errors are alike no weight hangs on it. */
function plausibleVariance(
  observations: readonly Observation[],
  atLoad: number | undefined,
  scale: number,
): number {
  if (observations.every(({ u }) => u === observations[0]?.u)) return scale * scale;
  const tooSmall = (spread: number) =>
    weightedFit(observations, atLoad, spread * spread).squaresOverExpected > 1;
  let high = LEAST * scale;
  if (!tooSmall(high)) return high * high;
  while (tooSmall(high)) high *= STEP;
  let low = high / STEP;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (tooSmall(middle)) low = middle;
    else high = middle;
  }
  return high * high;
}
