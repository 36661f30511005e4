import { normalBelow } from "./normal-distribution.ts";
import { tieSizes } from "./order.ts";

export interface Kendall {
  /** concordant pairs less discordant ones */
  s: number;
  /** tau-b: S over the root of the pairs untied in each; tau where nothing is tied */
  tau: number;
  /** of S if y did not depend on x, tie-corrected */
  variance: number;
  /** S, drawn one towards 0, over its standard deviation */
  z: number;
  /** chance of so large an S or larger, of one so small or smaller, and of one so far from 0, with no dependence */
  pUpper: number;
  pLower: number;
  pTwoSided: number;
  exact: boolean;
}

/** Up to so many points without ties the distribution is counted out. */
const EXACT_UP_TO = 50;
/** Up to so many points with ties all orders are gone through (5040 of seven). */
const ALL_ORDERS_UP_TO = 7;

/**
 * Kendall's test of whether y rises or falls with x (Kendall 1938; tie-corrected variance: Kendall, Rank Correlation
 * Methods, 1970, ch. 4). Exact for short series, else the normal with continuity correction.
 * @throws RangeError for fewer than two points or lists of different length
 */
export function kendall(x: readonly number[], y: readonly number[]): Kendall {
  const n = x.length;
  if (n < 2 || y.length !== n) {
    throw new RangeError(`kendall: ${n} and ${y.length} values, wanted two or more and as many of each`);
  }
  const s = concordance(x, y);
  const [tiesX, tiesY] = [tieSizes(x), tieSizes(y)];
  const pairs = (n * (n - 1)) / 2;
  const tied = (ties: readonly number[]) => ties.reduce((sum, t) => sum + (t * (t - 1)) / 2, 0);
  const untied = Math.sqrt((pairs - tied(tiesX)) * (pairs - tied(tiesY)));
  const variance = varianceOfS(n, tiesX, tiesY);
  const z = variance === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance);
  const head = { s, tau: untied === 0 ? 0 : s / untied, variance, z };
  const noTies = tiesX.length === 0 && tiesY.length === 0;
  if (noTies && n <= EXACT_UP_TO) return { ...head, ...sides(upperOfS(n, s), upperOfS(n, -s)), exact: true };
  if (n <= ALL_ORDERS_UP_TO) return { ...head, ...throughAllOrders(x, y, s), exact: true };
  const [pUpper, pLower] = [
    normalBelow((1 - s) / Math.sqrt(variance)),
    normalBelow((1 + s) / Math.sqrt(variance)),
  ];
  return {
    ...head,
    ...(variance === 0 ? sides(1, 1) : sides(Math.min(1, pUpper), Math.min(1, pLower))),
    exact: false,
  };
}

const sides = (pUpper: number, pLower: number) => ({
  pUpper,
  pLower,
  pTwoSided: Math.min(1, 2 * Math.min(pUpper, pLower)),
});

function concordance(x: readonly number[], y: readonly number[]): number {
  let s = 0;
  for (let i = 1; i < x.length; i++) {
    for (let j = 0; j < i; j++) {
      s += Math.sign((x[i] ?? 0) - (x[j] ?? 0)) * Math.sign((y[i] ?? 0) - (y[j] ?? 0));
    }
  }
  return s;
}

/** Variance of S with no dependence, for ties of the given sizes in either list. */
export function varianceOfS(n: number, tiesX: readonly number[], tiesY: readonly number[]): number {
  const sum = (ties: readonly number[], of: (t: number) => number) =>
    ties.reduce((total, t) => total + of(t), 0);
  const v = (t: number) => t * (t - 1) * (2 * t + 5);
  const two = (t: number) => t * (t - 1);
  const three = (t: number) => t * (t - 1) * (t - 2);
  const both = (sum(tiesX, two) * sum(tiesY, two)) / (2 * n * (n - 1));
  const triples = n > 2 ? (sum(tiesX, three) * sum(tiesY, three)) / (9 * n * (n - 1) * (n - 2)) : 0;
  return (v(n) - sum(tiesX, v) - sum(tiesY, v)) / 18 + both + triples;
}

const counted = new Map<number, readonly number[]>();

/** Share of all orders of n different values with so many discordant pairs, from 0 up. */
export function discordanceShares(n: number): readonly number[] {
  const known = counted.get(n);
  if (known !== undefined) return known;
  let shares: number[] = [1];
  for (let size = 2; size <= n; size++) {
    const next = new Array<number>((size * (size - 1)) / 2 + 1).fill(0);
    shares.forEach((share, discordant) => {
      for (let more = 0; more < size; more++) {
        next[discordant + more] = (next[discordant + more] ?? 0) + share / size;
      }
    });
    shares = next;
  }
  counted.set(n, shares);
  return shares;
}

/** Chance of S or more with n untied points. */
function upperOfS(n: number, s: number): number {
  const most = ((n * (n - 1)) / 2 - s) / 2;
  return discordanceShares(n).reduce((sum, share, discordant) => (discordant <= most ? sum + share : sum), 0);
}

function throughAllOrders(x: readonly number[], y: readonly number[], s: number) {
  const order = [...y];
  let [all, above, below] = [0, 0, 0];
  const look = () => {
    const other = concordance(x, order);
    all += 1;
    if (other >= s) above += 1;
    if (other <= s) below += 1;
  };
  // Heap's algorithm: each order once by single exchanges
  const permute = (k: number) => {
    if (k <= 1) {
      look();
      return;
    }
    for (let i = 0; i < k; i++) {
      permute(k - 1);
      const j = k % 2 === 0 ? i : 0;
      const held = order[j] ?? 0;
      order[j] = order[k - 1] ?? 0;
      order[k - 1] = held;
    }
  };
  permute(order.length);
  return sides(above / all, below / all);
}
