import { studentTQuantile } from "./student-t-quantile.ts";

/** Beyond this many degrees of freedom Student's t is the normal to four digits. */
const AS_GOOD_AS_NORMAL = 1e6;

/** The factor asked for most, reckoned once. */
const NORMAL_95 = studentTQuantile(0.975, AS_GOOD_AS_NORMAL);

/**
 * Two-sided coverage factor of Student's t.
 * @param level e.g. 0.95
 * @param degreesOfFreedom > 0; Infinity for the normal
 */
export function coverageFactor(level: number, degreesOfFreedom: number): number {
  if (!(level > 0 && level < 1))
    throw new RangeError(`coverageFactor: level ${level} is not between 0 and 1`);
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`coverageFactor: ${degreesOfFreedom} degrees of freedom, wanted more than 0`);
  }
  if (degreesOfFreedom >= AS_GOOD_AS_NORMAL && level === 0.95) return NORMAL_95;
  return studentTQuantile((1 + level) / 2, Math.min(degreesOfFreedom, AS_GOOD_AS_NORMAL));
}
