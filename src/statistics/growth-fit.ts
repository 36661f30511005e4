import { studentUpperTail } from "./student-t-tail.ts";

export interface GrowthPoint {
  x: number;
  y: number;
  /** standard deviation of y, right but for one factor common to all points */
  sd: number;
}

/** A course y = level + rise (x/xReference)^power that is thought likely in proportion to its weight. */
export interface Course {
  power: number;
  weight: number;
}

export interface GrowthPrior {
  courses: readonly Course[];
  /** as if so many points had shown the given standard deviations to be just; 0 for no trust in them */
  trustInSd: number;
  /** what is thought of y at x = 0 before any reading; null for nothing */
  start: { y: number; sd: number } | null;
}

export interface GrowthFit {
  /** chance that y at x lies above `y`; with `readingSd` that a further reading there would, in the unit of sd */
  chanceAbove(x: number, y: number, readingSd?: number): number;
  /** mean of what y at x may be, and its standard deviation; with `readingSd` that of a further reading there */
  at(x: number): number;
  spreadAt(x: number, readingSd?: number): number;
  /** rise of y for 1 of x, mean over the course so far, and its standard uncertainty */
  slope: { value: number; u: number; degreesOfFreedom: number };
}

/** A straight line of which nothing is known before, its scatter read off the points alone. */
export const STRAIGHT: GrowthPrior = { courses: [{ power: 1, weight: 1 }], trustInSd: 0, start: null };

/**
 * Weighted least squares for each course; what is not known (level, rise, common factor of sd, course) is averaged over
 * by Bayes' rule, so y at any x follows a mixture of Student's t (Box & Tiao, Bayesian Inference in Statistical
 * Analysis, 1973, 2.7). With STRAIGHT this is the classical line, and the x at which `chanceAbove` takes a value is
 * inverse prediction by Fieller's theorem.
 * @throws RangeError where fewer points are given than must be estimated, or they do not differ in x
 */
export function fitGrowth(points: readonly GrowthPoint[], prior: GrowthPrior = STRAIGHT): GrowthFit {
  const reference = Math.max(...points.map((point) => point.x));
  const known = prior.start === null ? [] : [{ x: 0, ...prior.start }];
  const freedom = points.length + known.length + prior.trustInSd - 2;
  if (!(reference > 0) || freedom <= 0 || points.some((point) => !(point.sd > 0) || point.x < 0)) {
    throw new RangeError(
      `fitGrowth: ${points.length} points up to x = ${reference}, wanted three or more at x from 0 with sd above 0`,
    );
  }
  const lines = prior.courses.map(({ power, weight }) => {
    const line = weightedLine([...points, ...known], (x) => (x / reference) ** power);
    const scatter = (prior.trustInSd + line.squares) / freedom;
    return {
      ...line,
      power,
      scatter,
      log: Math.log(weight) - line.logInformation / 2 - (freedom / 2) * Math.log(scatter),
    };
  });
  const top = Math.max(...lines.map((line) => line.log));
  const total = lines.reduce((sum, line) => sum + Math.exp(line.log - top), 0);
  const mixed = lines.map((line) => ({ ...line, share: Math.exp(line.log - top) / total }));
  const mean = (of: (line: (typeof mixed)[number]) => number) =>
    mixed.reduce((sum, line) => sum + line.share * of(line), 0);
  const rise = mean((line) => line.rise);
  const at = (x: number) => mean((line) => line.at((x / reference) ** line.power));
  return {
    chanceAbove: (x, y, readingSd = 0) =>
      mean((line) => {
        const spread = line.scatter * (line.varianceAt((x / reference) ** line.power) + readingSd ** 2);
        return studentUpperTail((y - line.at((x / reference) ** line.power)) / Math.sqrt(spread), freedom);
      }),
    at,
    spreadAt: (x, readingSd = 0) =>
      Math.sqrt(
        mean((line) => {
          const z = (x / reference) ** line.power;
          return line.scatter * (line.varianceAt(z) + readingSd ** 2) + (line.at(z) - at(x)) ** 2;
        }),
      ),
    slope: {
      value: rise / reference,
      u: Math.sqrt(mean((line) => line.scatter * line.riseVariance + (line.rise - rise) ** 2)) / reference,
      degreesOfFreedom: freedom,
    },
  };
}

/** Points nearer together than this part of where they stand are at one place. */
const ONE_PLACE = 1e-10;

/** Line through points by their weights; variances are in the unit of the given sd. */
function weightedLine(points: readonly GrowthPoint[], abscissa: (x: number) => number) {
  const list = points.map(({ x, y, sd }) => ({ z: abscissa(x), y, weight: 1 / sd ** 2 }));
  const total = (of: (point: (typeof list)[number]) => number) =>
    list.reduce((sum, point) => sum + of(point), 0);
  const w = total(({ weight }) => weight);
  const zMean = total(({ weight, z }) => weight * z) / w;
  const yMean = total(({ weight, y }) => weight * y) / w;
  const furthest = Math.max(...list.map(({ z }) => Math.abs(z)));
  if (!list.some(({ z }) => Math.abs(z - zMean) > ONE_PLACE * furthest))
    throw new RangeError("fitGrowth: all points stand at one x, wanted two or more");
  const spread = total(({ weight, z }) => weight * (z - zMean) ** 2);
  const rise = total(({ weight, z, y }) => weight * (z - zMean) * (y - yMean)) / spread;
  const at = (z: number) => yMean + rise * (z - zMean);
  return {
    rise,
    at,
    varianceAt: (z: number) => 1 / w + (z - zMean) ** 2 / spread,
    riseVariance: 1 / spread,
    logInformation: Math.log(w) + Math.log(spread),
    squares: points.reduce((sum, { x, y, sd }) => sum + ((y - at(abscissa(x))) / sd) ** 2, 0),
  };
}

/**
 * Least x from `from` on at which a rising function takes `wanted`, found by halving; null where it does not up to `to`.
 */
export function firstReaching(
  rising: (x: number) => number,
  wanted: number,
  from: number,
  to: number,
  relativeTolerance = 1e-6,
): number | null {
  if (rising(from) >= wanted) return from;
  if (rising(to) < wanted) return null;
  let [low, high] = [from, to];
  for (let step = 0; step < 60 && high - low > relativeTolerance * Math.abs(high); step++) {
    const middle = (low + high) / 2;
    if (rising(middle) >= wanted) high = middle;
    else low = middle;
  }
  return high;
}
