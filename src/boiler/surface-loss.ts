/**
 * Heat lost by a warm body in still air goes with a power of its excess temperature: K (T - T_air)^1.25, the power
 * of free convection about small bodies, laminar (McAdams, Heat Transmission, 3rd ed. 1954, ch. 7, gives the
 * coefficient as the fourth root of the excess). Radiation and lagging pull it to either side of that.
 */
export const STILL_AIR_POWER = 1.25;

/** Excess temperature (K) to the power of the law; 0 for a body no warmer than the air. */
export const lossMeasure = (bodyK: number, airK: number, power = STILL_AIR_POWER): number =>
  bodyK > airK ? (bodyK - airK) ** power : 0;

/**
 * Excess temperature (K) after `seconds` of a body of constant heat capacity that obeys the law: the closed solution
 * of d(theta)/dt = -rate theta^n, theta^(1 - n) = theta0^(1 - n) + (n - 1) rate t, for a power n above 1.
 * @param rate K over heat capacity, per s per K^(n - 1)
 * @throws RangeError for a power not above 1 or a start not above the air
 */
export function cooledExcessK(
  startK: number,
  rate: number,
  seconds: number,
  power = STILL_AIR_POWER,
): number {
  if (!(power > 1)) throw new RangeError(`cooledExcessK: power ${power}, permitted above 1`);
  if (!(startK > 0)) throw new RangeError(`cooledExcessK: ${startK} K above the air, permitted above 0`);
  return (startK ** (1 - power) + (power - 1) * rate * seconds) ** (1 / (1 - power));
}
