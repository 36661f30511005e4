import { decimalsFor, printed } from "../../quantity/digits.ts";
import { decimalsBeside } from "../../quantity/digits-beside.ts";
import type { Reported } from "../../quantity/reported.ts";

/**
 * `7.9 (7.5 to 8.3) g/min`, or the reason why there is no figure.
 * @param beside figures that it is compared with by eye: all are given the same digits
 */
export function figureInWords(
  figure: Reported,
  unit: string,
  factor = 1,
  beside: readonly Reported[] = [],
): string {
  if (figure.value === null) return `not to be had: ${figure.why}`;
  const width = figure.hi95 - figure.lo95;
  const decimals = decimalsBeside(beside) ?? decimalsFor((width / 2) * factor, figure.value * factor);
  const show = (value: number) => printed(value * factor, decimals);
  const range = width > 0 ? ` (${show(figure.lo95)} to ${show(figure.hi95)})` : "";
  return `${show(figure.value)}${range} ${unit}`.trimEnd();
}

/** Why there is no figure, without what would mend it, which a reason says after a colon. */
export const reasonInShort = (why: string): string => why.split(": ")[0] ?? why;
