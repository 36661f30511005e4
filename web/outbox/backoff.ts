const FIRST_MS = 400;
const LONGEST_MS = 5000;

/** How long to wait after the n-th failure in a row: twice as long each time, a little uneven so that phones do not ask in step. */
export function waitMs(failures: number, chance: number, longestMs = LONGEST_MS): number {
  const even = Math.min(longestMs, FIRST_MS * 2 ** Math.max(0, failures - 1));
  return Math.round(even * (0.75 + 0.5 * chance));
}
