import { GAS_CONSTANT_J_PER_KG_K } from "./coefficients.ts";
import type { SteamState } from "./state.ts";

/** Sum of terms n x^I y^J and its derivatives. */
export interface Sums {
  x: number;
  xx: number;
  y: number;
  yy: number;
  xy: number;
}

/**
 * A function that sums n x^I y^J and its derivatives in x and y, in one pass over tables of integer powers.
 * The answer is written to one record that the next call overwrites: take what is needed at once.
 */
export function powerSum(
  terms: readonly (readonly [I: number, J: number, n: number])[],
): (x: number, y: number) => Sums {
  const exponentsX = Int32Array.from(terms, ([I]) => I);
  const exponentsY = Int32Array.from(terms, ([, J]) => J);
  const factors = Float64Array.from(terms, ([, , n]) => n);
  const lowestY = Math.min(0, ...exponentsY);
  const powersX = new Float64Array(Math.max(...exponentsX) + 1);
  const powersY = new Float64Array(Math.max(...exponentsY) - lowestY + 1);
  const sums: Sums = { x: 0, xx: 0, y: 0, yy: 0, xy: 0 };

  return (x, y) => {
    powers(powersX, x, 0);
    powers(powersY, y, -lowestY);
    let sx = 0;
    let sxx = 0;
    let sy = 0;
    let syy = 0;
    let sxy = 0;
    for (let k = 0; k < factors.length; k++) {
      const I = exponentsX[k] as number;
      const J = exponentsY[k] as number;
      const term = (factors[k] as number) * (powersX[I] as number) * (powersY[J - lowestY] as number);
      sx += term * I;
      sxx += term * I * (I - 1);
      sy += term * J;
      syy += term * J * (J - 1);
      sxy += term * I * J;
    }
    sums.x = sx / x;
    sums.xx = sxx / (x * x);
    sums.y = sy / y;
    sums.yy = syy / (y * y);
    sums.xy = sxy / (x * y);
    return sums;
  };
}

/** Fills a table with powers of base; the zeroth stands at `origin`. */
function powers(table: Float64Array, base: number, origin: number): void {
  table[origin] = 1;
  for (let k = origin + 1; k < table.length; k++) table[k] = (table[k - 1] as number) * base;
  const inverse = 1 / base;
  for (let k = origin - 1; k >= 0; k--) table[k] = (table[k + 1] as number) * inverse;
}

/** Derivatives of the dimensionless Gibbs energy gamma in reduced pressure pi and inverse temperature tau. */
export interface GibbsDerivatives {
  pi: number;
  tau: number;
  gammaPi: number;
  gammaPiPi: number;
  gammaTau: number;
  gammaTauTau: number;
  gammaPiTau: number;
}

/** Properties from the Gibbs energy (R7-97, Tables 3 and 12; compressibility and expansion from the same). */
export function stateFromGibbs(temperatureK: number, pressurePa: number, g: GibbsDerivatives): SteamState {
  const rt = GAS_CONSTANT_J_PER_KG_K * temperatureK;
  return {
    temperatureK,
    pressurePa,
    volumeM3PerKg: (rt / pressurePa) * g.pi * g.gammaPi,
    enthalpyJPerKg: rt * g.tau * g.gammaTau,
    internalEnergyJPerKg: rt * (g.tau * g.gammaTau - g.pi * g.gammaPi),
    cpJPerKgK: -GAS_CONSTANT_J_PER_KG_K * g.tau * g.tau * g.gammaTauTau,
    compressibilityPerPa: (-g.gammaPiPi / g.gammaPi) * (g.pi / pressurePa),
    expansionPerK: (1 - (g.tau * g.gammaPiTau) / g.gammaPi) / temperatureK,
  };
}
