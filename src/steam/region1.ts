import { table2 } from "./coefficients.ts";
import { powerSum, stateFromGibbs } from "./gibbs.ts";
import { HIGHEST_SATURATION_K, LOWEST_SATURATION_K, saturationPressurePa } from "./saturation-line.ts";
import type { SteamState } from "./state.ts";
import { within } from "./within.ts";

const REDUCING_PA = 16.53e6;
const REDUCING_K = 1386;
const HIGHEST_PA = 100e6;
/** What rounding may put a state on the saturation line to the wrong side of it. */
const ROUNDING = 1e-9;

const residual = powerSum(table2);

/**
 * Liquid water at a temperature (K) and absolute pressure (Pa): region 1, R7-97, Eq. 7.
 * @throws RangeError outside 273.15 K to 623.15 K, or outside the saturation pressure to 100 MPa
 */
export function waterState(temperatureK: number, pressurePa: number): SteamState {
  within(temperatureK, LOWEST_SATURATION_K, HIGHEST_SATURATION_K, "K", "waterState");
  const lowestPa = saturationPressurePa(temperatureK) * (1 - ROUNDING);
  within(pressurePa, lowestPa, HIGHEST_PA, `Pa absolute at ${temperatureK} K`, "waterState");
  const pi = pressurePa / REDUCING_PA;
  const tau = REDUCING_K / temperatureK;
  const sums = residual(7.1 - pi, tau - 1.222);
  return stateFromGibbs(temperatureK, pressurePa, {
    pi,
    tau,
    gammaPi: -sums.x,
    gammaPiPi: sums.xx,
    gammaTau: sums.y,
    gammaTauTau: sums.yy,
    gammaPiTau: -sums.xy,
  });
}
