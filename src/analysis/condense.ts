import { vectorOf } from "../statistics/vector.ts";
import type { BalanceInput } from "./balance-factors.ts";

/** So many readings are weighed one by one; more are put together with their neighbours, for speed. */
const ENOUGH = 20;

/** Readings put together: each group a weighted mean of neighbours. */
export interface Condensed {
  /** the mean of any quantity of the readings in each group */
  mean(ofReadings: Float64Array): Float64Array;
  /** variance of the mean of independent errors */
  noise: Float64Array;
}

/**
 * Neighbouring readings of one kind within one phase are put together by their weights. All that is linear in time
 * within the phase, and every error in common, passes through a mean unchanged, so that next to nothing is lost but the
 * finest of the stray. First and last readings, which bound the totals, stay by themselves.
 * @param noise variance of each reading's own error
 */
export function condensed(input: BalanceInput, noise: Float64Array): Condensed {
  const n = noise.length;
  const size = Math.ceil(n / ENOUGH);
  const groups = size === 1 ? Array.from({ length: n }, (_, i) => [i]) : groupsOf(input, size);
  const weights = groups.map((group) => {
    const total = group.reduce((sum, i) => sum + 1 / (noise[i] as number), 0);
    return group.map((i) => 1 / (noise[i] as number) / total);
  });
  return {
    mean: (ofReadings) =>
      vectorOf(groups, (group, g) =>
        group.reduce((sum, i, k) => sum + (weights[g]?.[k] ?? 0) * (ofReadings[i] as number), 0),
      ),
    noise: vectorOf(groups, (group, g) =>
      group.reduce((sum, i, k) => sum + (weights[g]?.[k] ?? 0) ** 2 * (noise[i] as number), 0),
    ),
  };
}

function groupsOf({ readings, effects }: BalanceInput, size: number): number[][] {
  const bounds = effects.flatMap((effect) => effect.within.flat());
  const apart = (i: number, j: number) => {
    const [a, b] = [readings[i], readings[j]];
    if (a === undefined || b === undefined || a.of !== b.of) return true;
    return bounds.some((atS) => atS > a.atS && atS <= b.atS);
  };
  const groups: number[][] = [];
  const last = readings.length - 1;
  for (let i = 0; i <= last; i++) {
    const open = groups.at(-1);
    const previous = open?.at(-1);
    const alone = i <= 1 || i === last || previous === undefined || open === undefined;
    if (alone || open.length >= size || apart(previous, i)) groups.push([i]);
    else open.push(i);
  }
  return groups;
}
