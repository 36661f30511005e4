import type { Coverage } from "./coverage.ts";
import { binomialError } from "./threshold.ts";

/** What is promised of each figure: the share held, the mean miss in u, and the width against least squares told the truth. */
const HELD_PER_CENT = { least: 92, most: 98 };
const MEAN_MISS = 0.1;
const WIDTH = 1.5;
/** Chance may carry a row of so many cases past a want by so many standard errors. */
const STANDARD_ERRORS = 2;

/**
 * Where only the range is promised: boilers picked because they leak much. A figure that heeds how large leaks usually are is
 * even over all boilers, so not among some picked by a truth that no reading tells; one that takes all shares of the heat for as
 * likely is even among these (0.06 u) but not over all (the loss 0.31 u low, the leak 0.54 high), and tells the loss to 15.2 %
 * where it is 11.7 (336 from 310001).
 */
const rangeAlone = ({ name }: Coverage): boolean => name.endsWith(", large leak");

/**
 * The wants that a row misses by more than chance, each in words; none where it keeps them. The standard error of the
 * share is that of an estimator that just keeps the promise, for where all are held the share itself tells none.
 */
export function missedWants(row: Coverage): string[] {
  const { given, held, meanMiss, spread, widthRatio } = row;
  const heldPerCent = (100 * held) / given;
  const error = (wanted: number) => STANDARD_ERRORS * binomialError(wanted / 100, given);
  const { least, most } = HELD_PER_CENT;
  const missed: string[] = [];
  if (!(heldPerCent >= least - error(least) && heldPerCent <= most + error(most))) missed.push("held");
  if (rangeAlone(row)) return missed;
  if (!(Math.abs(meanMiss) < MEAN_MISS + (STANDARD_ERRORS * spread) / Math.sqrt(given)))
    missed.push("mean miss");
  if (widthRatio !== null && !(widthRatio <= WIDTH)) missed.push("width");
  return missed;
}

export const WANTS_IN_WORDS = `wanted: held ${HELD_PER_CENT.least} to ${HELD_PER_CENT.most} %, mean miss within ${MEAN_MISS}, each give or take ${STANDARD_ERRORS} standard errors of its own, and width at most ${WIDTH};
picked by their large leak: held alone.`;
