import { logGammaHalfStep } from "./student-t-quantile.ts";

/** Mean of the standard deviation of a normal sample over that of its source, by degrees of freedom (c4 of control charts). */
export const meanSpreadSeen = (degreesOfFreedom: number): number =>
  Math.sqrt(2 / degreesOfFreedom) * Math.exp(logGammaHalfStep(degreesOfFreedom / 2));
