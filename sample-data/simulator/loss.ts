/**
 * Heat lost through the surface, W: still air takes K (T - T_air)^1.25 (the usual power for free convection
 * from small bodies, with radiation counted in; from memory). K is set by the loss at a reference temperature.
 */
export interface SurfaceLoss {
  /** W at `referenceK` in air of `referenceAirK` */
  watts: number;
  referenceK: number;
  referenceAirK: number;
}

export function surfaceLossW(loss: SurfaceLoss, temperatureK: number, airK: number): number {
  const above = temperatureK - airK;
  if (above <= 0) return 0;
  return loss.watts * (above / (loss.referenceK - loss.referenceAirK)) ** 1.25;
}

/** Air moving past a running engine takes more: a fifth more at 0.7 m/s (a guess for a lagged boiler). */
export const windFactor = (speedMPerS: number): number => 1 + 0.2 * Math.min(speedMPerS / 0.7, 2);
