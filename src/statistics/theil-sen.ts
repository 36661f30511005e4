import { median } from "simple-statistics";
import { discordanceShares, varianceOfS } from "./kendall.ts";
import { fittedLine } from "./line-fit.ts";
import { quantileAt, tieSizes } from "./order.ts";
import { coverageFactor } from "./student-t.ts";

export interface TheilSen {
  slope: number;
  /** median of y - slope x (of Sen's two conventions this one; the other, median y - slope x median x, is not used) */
  intercept: number;
  /** null where so few points cannot give an interval of that level */
  interval: readonly [number, number] | null;
}

/** Up to so many untied points the ranks are counted out. */
const EXACT_UP_TO = 10;

/**
 * Median of the slopes between all pairs of points (Theil 1950; Sen 1968), with Sen's interval.
 * Ranks of the interval are Sen's, (N - C)/2 and (N + C)/2 + 1 of N slopes. For up to ten untied points C is the least
 * value that Kendall's S reaches by chance with no more than 1 - level to either side (counted out; one rank wider than
 * Hollander & Wolfe's, so it holds rather more than `level`); else C = z sqrt(variance), tie-corrected, the ranks
 * straight between neighbouring slopes (USEPA Unified Guidance 2009, 17.3.3).
 * @param readingU standard uncertainty of each y. Where it is given, the interval is nowhere narrower than these errors
 * alone would make it: readings rounded alike tie their slopes together, and ranks then say nothing of the rounding.
 * @throws RangeError where no two points differ in x
 */
export function theilSen(
  x: readonly number[],
  y: readonly number[],
  level = 0.95,
  readingU: readonly number[] | null = null,
): TheilSen {
  const slopes: number[] = [];
  for (let i = 1; i < x.length; i++) {
    for (let j = 0; j < i; j++) {
      const run = (x[i] ?? 0) - (x[j] ?? 0);
      if (run !== 0) slopes.push(((y[i] ?? 0) - (y[j] ?? 0)) / run);
    }
  }
  if (slopes.length === 0 || y.length !== x.length) {
    throw new RangeError(
      `theilSen: ${x.length} x and ${y.length} y, wanted as many and two that differ in x`,
    );
  }
  slopes.sort((a, b) => a - b);
  const slope = median(slopes);
  const byRanks = intervalOf(slopes, x, y, level);
  const half =
    readingU === null ? 0 : coverageFactor(level, Number.POSITIVE_INFINITY) * slopeUncertainty(x, readingU);
  return {
    slope,
    intercept: median(y.map((value, i) => value - slope * (x[i] ?? 0))),
    interval:
      byRanks === null ? null : [Math.min(byRanks[0], slope - half), Math.max(byRanks[1], slope + half)],
  };
}

/** For normal errors the slope strays by so much more than that of least squares, in variance (efficiency 3/pi, from memory). */
const DEARER_THAN_LEAST_SQUARES = Math.PI / 3;

/** Standard uncertainty of the Theil-Sen slope from the errors of the readings alone. */
export function slopeUncertainty(x: readonly number[], readingU: readonly number[]): number {
  if (readingU.some((u) => u === 0)) return 0;
  const { uSlope } = fittedLine(x.map((at, i) => ({ x: at, y: 0, uY: readingU[i] ?? 0 })));
  return Math.sqrt(DEARER_THAN_LEAST_SQUARES) * uSlope;
}

function intervalOf(
  slopes: readonly number[],
  x: readonly number[],
  y: readonly number[],
  level: number,
): readonly [number, number] | null {
  const n = x.length;
  const count = slopes.length;
  const [tiesX, tiesY] = [tieSizes(x), tieSizes(y)];
  const below =
    n <= EXACT_UP_TO && tiesX.length === 0 && tiesY.length === 0
      ? exactBelow(n, (1 - level) / 2)
      : (count - coverageFactor(level, Number.POSITIVE_INFINITY) * Math.sqrt(varianceOfS(n, tiesX, tiesY))) /
        2;
  if (below < 1) return null;
  return [quantileAt(slopes, below, "theilSen"), quantileAt(slopes, count + 1 - below, "theilSen")];
}

/** The most discordant pairs that may be cut off at either side; 0 where none may. */
function exactBelow(n: number, cutOff: number): number {
  let total = 0;
  let most = 0;
  discordanceShares(n).forEach((share, discordant) => {
    total += share;
    if (total <= cutOff + 1e-12) most = discordant;
  });
  return most;
}
