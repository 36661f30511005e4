import { decimalsFor } from "./digits.ts";
import type { Reported } from "./reported.ts";

/**
 * Decimals of figures that are compared by eye, each in the unit in which it is printed: those of the one that is known best, and
 * so many that the last is at most a hundredth of any of them, so that a difference told in whole per cent is the one seen.
 * Null where none is to be had.
 */
export function decimalsBeside(figures: readonly Reported[]): number | null {
  const wanted = figures.flatMap(({ value, ...figure }) =>
    value === null || !("lo95" in figure) || !(figure.hi95 > figure.lo95)
      ? []
      : [decimalsFor((figure.hi95 - figure.lo95) / 2, value), toAHundredth(value)],
  );
  return wanted.length === 0 ? null : Math.max(...wanted);
}

const toAHundredth = (value: number): number =>
  value === 0 ? 0 : Math.max(0, Math.ceil(2 - Math.log10(Math.abs(value))));
