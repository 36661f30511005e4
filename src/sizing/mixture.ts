import { normalBelow, normalDensity } from "../statistics/normal-distribution.ts";

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

/** One spread that the runs allow, with what a future run is then. */
export interface Node {
  weight: number;
  spread: number;
  mean: number;
  sd: number;
}

/** Sum of normals by weight; `readingU` and `degreesOfFreedom` are handed on. */
export function mixture(
  nodes: readonly Node[],
  readingU: number,
  degreesOfFreedom: number | null,
): Predictive {
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

export function medianSpread(nodes: readonly Node[]): number {
  let sum = 0;
  for (const node of nodes) {
    sum += node.weight;
    if (sum >= 0.5) return node.spread;
  }
  return nodes.at(-1)?.spread ?? 0;
}
