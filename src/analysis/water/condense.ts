import { vectorOf } from "../../statistics/vector.ts";
import type { BalanceInput } from "./balance-factors.ts";
import type { MassReading } from "./mass-reading.ts";

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
  const groups = groupsOf(input, Math.ceil(noise.length / ENOUGH)).map((members) => {
    const total = members.reduce((sum, i) => sum + 1 / (noise[i] as number), 0);
    return members.map((i) => ({ i, share: 1 / (noise[i] as number) / total }));
  });
  return {
    mean: (ofReadings) =>
      vectorOf(groups, (group) =>
        group.reduce((sum, { i, share }) => sum + share * (ofReadings[i] as number), 0),
      ),
    noise: vectorOf(groups, (group) =>
      group.reduce((sum, { i, share }) => sum + share ** 2 * (noise[i] as number), 0),
    ),
  };
}

function groupsOf({ readings, effects }: BalanceInput, size: number): number[][] {
  const bounds = effects.flatMap((effect) => effect.within.flat());
  const alike = (a: MassReading, b: MassReading) =>
    a.of === b.of && !bounds.some((atS) => atS > a.atS && atS <= b.atS);
  const groups: number[][] = [];
  readings.forEach((reading, i) => {
    const [open, before] = [groups.at(-1), readings[i - 1]];
    const within = i > 1 && i < readings.length - 1;
    if (within && open !== undefined && before !== undefined && open.length < size && alike(before, reading))
      open.push(i);
    else groups.push([i]);
  });
  return groups;
}
