import { mixture, type Node, type Predictive } from "./mixture.ts";
import { type SpreadTold, spreadTold } from "./spread-told.ts";
import { type Observation, weightedFit } from "./weighted-fit.ts";

export type { Observation, Predictive };

export interface PredictiveOptions {
  /** standard uncertainty that all runs share: no number of runs averages it away */
  sharedU: number;
  /** spread of one run against another, taken for granted where one run alone tells none */
  assumedSpread: number;
  /** spreads thought likely before any run: log-normal about the median; if absent, as told with `predictiveOf` */
  usualSpread?: { median: number; logSd: number };
  /** load of the future run: the figure is then a line in the load, fitted to the runs */
  atLoad?: number;
}

/** Step and reach of the sum over the logarithm of the spread; finer or farther changes nothing in the 6th digit. */
const STEP = 0.1;
const LOWEST = 1e-3;
const HIGHEST = 1e7;
const NEGLIGIBLE = 1e-12;
/** Spreads farther than so many standard deviations from the usual one are not thought of. */
const REACH = 6;

/**
 * Distribution of one future value, given runs with their own errors, over the run-to-run spread t that is not known.
 * How far the runs allow t comes from the squares of what is left of them: at the true t they follow chi-squared, so the
 * part of it that lies above them is the confidence that the spread is less than t. Where even t = 0 is too much for them,
 * the rest of the confidence goes to 0: runs may be alike, but not spread less than nothing. Without reading errors this
 * is the classical prediction limit, mean + t(n-1) s sqrt(1 + 1/n) (Hahn & Meeker, Statistical Intervals; USEPA Unified
 * Guidance 2009, 18.1); with them the readings' share of the scatter is not counted a second time for the run to come.
 * (Generalised confidence for a component of variance: Weerahandi, Exact Statistical Methods for Data Analysis, 1995.)
 * Such a limit keeps its promise for any spread; with few runs it pays for that by lying far out, and its probabilities
 * lie too near the middle. `usualSpread`, weighed by the likelihood, takes its place where the probability is wanted.
 * @throws RangeError for no observations
 */
export function predictiveOf(observations: readonly Observation[], options: PredictiveOptions): Predictive {
  const [first] = observations;
  if (first === undefined) throw new RangeError("predictiveOf: 0 observations, wanted 1 or more");
  const { sharedU, usualSpread, atLoad } = options;
  const degreesOfFreedom = observations.length - (atLoad === undefined ? 1 : 2);
  if (degreesOfFreedom < 1) {
    const sd = Math.hypot(options.assumedSpread, first.u, sharedU);
    return mixture([{ weight: 1, spread: options.assumedSpread, mean: first.value, sd }], first.u, null);
  }
  const plain = plainFit(observations, atLoad);
  const noSpread =
    usualSpread === undefined ? !(plain.scale > 1e-12 * Math.abs(plain.mean)) : !(usualSpread.median > 0);
  if (noSpread) {
    return mixture([{ weight: 1, spread: 0, mean: plain.mean, sd: sharedU }], 0, degreesOfFreedom);
  }
  const runs = spreadTold(observations, atLoad, plain.scale);
  const nodes =
    usualSpread === undefined ? told(runs, sharedU) : believed(observations, usualSpread, options);
  return mixture(nodes, runs.readingU, degreesOfFreedom);
}

/** Mean, and a length that spreads are measured by, from runs all weighed alike. */
function plainFit(observations: readonly Observation[], atLoad: number | undefined) {
  const alike = observations.map((one) => ({ ...one, u: 0 }));
  const { mean, squaresOverExpected } = weightedFit(alike, atLoad, 1);
  const errors = observations.reduce((sum, { u }) => sum + u * u, 0) / observations.length;
  return { mean, scale: Math.sqrt(Math.max(squaresOverExpected, errors)) };
}

/** Spreads by the confidence that the runs give them. */
function told(runs: SpreadTold, sharedU: number): Node[] {
  const cells = Math.ceil(Math.log(HIGHEST / LOWEST) / STEP);
  const spreadAt = (k: number) => runs.oneRun * LOWEST * Math.exp(k * STEP);
  const nodeOf = (spread: number, weight: number): Node => {
    const sd = Math.sqrt(spread * spread + runs.varianceOfMean(spread * spread) + sharedU ** 2);
    return { weight, spread, mean: runs.mean, sd };
  };
  const confidences: number[] = [];
  for (let k = 0; k <= cells && (confidences.at(-1) ?? 0) < 1 - NEGLIGIBLE; k++) {
    confidences.push(runs.confidence(spreadAt(k) ** 2));
  }
  const last = confidences.length - 1;
  const at = (k: number) => confidences[Math.min(last, Math.max(0, k))] ?? 0;
  const inside = (k: number) => at(k + 1) - at(k);
  const bend = (k: number) => inside(k - 1) - 2 * inside(k) + inside(k + 1);
  const bendOfBend = (k: number) => bend(k - 1) - 2 * bend(k) + bend(k + 1);
  const nodes = [nodeOf(0, at(0)), nodeOf(spreadAt(last), 1 - at(last))];
  for (let k = 0; k < last; k++) {
    // slope in the middle of the cell by central differences: its sum over all cells is exact to the 6th digit
    const weight = inside(k) - bend(k) / 24 + (3 * bendOfBend(k)) / 640;
    if (Math.abs(weight) > NEGLIGIBLE) nodes.push(nodeOf(spreadAt(k + 0.5), weight));
  }
  return nodes.sort((a, b) => a.spread - b.spread);
}

/** Spreads by how usual they are and how likely they make the runs. */
function believed(
  observations: readonly Observation[],
  { median, logSd }: { median: number; logSd: number },
  options: PredictiveOptions,
): Node[] {
  const raw: (Node & { log: number })[] = [];
  for (let log = -REACH * logSd; log <= REACH * logSd; log += STEP) {
    const node = nodeAt(observations, median * Math.exp(log), options);
    raw.push({ ...node, log: node.logLikelihood - (log / logSd) ** 2 / 2 });
  }
  const most = Math.max(...raw.map(({ log }) => log));
  const total = raw.reduce((sum, { log }) => sum + Math.exp(log - most), 0);
  return raw
    .map((node) => ({ ...node, weight: Math.exp(node.log - most) / total }))
    .filter(({ weight }) => weight > 1e-9);
}

function nodeAt(observations: readonly Observation[], spread: number, options: PredictiveOptions) {
  const { mean, varianceOfMean, logLikelihood } = weightedFit(observations, options.atLoad, spread * spread);
  const sd = Math.sqrt(spread * spread + varianceOfMean + options.sharedU ** 2);
  return { weight: 0, spread, mean, sd, logLikelihood };
}
