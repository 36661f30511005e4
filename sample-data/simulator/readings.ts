import type { Random } from "./random.ts";

/**
 * One honest reading: the true value, an error, and the rounding to the division of the scale. The declared
 * standard uncertainty is of the whole: the error is made smaller by the rounding's own d/sqrt(12) (GUM,
 * JCGM 100:2008, 4.3.7 and F.2.2.1).
 * @throws RangeError when the rounding alone would be more than the declared uncertainty
 */
export function reading(trueValue: number, uncertainty: number, division: number, random: Random): number {
  const rest = uncertainty ** 2 - division ** 2 / 12;
  if (!(rest >= 0)) {
    throw new RangeError(`reading: uncertainty ${uncertainty} is less than the rounding to ${division}`);
  }
  return rounded(trueValue + Math.sqrt(rest) * random.normal(), division);
}

/** To the nearest division, without the tail of binary fractions. */
export const rounded = (value: number, division: number): number =>
  Number((Math.round(value / division) * division).toFixed(6)) + 0;
