/** A point of a line: uncertainties are standard ones; `uX` absent or 0 where the abscissa is exact. */
export interface LinePoint {
  x: number;
  y: number;
  uY: number;
  uX?: number;
}

/** y = intercept + slope x, with the covariance of the two. */
export interface Line {
  intercept: number;
  slope: number;
  uIntercept: number;
  uSlope: number;
  /** covariance of intercept and slope */
  covariance: number;
  /** weighted sum of squared residuals, and the degrees of freedom it is judged by */
  chiSquared: number;
  free: number;
}

/** Rounds of the search where both axes are in error, and the change of the slope that ends it. */
const MOST_ROUNDS = 100;
const SETTLED = 1e-12;

/**
 * The straight line through points with known uncertainties, of y alone or of both axes, none correlated
 * (York et al., Am. J. Phys. 72 (2004) 367; for exact x the weighted least squares of ISO/TS 28037:2010, 6).
 * @throws RangeError for fewer than two different abscissae, a uY not above 0, or a search that does not settle
 */
export function fittedLine(points: readonly LinePoint[]): Line {
  const first = points[0];
  if (first === undefined || points.every((point) => point.x === first.x))
    throw new RangeError(
      `fittedLine: ${points.length} points, wanted at least two with different x for a slope`,
    );
  for (const { uY, uX = 0 } of points) {
    if (!(uY > 0 && uX >= 0)) throw new RangeError(`fittedLine: uY ${uY}, uX ${uX}, permitted above 0 and 0`);
  }
  let slope = steeper(points, 0);
  if (points.every((point) => (point.uX ?? 0) === 0)) return lineOf(points, slope);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = steeper(points, slope);
    if (Math.abs(next - slope) <= SETTLED * Math.max(Math.abs(next), 1e-9)) return lineOf(points, next);
    slope = next;
  }
  throw new RangeError(`fittedLine: the slope did not settle within ${MOST_ROUNDS} rounds`);
}

interface Weighted {
  weight: number;
  /** point moved onto the line along its own errors, from the mean */
  along: number;
  dx: number;
  dy: number;
}

function weighted(points: readonly LinePoint[], slope: number) {
  const weights = points.map(({ uY, uX = 0 }) => 1 / (uY * uY + slope * slope * uX * uX));
  const total = weights.reduce((a, b) => a + b, 0);
  const meanX = points.reduce((sum, { x }, i) => sum + (weights[i] ?? 0) * x, 0) / total;
  const meanY = points.reduce((sum, { y }, i) => sum + (weights[i] ?? 0) * y, 0) / total;
  const list = points.map(({ x, y, uY, uX = 0 }, i): Weighted => {
    const weight = weights[i] ?? 0;
    const [dx, dy] = [x - meanX, y - meanY];
    return { weight, dx, dy, along: weight * (dx * uY * uY + slope * dy * uX * uX) };
  });
  return { list, total, meanX, meanY };
}

/** One round of York's equation for the slope. */
function steeper(points: readonly LinePoint[], slope: number): number {
  const { list } = weighted(points, slope);
  const up = list.reduce((sum, { weight, along, dy }) => sum + weight * along * dy, 0);
  const over = list.reduce((sum, { weight, along, dx }) => sum + weight * along * dx, 0);
  return up / over;
}

function lineOf(points: readonly LinePoint[], slope: number): Line {
  const { list, total, meanX, meanY } = weighted(points, slope);
  const meanAlong = list.reduce((sum, { weight, along }) => sum + weight * along, 0) / total;
  const spread = list.reduce((sum, { weight, along }) => sum + weight * (along - meanAlong) ** 2, 0);
  const centre = meanX + meanAlong;
  return {
    slope,
    intercept: meanY - slope * meanX,
    uSlope: Math.sqrt(1 / spread),
    uIntercept: Math.sqrt(1 / total + centre ** 2 / spread),
    covariance: -centre / spread,
    chiSquared: list.reduce((sum, { weight, dx, dy }) => sum + weight * (dy - slope * dx) ** 2, 0),
    free: points.length - 2,
  };
}

/**
 * The line with its uncertainty taken from the scatter of the points about it instead of from what was declared
 * (ordinary least squares where all uY were the same). Its factor for an interval is Student's t of `free`.
 * @throws RangeError where no degree of freedom is left
 */
export function fromScatter(line: Line): Line {
  if (line.free < 1) throw new RangeError(`fromScatter: ${line.free} degrees of freedom, wanted 1 or more`);
  const variance = line.chiSquared / line.free;
  return {
    ...line,
    uIntercept: line.uIntercept * Math.sqrt(variance),
    uSlope: line.uSlope * Math.sqrt(variance),
    covariance: line.covariance * variance,
  };
}

/** Height of the line at x, with its standard uncertainty. */
export function heightAt(line: Line, x: number): { value: number; u: number } {
  const variance = line.uIntercept ** 2 + x ** 2 * line.uSlope ** 2 + 2 * x * line.covariance;
  return { value: line.intercept + line.slope * x, u: Math.sqrt(Math.max(0, variance)) };
}

/**
 * Where the line reaches y (ISO/TS 28037:2010, 11.1), to first order.
 * @throws RangeError for a level line
 */
export function abscissaOf(line: Line, y: number, uY: number): { value: number; u: number } {
  if (line.slope === 0) throw new RangeError("abscissaOf: the slope is 0, wanted another");
  const value = (y - line.intercept) / line.slope;
  return { value, u: Math.hypot(uY, heightAt(line, value).u) / Math.abs(line.slope) };
}

/**
 * The straight line through the origin: slope, its uncertainty from the declared uY, and the scatter.
 * @throws RangeError where every x is 0
 */
export function lineThroughOrigin(
  points: readonly LinePoint[],
): Omit<Line, "intercept" | "uIntercept" | "covariance"> {
  const sum = (value: (point: LinePoint) => number) =>
    points.reduce((total, point) => total + value(point) / point.uY ** 2, 0);
  const squares = sum(({ x }) => x * x);
  if (!(squares > 0))
    throw new RangeError(`lineThroughOrigin: ${points.length} points, wanted an x other than 0`);
  const slope = sum(({ x, y }) => x * y) / squares;
  return {
    slope,
    uSlope: Math.sqrt(1 / squares),
    chiSquared: sum(({ x, y }) => (y - slope * x) ** 2),
    free: points.length - 1,
  };
}
