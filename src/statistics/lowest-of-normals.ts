import { normalBelow, normalDensity } from "./normal-distribution.ts";

const FAR = 8;
const STEPS = 400;
const known = new Map<number, { mean: number; sd: number }>();

/**
 * Mean and standard deviation of the lowest of so many independent standard normal values, by Simpson's rule over its
 * density n phi(x) (1 - Phi(x))^(n - 1) (David & Nagaraja, Order Statistics, 2003, 3.1).
 * @throws RangeError for a count below 1
 */
export function lowestOfNormals(count: number): { mean: number; sd: number } {
  if (!(count >= 1)) throw new RangeError(`lowestOfNormals: count ${count}, permitted 1 or more`);
  const before = known.get(count);
  if (before !== undefined) return before;
  const step = (2 * FAR) / STEPS;
  let [first, second] = [0, 0];
  for (let i = 0; i <= STEPS; i++) {
    const x = -FAR + i * step;
    const weight = (i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2) * (step / 3);
    const density = count * normalDensity(x) * normalBelow(-x) ** (count - 1);
    first += weight * density * x;
    second += weight * density * x * x;
  }
  const lowest = { mean: first, sd: Math.sqrt(second - first ** 2) };
  known.set(count, lowest);
  return lowest;
}
