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

/**
 * Dry air at 1 atm from 200 to 400 K by Sutherland's form, W/m/K and m2/s: coefficients of egichem.com, "Properties of dry
 * air at atmospheric pressure", after Poling, Prausnitz & O'Connell, Properties of Gases and Liquids, 5th ed. 2001.
 */
export const airConductivity = (kelvin: number): number => (2.334e-3 * kelvin ** 1.5) / (164.54 + kelvin);
export const airViscosity = (kelvin: number): number =>
  (1.4592e-6 * kelvin ** 1.5) / (109.1 + kelvin) / (351.99 / kelvin + 344.88 / kelvin ** 2);

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

export interface LaggedCylinder {
  /** of what is hot, over its lagging, and outside of all */
  radiusM: number;
  overLaggingM: number;
  outsideM: number;
  hotK: number;
  airK: number;
  conductivityWPerMK: number;
  emissivity: number;
}

/** Where halving the surface temperature's range ends: under a millionth of a kelvin. */
const HALVINGS = 34;

/**
 * Heat lost through lagging, W for one metre: the surface is as warm as lets what comes through (ln of the radii, the
 * sheet over it counted as no resistance) go off to the air and the room.
 */
export function laggedLossWPerM(one: LaggedCylinder): number {
  const { radiusM, overLaggingM, outsideM, hotK, airK, conductivityWPerMK, emissivity } = one;
  if (overLaggingM === radiusM) return surfaceLossWPerM(outsideM, hotK, airK, emissivity);
  const perKelvin = (2 * Math.PI * conductivityWPerMK) / Math.log(overLaggingM / radiusM);
  let [low, high] = [airK, hotK];
  for (let i = 0; i < HALVINGS; i++) {
    const surfaceK = (low + high) / 2;
    const through = perKelvin * (hotK - surfaceK);
    if (through > surfaceLossWPerM(outsideM, surfaceK, airK, emissivity)) low = surfaceK;
    else high = surfaceK;
  }
  return perKelvin * (hotK - (low + high) / 2);
}
