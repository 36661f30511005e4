import { coverageFactor } from "./student-t.ts";
import { spreadOf } from "./welch.ts";

/**
 * Upper bound that all of the next `future` values keep under with the given confidence, if they come from the same
 * normal spread as those before: mean + t s sqrt(1 + 1/n), the chance shared out evenly among them (Bonferroni; USEPA
 * Unified Guidance 2009, 18.2 and 18.3).
 * @param confidence one-sided, between 0.5 and 1
 * @throws RangeError for fewer than two values
 */
export function predictionBound(values: readonly number[], confidence = 0.95, future = 1): number {
  const { count, mean, sd } = spreadOf(values);
  if (!(confidence > 0.5 && confidence < 1) || !(future >= 1)) {
    throw new RangeError(
      `predictionBound: confidence ${confidence} for ${future} values, permitted 0.5 to 1 for 1 or more`,
    );
  }
  const t = coverageFactor(1 - (2 * (1 - confidence)) / future, count - 1);
  return mean + t * sd * Math.sqrt(1 + 1 / count);
}
