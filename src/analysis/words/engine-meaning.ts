import type { Reported } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";
import { shareInWords } from "./shut-in-meaning.ts";

/**
 * What the missing quantity is, and that its trend alone counts; null where it is not to be had.
 * @param rangeOf its range in words, where that does not stand beside
 */
export function missingSentence(
  engine: Report["engine"],
  rangeOf: (figure: Reported) => string | null = () => null,
): string | null {
  const missing = engine?.missingQuantity;
  if (missing === undefined || missing.value === null) return null;
  const range = rangeOf(missing);
  const somewhere = range === null ? "" : `, somewhere from ${range} %,`;
  const share =
    missing.lo95 > 0
      ? `${shareInWords(missing.value)}${somewhere}`
      : range === null
        ? "perhaps none, perhaps much"
        : `anything from ${range} %`;
  return `Of the steam she drew ${share} condensed in the cylinders or leaked past: chest pressure is not read, so watch the trend of this at like pressure and speed, not its value.`;
}
