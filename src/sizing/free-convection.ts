/**
 * Nusselt number of free convection about a horizontal cylinder, Churchill & Chu (Int. J. Heat Mass Transfer 18,
 * 1975, 1049), for Rayleigh numbers to 1e12.
 * @throws RangeError for numbers that are not above 0
 */
export function nusseltHorizontalCylinder(prandtl: number, grashof: number): number {
  if (!(prandtl > 0) || !(grashof > 0)) {
    throw new RangeError(
      `nusseltHorizontalCylinder: Prandtl ${prandtl}, Grashof ${grashof}; permitted more than 0`,
    );
  }
  const bracket = (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27);
  return (0.6 + (0.387 * (grashof * prandtl) ** (1 / 6)) / bracket) ** 2;
}

const GRAVITY_M_PER_S2 = 9.80665;
const PRANDTL_AIR = 0.71;
/** Stefan-Boltzmann constant, W/m2/K4 (CODATA 2018) */
const RADIATION = 5.670374419e-8;

/** Dry air about 1 atm: conductivity W/m/K and kinematic viscosity m2/s by powers of temperature (from memory; 2 % between 250 and 450 K). */
const airConductivity = (kelvin: number): number => 0.0241 * (kelvin / 273.15) ** 0.83;
const airViscosity = (kelvin: number): number => 1.33e-5 * (kelvin / 273.15) ** 1.77;

/** Heat given off by a horizontal cylinder to still air and the room, W for one metre of length. */
export function surfaceLossWPerM(
  radiusM: number,
  surfaceK: number,
  airK: number,
  emissivity: number,
): number {
  if (surfaceK <= airK) return 0;
  const filmK = (surfaceK + airK) / 2;
  const diameterM = 2 * radiusM;
  const grashof =
    (GRAVITY_M_PER_S2 * (surfaceK - airK) * diameterM ** 3) / (filmK * airViscosity(filmK) ** 2);
  const convection = (nusseltHorizontalCylinder(PRANDTL_AIR, grashof) * airConductivity(filmK)) / diameterM;
  const areaM2 = 2 * Math.PI * radiusM;
  return areaM2 * (convection * (surfaceK - airK) + emissivity * RADIATION * (surfaceK ** 4 - airK ** 4));
}
