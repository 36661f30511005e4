import { normalBelow, normalDensity } from "../statistics/normal-distribution.ts";

/** One run's figure: `u` is its own random error; `load` where runs are told apart by it. */
export interface Observation {
  value: number;
  u: number;
  load?: number;
}

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

/** What one future run may need, as a mixture of normals over the spread that is not known. */
export interface Predictive {
  mean: number;
  /** run-to-run spread, standard deviation: the median of what the runs allow */
  spread: number;
  /** error of the mean that the runs' own random errors leave */
  readingU: number;
  /** runs less what was fitted to them; null where the spread was assumed */
  degreesOfFreedom: number | null;
  probabilityBelow(value: number): number;
  /** @throws RangeError unless 0 < probability < 1 */
  quantile(probability: number): number;
}

interface Node {
  weight: number;
  spread: number;
  mean: number;
  sd: number;
}

/** Step and reach of the sum over the logarithm of the spread; finer or farther changes nothing in the 5th digit. */
const STEP = 0.1;
const LOWEST = 1e-3;
const HIGHEST = 1e7;
/** Spreads farther than so many standard deviations from the usual one are not thought of. */
const REACH = 6;

/**
 * Distribution of one future value, given runs with their own errors. Run-to-run spread t has the prior
 * t/(t^2 + u^2) dt (Jeffreys' rule for a spread seen through an error u), the mean or line a flat one. Without
 * reading errors this is the classical prediction limit, mean + t(n-1) s sqrt(1 + 1/n) (Hahn & Meeker,
 * Statistical Intervals; USEPA Unified Guidance 2009, 18.1); with them the readings' share of the scatter is not
 * counted a second time for the run to come. Such a limit keeps its promise for any spread; with few runs it pays for
 * that by lying far out, and its probabilities lie too near the middle. `usualSpread` takes the prior's place where the
 * probability itself is wanted.
 * @throws RangeError for no observations
 */
export function predictiveOf(observations: readonly Observation[], options: PredictiveOptions): Predictive {
  const [first] = observations;
  if (first === undefined) throw new RangeError("predictiveOf: 0 observations, wanted 1 or more");
  const withLoad = options.atLoad !== undefined;
  const fitted = withLoad ? 2 : 1;
  const degreesOfFreedom = observations.length - fitted;
  if (observations.length === 1 || degreesOfFreedom < 1) {
    const sd = Math.hypot(options.assumedSpread, first.u, options.sharedU);
    return mixture([{ weight: 1, spread: options.assumedSpread, mean: first.value, sd }], first.u, null);
  }
  const meanU2 = observations.reduce((sum, { u }) => sum + u * u, 0) / observations.length;
  const plainFit = fitAt(observations, options.atLoad, 1, 0);
  const scale = Math.max(Math.sqrt(plainFit.squares / degreesOfFreedom), Math.sqrt(meanU2));
  const readingU = Math.sqrt(meanU2 / observations.length);
  const { usualSpread } = options;
  const noSpread =
    usualSpread === undefined ? !(scale > 1e-12 * Math.abs(plainFit.mean)) : !(usualSpread.median > 0);
  if (noSpread) {
    return mixture([{ weight: 1, spread: 0, mean: plainFit.mean, sd: options.sharedU }], 0, degreesOfFreedom);
  }
  const [lowest, highest] =
    usualSpread === undefined
      ? [scale * LOWEST, scale * HIGHEST]
      : [-1, 1].map((side) => usualSpread.median * Math.exp(side * REACH * usualSpread.logSd));
  const logPrior = (spread: number) =>
    usualSpread === undefined
      ? 2 * Math.log(spread) - Math.log(spread * spread + meanU2)
      : -((Math.log(spread / usualSpread.median) / usualSpread.logSd) ** 2) / 2;
  const raw: (Node & { log: number })[] = [];
  for (let log = Math.log(lowest ?? 0); log <= Math.log(highest ?? 0); log += STEP) {
    const spread = Math.exp(log);
    const fit = fitAt(observations, options.atLoad, 0, spread * spread);
    raw.push({
      log: logPrior(spread) + fit.logLikelihood,
      weight: 0,
      spread,
      mean: fit.mean,
      sd: Math.sqrt(spread * spread + fit.varianceOfMean + options.sharedU ** 2),
    });
  }
  const most = Math.max(...raw.map((node) => node.log));
  const total = raw.reduce((sum, node) => sum + Math.exp(node.log - most), 0);
  const nodes = raw
    .map((node) => ({ ...node, weight: Math.exp(node.log - most) / total }))
    .filter((node) => node.weight > 1e-9);
  return mixture(nodes, readingU, degreesOfFreedom);
}

