import type { Reported } from "../../quantity/reported.ts";

/**
 * Whether a leak is told apart from none at all. A belief that allows no leak below none has both ends of its range
 * above it even where nothing leaks, so its own doubt is asked too.
 */
export const toldFromNothing = (figure: Reported): boolean =>
  figure.value !== null && figure.lo95 > 0 && figure.value >= 1.96 * figure.u;
