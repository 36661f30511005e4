/**
 * Value at a rank (1 is the lowest) of values in rising order, straight between neighbours for a rank that is not
 * whole.
 * @throws RangeError for no values or a rank beyond them
 */
export function quantileAt(sorted: ArrayLike<number>, rank: number, where: string): number {
  const low = sorted[Math.floor(rank) - 1];
  const high = sorted[Math.ceil(rank) - 1];
  if (low === undefined || high === undefined) {
    throw new RangeError(`${where}: rank ${rank} of ${sorted.length} values, permitted 1 to their count`);
  }
  return low + (rank - Math.floor(rank)) * (high - low);
}

/** How many values are equal, for each value that more than one bears. */
export function tieSizes(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((count) => count > 1);
}

/**
 * The middle value, or the mean of the middle two. Of our own: the library's, which selects, would be a kilobyte more of
 * what a phone loads first.
 * @throws RangeError for no values
 */
export function median(values: readonly number[]): number {
  const sorted = new Float64Array(values).sort();
  return quantileAt(sorted, (sorted.length + 1) / 2, "median");
}
