import { table34 } from "./coefficients.ts";
import { within } from "./within.ts";

const [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = table34;

export const LOWEST_SATURATION_K = 273.15;
/** Above this region 3 begins, which is not carried here. */
export const HIGHEST_SATURATION_K = 623.15;

/**
 * Saturation pressure, Pa absolute, at a temperature in K (R7-97, Eq. 30).
 * @throws RangeError outside 273.15 K to 623.15 K
 */
export function saturationPressurePa(temperatureK: number): number {
  within(temperatureK, LOWEST_SATURATION_K, HIGHEST_SATURATION_K, "K", "saturationPressurePa");
  return pressureOnLine(temperatureK);
}

function pressureOnLine(temperatureK: number): number {
  const theta = temperatureK + n9 / (temperatureK - n10);
  const a = (theta + n1) * theta + n2;
  const b = (n3 * theta + n4) * theta + n5;
  const c = (n6 * theta + n7) * theta + n8;
  const root = (2 * c) / (-b + Math.sqrt(b * b - 4 * a * c));
  const squared = root * root;
  return squared * squared * 1e6;
}

/** What rounding may put the pressure of an end of the range outside it. */
const ROUNDING = 1e-12;
const LOWEST_PA = pressureOnLine(LOWEST_SATURATION_K) * (1 - ROUNDING);
const HIGHEST_PA = pressureOnLine(HIGHEST_SATURATION_K) * (1 + ROUNDING);

/**
 * Saturation temperature, K, at an absolute pressure in Pa (R7-97, Eq. 31).
 * @throws RangeError outside 611.213 Pa to 16.529 MPa (273.15 K to 623.15 K)
 */
export function saturationTemperatureK(pressurePa: number): number {
  within(pressurePa, LOWEST_PA, HIGHEST_PA, "Pa absolute", "saturationTemperatureK");
  const betaSquared = Math.sqrt(pressurePa / 1e6);
  const beta = Math.sqrt(betaSquared);
  const e = betaSquared + n3 * beta + n6;
  const f = n1 * betaSquared + n4 * beta + n7;
  const g = n2 * betaSquared + n5 * beta + n8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const halves = n10 + d;
  const temperatureK = (halves - Math.sqrt(halves * halves - 4 * (n9 + n10 * d))) / 2;
  // at the ends of the range rounding may step over them
  return Math.min(HIGHEST_SATURATION_K, Math.max(LOWEST_SATURATION_K, temperatureK));
}
