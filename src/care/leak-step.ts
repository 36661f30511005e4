/** A level that rose at once. */
export interface Step {
  /** from this x on */
  fromX: number;
  before: number;
  after: number;
}

/** Readings of the level before a rise, and after it. */
const BEFORE = 3;
const AFTER = 2;
/**
 * By so much must two levels fit better than any course, chi squared: the place was sought out; and more where only
 * two readings stand for the second one (our choice).
 */
const BETTER_BY = 9;
const BETTER_BY_OF_TWO = 14;

interface Weighted {
  x: number;
  y: number;
  sd: number;
}

/**
 * Whether readings rose at once rather than by and by: two steady levels, place sought, against a line. A pure step
 * passes for a trend otherwise.
 */
export function stepIn(points: readonly Weighted[]): Step | null {
  if (points.length < BEFORE + AFTER) return null;
  let best: { step: Step; misfit: number; betterBy: number } | null = null;
  for (let place = BEFORE; place <= points.length - AFTER; place++) {
    const [before, after] = [level(points.slice(0, place)), level(points.slice(place))];
    const misfit = before.misfit + after.misfit;
    if (after.mean > before.mean && (best === null || misfit < best.misfit)) {
      const betterBy = points.length - place > AFTER ? BETTER_BY : BETTER_BY_OF_TWO;
      best = {
        step: { fromX: points[place]?.x ?? 0, before: before.mean, after: after.mean },
        misfit,
        betterBy,
      };
    }
  }
  if (best === null) return null;
  const courses = [1, 1.6, 2.5].map((power) => lineMisfit(points, power));
  return Math.min(...courses) - best.misfit > best.betterBy ? best.step : null;
}

function level(points: readonly Weighted[]): { mean: number; misfit: number } {
  const weight = points.reduce((sum, { sd }) => sum + 1 / sd ** 2, 0);
  const mean = points.reduce((sum, { y, sd }) => sum + y / sd ** 2, 0) / weight;
  return { mean, misfit: points.reduce((sum, { y, sd }) => sum + ((y - mean) / sd) ** 2, 0) };
}

function lineMisfit(points: readonly Weighted[], power: number): number {
  let [w, wz, wzz, wy, wzy, wyy] = [0, 0, 0, 0, 0, 0];
  for (const { x, y, sd } of points) {
    const [z, weight] = [x ** power, 1 / sd ** 2];
    w += weight;
    wz += weight * z;
    wzz += weight * z * z;
    wy += weight * y;
    wzy += weight * z * y;
    wyy += weight * y * y;
  }
  const spread = wzz - (wz * wz) / w;
  const own = wyy - (wy * wy) / w;
  return spread > 0 ? own - (wzy - (wz * wy) / w) ** 2 / spread : own;
}
