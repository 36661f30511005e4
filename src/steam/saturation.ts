import { waterState } from "./region1.ts";
import { steamState } from "./region2.ts";
import { saturationTemperatureK } from "./saturation-line.ts";
import type { SteamState } from "./state.ts";

export { saturationPressurePa, saturationTemperatureK } from "./saturation-line.ts";

/**
 * Boiling water at an absolute pressure in Pa: region 1 on the saturation line.
 * @throws RangeError outside 611.213 Pa to 16.529 MPa
 */
export const saturatedWater = (pressurePa: number): SteamState =>
  waterState(saturationTemperatureK(pressurePa), pressurePa);

/**
 * Dry saturated steam at an absolute pressure in Pa: region 2 on the saturation line.
 * @throws RangeError outside 611.213 Pa to 16.529 MPa
 */
export const saturatedSteam = (pressurePa: number): SteamState =>
  steamState(saturationTemperatureK(pressurePa), pressurePa);
