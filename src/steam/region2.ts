import { table1, table10, table11 } from "./coefficients.ts";
import { powerSum, stateFromGibbs } from "./gibbs.ts";
import { HIGHEST_SATURATION_K, LOWEST_SATURATION_K, saturationPressurePa } from "./saturation-line.ts";
import type { SteamState } from "./state.ts";
import { positive, within } from "./within.ts";

const REDUCING_PA = 1e6;
const REDUCING_K = 540;
const HIGHEST_K = 1073.15;
const HIGHEST_PA = 100e6;
/** What rounding may put a state on the saturation line to the wrong side of it. */
const ROUNDING = 1e-9;

const idealGas = powerSum(table10.map(([J, n]) => [0, J, n]));
const residual = powerSum(table11);

/**
 * Steam at a temperature (K) and absolute pressure (Pa): region 2, R7-97, Eqs. 15 to 17.
 * @throws RangeError outside 273.15 K to 1073.15 K, or above the saturation pressure (to 623.15 K), the boundary
 *   of region 3 (Eq. 5, to 863.15 K) or 100 MPa
 */
export function steamState(temperatureK: number, pressurePa: number): SteamState {
  within(temperatureK, LOWEST_SATURATION_K, HIGHEST_K, "K", "steamState");
  const highestPa = highestPressurePa(temperatureK) * (1 + ROUNDING);
  positive(pressurePa, "Pa absolute", "steamState");
  within(pressurePa, 0, highestPa, `Pa absolute at ${temperatureK} K`, "steamState");
  const pi = pressurePa / REDUCING_PA;
  const tau = REDUCING_K / temperatureK;
  // Eq. 16; its ln(pi) is not in the table and has no part in tau
  const { y: idealTau, yy: idealTauTau } = idealGas(1, tau);
  const sums = residual(pi, tau - 0.5);
  return stateFromGibbs(temperatureK, pressurePa, {
    pi,
    tau,
    gammaPi: 1 / pi + sums.x,
    gammaPiPi: -1 / (pi * pi) + sums.xx,
    gammaTau: idealTau + sums.y,
    gammaTauTau: idealTauTau + sums.yy,
    gammaPiTau: sums.xy,
  });
}

function highestPressurePa(temperatureK: number): number {
  if (temperatureK <= HIGHEST_SATURATION_K) return saturationPressurePa(temperatureK);
  const [n1, n2, n3] = table1;
  return Math.min(HIGHEST_PA, (n1 + (n2 + n3 * temperatureK) * temperatureK) * 1e6);
}
