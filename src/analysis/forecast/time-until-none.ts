import { coverageFactor } from "../../statistics/student-t.ts";

/** A quantity that goes at a rate, with the variances of both and what they share. */
export interface Draining {
  left: number;
  rate: number;
  leftVariance: number;
  rateVariance: number;
  covariance: number;
  degreesOfFreedom: number;
}

/**
 * All times at which it may be gone: (left - t rate)^2 = k^2 x its variance, solved for t (Fieller, J. R. Stat. Soc. B 16,
 * 1954, 175). From no time at all where it may be gone already, and then it can only last longer than is said;
 * without end where the rate may be none.
 * @param level e.g. 0.9
 */
export function timeUntilNone(
  { left, rate, leftVariance, rateVariance, covariance, degreesOfFreedom }: Draining,
  level: number,
): [soonest: number, latest: number] {
  const ends = (k: number): [number, number] => {
    const square = rate ** 2 - k ** 2 * rateVariance;
    const middle = left * rate - k ** 2 * covariance;
    const root = Math.sqrt(Math.max(0, middle ** 2 - square * (left ** 2 - k ** 2 * leftVariance)));
    return [(middle - root) / square, square > 0 ? (middle + root) / square : Number.POSITIVE_INFINITY];
  };
  const [soonest, latest] = ends(coverageFactor(level, degreesOfFreedom));
  return soonest > 0 ? [soonest, latest] : [0, ends(coverageFactor(2 * level - 1, degreesOfFreedom))[1]];
}

/**
 * Normal distribution function to 0.0002, which is ample for a chance in tenths: Bowling et al., J. Ind. Eng. Manag. 2,
 * 2009, 114.
 */
const normalBelow = (z: number): number => 1 / (1 + Math.exp(-z * (1.5976 + 0.07056 * z ** 2)));

/**
 * Chance that one is gone before another, whose errors are its own: that its left x the other's rate is less than the
 * other's left x its rate.
 */
export function chanceFirst(one: Draining, other: Draining): number {
  const varianceOf = (a: Draining, b: Draining): number =>
    b.rate ** 2 * a.leftVariance + b.left ** 2 * a.rateVariance - 2 * b.rate * b.left * a.covariance;
  const later = one.left * other.rate - other.left * one.rate;
  return normalBelow(-later / Math.sqrt(varianceOf(one, other) + varianceOf(other, one)));
}
