import { coverageFactor } from "./student-t.ts";
import { studentUpperTail } from "./student-t-tail.ts";

export interface Spread {
  count: number;
  mean: number;
  /** standard deviation of a sample (over n - 1) */
  sd: number;
}

/** @throws RangeError for fewer than two values */
export function spreadOf(values: readonly number[]): Spread {
  const count = values.length;
  if (count < 2) throw new RangeError(`spreadOf: ${count} values, wanted two or more`);
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { count, mean, sd: Math.sqrt(squares / (count - 1)) };
}

export interface Welch {
  /** mean of the first less mean of the second */
  difference: number;
  u: number;
  t: number;
  df: number;
  pTwoSided: number;
  interval: readonly [number, number];
}

/**
 * Two groups of unequal spread (Welch 1947): difference of means with Student's t at the degrees of freedom of Welch
 * and Satterthwaite.
 * @throws RangeError for a group of fewer than two, or two groups without any spread
 */
export function welch(first: readonly number[], second: readonly number[], level = 0.95): Welch {
  const [a, b] = [spreadOf(first), spreadOf(second)];
  const [va, vb] = [a.sd ** 2 / a.count, b.sd ** 2 / b.count];
  const u = Math.sqrt(va + vb);
  if (u === 0) throw new RangeError("welch: neither group has any spread, wanted some in one at least");
  const df = (va + vb) ** 2 / (va ** 2 / (a.count - 1) + vb ** 2 / (b.count - 1));
  const difference = a.mean - b.mean;
  const half = coverageFactor(level, df) * u;
  const t = difference / u;
  return {
    difference,
    u,
    t,
    df,
    pTwoSided: 2 * studentUpperTail(Math.abs(t), df),
    interval: [difference - half, difference + half],
  };
}
