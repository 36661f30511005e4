import { metalHeatCapacityJPerK } from "../../boiler/metal.ts";
import type { Sources } from "../sources.ts";
import type { BoilerState } from "../state/boiler-state.ts";
import { ICE_POINT_K } from "../state/circumstances.ts";

/**
 * Heat stored in water, steam and metal at a moment, J, as a straight line in the mass of water and steam m (g):
 * fixedJ + jPerG x m. Exact, for at a given pressure both masses follow from m and the boiler's volume:
 * m_steam = (V - m vf)/(vg - vf).
 */
export interface StoredEnergy {
  fixedJ: number;
  jPerG: number;
}

export const storedEnergyAt = (from: Sources, atS: number): StoredEnergy =>
  storedEnergyIn(from, from.stateAt(atS));

/** The same of a boiler in a state. */
export function storedEnergyIn(
  { locomotive: { boiler }, geometry }: Pick<Sources, "locomotive" | "geometry">,
  { water, steam, temperatureK }: BoilerState,
): StoredEnergy {
  const metalJ = metalHeatCapacityJPerK(boiler.metalMassG, boiler.metal) * (temperatureK - ICE_POINT_K);
  if (steam === null) return { fixedJ: metalJ, jPerG: water.internalEnergyJPerKg / 1000 };
  const perM3 =
    (steam.internalEnergyJPerKg - water.internalEnergyJPerKg) / (steam.volumeM3PerKg - water.volumeM3PerKg);
  return {
    fixedJ: metalJ + geometry.totalM3 * perM3,
    jPerG: (water.internalEnergyJPerKg - water.volumeM3PerKg * perM3) / 1000,
  };
}

/** Change of the stored heat with gauge pressure at constant mass, J/bar; 0 below boiling. */
export function storedEnergySlope(from: Sources, atS: number, grams: number): number {
  const barG = from.pressure.atS(atS);
  if (barG === null || from.stateAt(atS).steam === null) return 0;
  const step = 0.05;
  const at = (offset: number) => {
    const { fixedJ, jPerG } = storedEnergyIn(from, from.stateAtPressure(barG + offset));
    return fixedJ + jPerG * grams;
  };
  return (at(step) - at(-step)) / (2 * step);
}