interface Fit {
  mean: number;
  varianceOfMean: number;
  /** weighted squares of what is left */
  squares: number;
  logLikelihood: number;
}

/** Weighted mean, or line in the load read at `atLoad`; weights 1/(extraVariance + u^2), or all alike. */
function fitAt(
  observations: readonly Observation[],
  atLoad: number | undefined,
  alike: 0 | 1,
  extraVariance: number,
): Fit {
  const x = ({ load }: Observation) => (atLoad === undefined ? 0 : (load ?? 0) - atLoad);
  let [w0, w1, w2, y0, y1, logWeights] = [0, 0, 0, 0, 0, 0];
  const weightOf = ({ u }: Observation) => (alike === 1 ? 1 : 1 / (extraVariance + u * u));
  for (const one of observations) {
    const weight = weightOf(one);
    w0 += weight;
    w1 += weight * x(one);
    w2 += weight * x(one) ** 2;
    y0 += weight * one.value;
    y1 += weight * x(one) * one.value;
    logWeights += Math.log(weight);
  }
  const isLine = atLoad !== undefined;
  const determinant = isLine ? w0 * w2 - w1 * w1 : w0;
  const mean = isLine ? (w2 * y0 - w1 * y1) / determinant : y0 / w0;
  const slope = isLine ? (w0 * y1 - w1 * y0) / determinant : 0;
  const squares = observations.reduce(
    (sum, one) => sum + weightOf(one) * (one.value - mean - slope * x(one)) ** 2,
    0,
  );
  return {
    mean,
    varianceOfMean: isLine ? w2 / determinant : 1 / w0,
    squares,
    logLikelihood: (logWeights - Math.log(determinant) - squares) / 2,
  };
}

function mixture(nodes: readonly Node[], readingU: number, degreesOfFreedom: number | null): Predictive {
  const mean = nodes.reduce((sum, node) => sum + node.weight * node.mean, 0);
  const probabilityBelow = (value: number) => {
    let sum = 0;
    for (const { weight, mean: centre, sd } of nodes) {
      sum += weight * (sd > 0 ? normalBelow((value - centre) / sd) : value >= centre ? 1 : 0);
    }
    return sum;
  };
  const density = (value: number) => {
    let sum = 0;
    for (const { weight, mean: centre, sd } of nodes) {
      sum += sd > 0 ? (weight * normalDensity((value - centre) / sd)) / sd : 0;
    }
    return sum;
  };
  const spread = medianSpread(nodes);
  const known = new Map<number, number>();
  const quantile = (probability: number) => {
    if (!(probability > 0 && probability < 1)) {
      throw new RangeError(`quantile: probability ${probability}, permitted more than 0 and less than 1`);
    }
    const value = known.get(probability) ?? invert(probability, probabilityBelow, density, mean, nodes);
    known.set(probability, value);
    return value;
  };
  return { mean, spread, readingU, degreesOfFreedom, probabilityBelow, quantile };
}

/** Newton's method kept between bounds that close in on the answer. */
function invert(
  probability: number,
  probabilityBelow: (value: number) => number,
  density: (value: number) => number,
  mean: number,
  nodes: readonly Node[],
): number {
  const widest = Math.max(...nodes.map((node) => node.sd));
  if (widest === 0) return mean;
  let [low, high] = [mean - 40 * widest, mean + 40 * widest];
  let value = mean;
  for (let i = 0; i < 200; i++) {
    const over = probabilityBelow(value) - probability;
    if (Math.abs(over) < 1e-13) break;
    if (over > 0) high = value;
    else low = value;
    const next = value - over / density(value);
    const step = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(step - value) <= 1e-12 * (Math.abs(value) + widest)) break;
    value = step;
  }
  return value;
}

function medianSpread(nodes: readonly Node[]): number {
  let sum = 0;
  for (const node of nodes) {
    sum += node.weight;
    if (sum >= 0.5) return node.spread;
  }
  return nodes.at(-1)?.spread ?? 0;
}
