import { kgFromPounds, mmFromInches, psiFromPa } from "../quantity/units.ts";
import { notNegative, positive, within } from "./within.ts";

/** Back pressure over pressure at which dry saturated steam just chokes: (2/(n+1))^(n/(n-1)), n = 1.135 (Zeuner). */
const CRITICAL_RATIO = 0.577;
const POUNDS_PER_S_PER_PSI_IN2 = 1 / 70;

/**
 * Napier's rule, W = p a / 70: W lb/s, p psia, a in2 (Babcock & Wilcox, Steam, 35th ed. 1919, eq. 49).
 * In kg/s for 1 Pa on 1 m2; 0.5245 kg/h for 1 bar on 1 mm2.
 */
const NAPIER_KG_PER_S_PER_PA_M2 =
  (kgFromPounds(POUNDS_PER_S_PER_PSI_IN2) * psiFromPa(1)) / (mmFromInches(1) / 1000) ** 2;

export interface SteamLeak {
  massKgPerS: number;
  choked: boolean;
}

/**
 * Dry saturated steam through a hole of discharge coefficient 1.
 * Choked (back pressure at most 0.577 of the pressure): Napier's rule. Else its companion,
 * W = 1.9 a K sqrt((p - d) d) lb/min, d the difference in psi (same book, eq. 50), with K such that both give the
 * same at the critical ratio: 0.913, between the printed 0.93 for a short pipe (which would jump by 1.8 % there)
 * and 0.63 for a thin plate.
 * @param pressurePa absolute, above 0
 * @param backPressurePa absolute, from 0 to pressurePa
 * @param areaM2 0 or more
 */
export function steamLeak(pressurePa: number, backPressurePa: number, areaM2: number): SteamLeak {
  notNegative(areaM2, "m2", "steamLeak");
  const { perM2, choked } = steamFlowPerM2(pressurePa, backPressurePa, "steamLeak");
  return { massKgPerS: perM2 * areaM2, choked };
}

/**
 * Diameter (m) of the round hole of discharge coefficient 1 that passes this much dry saturated steam.
 * @param massKgPerS 0 or more
 * @param pressurePa absolute, above backPressurePa
 * @param backPressurePa absolute, 0 or more
 */
export function steamHoleM(massKgPerS: number, pressurePa: number, backPressurePa: number): number {
  notNegative(massKgPerS, "kg/s", "steamHoleM");
  const { perM2 } = steamFlowPerM2(pressurePa, backPressurePa, "steamHoleM");
  if (perM2 === 0) throw new RangeError(`steamHoleM: ${pressurePa} Pa absolute drives nothing, wanted more`);
  return diameterM(massKgPerS / perM2);
}

function steamFlowPerM2(pressurePa: number, backPressurePa: number, where: string) {
  positive(pressurePa, "Pa absolute", where);
  within(backPressurePa, 0, pressurePa, "Pa absolute of back pressure", where);
  const ratio = backPressurePa / pressurePa;
  const choked = ratio <= CRITICAL_RATIO;
  const share = choked ? 1 : Math.sqrt((ratio * (1 - ratio)) / (CRITICAL_RATIO * (1 - CRITICAL_RATIO)));
  return { perM2: NAPIER_KG_PER_S_PER_PA_M2 * pressurePa * share, choked };
}

/**
 * Water (kg/s) through a hole of discharge coefficient 1: a sqrt(2 rho dp) (Bernoulli). For water hotter than
 * boiling at the back pressure an upper bound: what flashes in the hole chokes it.
 * @param differencePa of pressure across the hole, 0 or more
 * @param densityKgPerM3 of the water, above 0
 * @param areaM2 0 or more
 */
export function waterLeakKgPerS(differencePa: number, densityKgPerM3: number, areaM2: number): number {
  notNegative(areaM2, "m2", "waterLeakKgPerS");
  return waterFlowPerM2(differencePa, densityKgPerM3, "waterLeakKgPerS") * areaM2;
}

/**
 * Diameter (m) of the round hole of discharge coefficient 1 that passes this much water.
 * @param massKgPerS 0 or more
 * @param differencePa of pressure across the hole, above 0
 * @param densityKgPerM3 of the water, above 0
 */
export function waterHoleM(massKgPerS: number, differencePa: number, densityKgPerM3: number): number {
  notNegative(massKgPerS, "kg/s", "waterHoleM");
  const perM2 = waterFlowPerM2(differencePa, densityKgPerM3, "waterHoleM");
  if (perM2 === 0) throw new RangeError(`waterHoleM: ${differencePa} Pa drives nothing, wanted more`);
  return diameterM(massKgPerS / perM2);
}

function waterFlowPerM2(differencePa: number, densityKgPerM3: number, where: string): number {
  notNegative(differencePa, "Pa of difference", where);
  positive(densityKgPerM3, "kg/m3", where);
  return Math.sqrt(2 * densityKgPerM3 * differencePa);
}

const diameterM = (areaM2: number): number => Math.sqrt((4 * areaM2) / Math.PI);
