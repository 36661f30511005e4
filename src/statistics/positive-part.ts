import { normalBelow, normalDensity } from "./normal-distribution.ts";

/** What lies above 0 of a normal variable. */
export interface PositivePart {
  mean: number;
  /** how likely it is above 0: what the mean moves by for each unit that the variable's own mean moves by */
  share: number;
  /** standard deviation of what is left once its straight line through the variable, of slope `share`, is taken off */
  uBent: number;
}

/**
 * Mean of the greater of X and 0 for a normal X, with which the greater of two normals A and B is B + (A - B) where that
 * is above 0 (Clark, Operations Research 9 (1961) 145, eqs. 2-4, correlation and all).
 * @throws RangeError for a standard deviation below 0
 */
export function positivePart(mean: number, sd: number): PositivePart {
  if (!(sd >= 0)) throw new RangeError(`positivePart: sd ${sd}, permitted 0 or more`);
  if (sd === 0) return { mean: Math.max(mean, 0), share: mean > 0 ? 1 : 0, uBent: 0 };
  const share = normalBelow(mean / sd);
  const density = sd * normalDensity(mean / sd);
  const above = mean * share + density;
  const square = (mean ** 2 + sd ** 2) * share + mean * density;
  return { mean: above, share, uBent: Math.sqrt(Math.max(0, square - above ** 2 - (share * sd) ** 2)) };
}
