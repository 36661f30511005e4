import { median } from "simple-statistics";
import { normalBelow } from "./normal-distribution.ts";
import { tieSizes } from "./order.ts";

export interface RankSum {
  /** pairs in which the first group's value is the larger, ties as halves (Mann and Whitney's count) */
  w: number;
  /** Hodges-Lehmann: median of all differences, first less second */
  shift: number;
  /** chance of so large a w or larger, so small or smaller, and so far out, if the groups did not differ */
  pUpper: number;
  pLower: number;
  pTwoSided: number;
  exact: boolean;
}

/** So many ways of dealing the values to the groups are gone through one by one. */
const MOST_DEALS = 30_000;

/**
 * Rank sum test of two groups (Wilcoxon; Hollander & Wolfe, Nonparametric Statistical Methods, 1973, ch. 4): exact for
 * small groups, tied or not, else the normal with tie-corrected variance and continuity correction.
 * @throws RangeError for an empty group
 */
export function rankSum(first: readonly number[], second: readonly number[]): RankSum {
  const [n, m] = [first.length, second.length];
  if (n === 0 || m === 0)
    throw new RangeError(`rankSum: groups of ${n} and ${m}, wanted one or more in each`);
  const differences = first.flatMap((a) => second.map((b) => a - b));
  const w = differences.reduce((sum, d) => sum + (d > 0 ? 1 : d === 0 ? 0.5 : 0), 0);
  const all = [...first, ...second];
  const exact = deals(n + m, n) <= MOST_DEALS;
  const [pUpper, pLower] = exact ? countedOut(all, n, w) : byNormal(all, n, m, w);
  return {
    w,
    shift: median(differences),
    pUpper,
    pLower,
    pTwoSided: Math.min(1, 2 * Math.min(pUpper, pLower)),
    exact,
  };
}

function deals(all: number, hand: number): number {
  let count = 1;
  for (let i = 1; i <= hand; i++) count = (count * (all - hand + i)) / i;
  return count;
}

function countedOut(values: readonly number[], hand: number, w: number): [number, number] {
  // twice the mid-rank, so that halves stay whole numbers
  const ranks = values.map((value) =>
    values.reduce((sum, other) => sum + (other < value ? 2 : other === value ? 1 : 0), 1),
  );
  const sums: Map<number, number>[] = Array.from({ length: hand + 1 }, () => new Map<number, number>());
  sums[0]?.set(0, 1);
  for (const rank of ranks) {
    for (let held = hand; held >= 1; held--) {
      for (const [sum, ways] of sums[held - 1] ?? []) {
        const more = sums[held];
        more?.set(sum + rank, (more.get(sum + rank) ?? 0) + ways);
      }
    }
  }
  const own = 2 * w + hand * (hand + 1);
  let [total, above, below] = [0, 0, 0];
  for (const [sum, ways] of sums[hand] ?? []) {
    total += ways;
    if (sum >= own) above += ways;
    if (sum <= own) below += ways;
  }
  return [above / total, below / total];
}

function byNormal(values: readonly number[], n: number, m: number, w: number): [number, number] {
  const all = n + m;
  const ties = tieSizes(values).reduce((sum, t) => sum + t ** 3 - t, 0);
  const sd = Math.sqrt(((n * m) / 12) * (all + 1 - ties / (all * (all - 1))));
  if (sd === 0) return [1, 1];
  const off = w - (n * m) / 2;
  return [normalBelow((0.5 - off) / sd), normalBelow((off + 0.5) / sd)];
}
