type Point = readonly [x: number, y: number];

/** Points worth drawing on so many pixels: of each stretch of a long trace the lowest and the highest, in their order. */
export function thinForDrawing(points: readonly Point[], pixels: number): readonly Point[] {
  if (points.length <= 2 * pixels) return points;
  const stretch = points.length / pixels;
  const kept: Point[] = [];
  for (let i = 0; i < pixels; i++) {
    const part = points.slice(Math.floor(i * stretch), Math.floor((i + 1) * stretch));
    let [lowest] = part;
    let [highest] = part;
    for (const point of part) {
      if (lowest === undefined || point[1] < lowest[1]) lowest = point;
      if (highest === undefined || point[1] > highest[1]) highest = point;
    }
    if (lowest === undefined || highest === undefined) continue;
    if (lowest === highest) kept.push(lowest);
    else kept.push(...(lowest[0] < highest[0] ? [lowest, highest] : [highest, lowest]));
  }
  return kept;
}

export const highestOf = (points: readonly Point[]): number =>
  points.reduce((most, [, y]) => Math.max(most, y), Number.NEGATIVE_INFINITY);

export const lowestOf = (points: readonly Point[]): number =>
  points.reduce((least, [, y]) => Math.min(least, y), Number.POSITIVE_INFINITY);
