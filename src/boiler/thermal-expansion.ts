import { waterState } from "../steam/region1.ts";
import type { Metal } from "./metal.ts";

/**
 * Cubic expansion at room temperature, 1/K: three times the linear 16.5e-6 of copper and 11.8e-6 of iron (CRC Handbook
 * of Chemistry and Physics, thermal expansion of the elements at 25 °C) and 19e-6 of brass (common practice; alloys
 * differ by a twentieth).
 */
const CUBIC_EXPANSION_PER_K: Record<Metal, number> = {
  copper: 3 * 16.5e-6,
  brass: 3 * 19e-6,
  steel: 3 * 11.8e-6,
};

/**
 * By how much more than its metal boiler the water in it grows when both warm from one temperature (K) to another, m3:
 * the change of its specific volume (R7-97, region 1) less the growth of the vessel.
 * @throws RangeError outside the range of liquid water at that pressure
 */
export function overflowM3(
  volumeM3: number,
  metal: Metal,
  pressurePa: number,
  fromK: number,
  toK: number,
): number {
  const [from, to] = [waterState(fromK, pressurePa), waterState(toK, pressurePa)];
  const water = to.volumeM3PerKg / from.volumeM3PerKg - 1;
  return volumeM3 * (water - CUBIC_EXPANSION_PER_K[metal] * (toK - fromK));
}
