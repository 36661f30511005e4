import type { Reported } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";

/**
 * What the missing quantity is, and that its trend alone counts; null where it is not to be had.
 * @param words how it is put into words, in per cent, by who prints it; and without its range
 */
export function missingSentence(
  engine: Report["engine"],
  words: (figure: Reported) => string | null,
  bareWords = words,
): string | null {
  const missing = engine?.missingQuantity;
  if (missing === undefined || missing.value === null) return null;
  const share =
    missing.lo95 > 0
      ? words(missing)
      : `perhaps none and at most ${bareWords({ ...missing, value: missing.hi95 })}`;
  return `With a chest pressure that is thought of and not read, ${share} of the steam she drew condensed in the cylinders or leaked past: watch the trend of this at like pressure and speed, its value tells little.`;
}
