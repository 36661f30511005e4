import type { Reported } from "../../quantity/reported.ts";

/**
 * Whether a leak is told apart from none at all. A belief that allows no leak below none has both ends of its range
 * above it even where nothing leaks, so its own doubt is asked too.
 */
export const toldFromNothing = (figure: Reported): boolean =>
  figure.value !== null && figure.lo95 > 0 && figure.value >= 1.96 * figure.u;

/**
 * "perhaps nothing, at most 0.6 g/min": what is not told from none.
 * @param bareWords a figure put into words without its range by who prints it
 */
export function perhapsNothing(figure: Reported, bareWords: (figure: Reported) => string | null): string {
  const most =
    figure.value === null || !(figure.hi95 > 0) ? null : bareWords({ ...figure, value: figure.hi95 });
  return most === null ? "perhaps nothing" : `perhaps nothing, at most ${most}`;
}
