/** Between two points as the line is drawn; null before the first and after the last. */
export function valueOn(
  points: readonly (readonly [number, number, ...number[]])[],
  at: number,
): number | null {
  const next = points.findIndex(([t]) => t >= at);
  const after = points[next];
  if (after === undefined) return null;
  const before = points[next - 1];
  if (before === undefined || after[0] === before[0]) return after[0] === at ? after[1] : null;
  const along = (at - before[0]) / (after[0] - before[0]);
  return before[1] + along * (after[1] - before[1]);
}
