import { metalHeatCapacityJPerK } from "../boiler/metal.ts";
import { ICE_POINT_K } from "./circumstances.ts";
import type { Sources } from "./sources.ts";

/**
 * Heat stored in water, steam and metal at a moment, J, as a straight line in the mass of water and steam m (g):
 * fixedJ + jPerG x m. Exact, for at a given pressure both masses follow from m and the boiler's volume:
 * m_steam = (V - m vf)/(vg - vf).
 */
export interface StoredEnergy {
  fixedJ: number;
  jPerG: number;
}

export function storedEnergyAt(from: Sources, atS: number): StoredEnergy {
  const { water, steam, temperatureK } = from.stateAt(atS);
  const { boiler } = from.locomotive;
  const metalJ = metalHeatCapacityJPerK(boiler.metalMassG, boiler.metal) * (temperatureK - ICE_POINT_K);
  if (steam === null) return { fixedJ: metalJ, jPerG: water.internalEnergyJPerKg / 1000 };
  const perM3 =
    (steam.internalEnergyJPerKg - water.internalEnergyJPerKg) / (steam.volumeM3PerKg - water.volumeM3PerKg);
  return {
    fixedJ: metalJ + from.geometry.totalM3 * perM3,
    jPerG: (water.internalEnergyJPerKg - water.volumeM3PerKg * perM3) / 1000,
  };
}

/** Change of the stored heat with gauge pressure at constant mass, J/bar; 0 below boiling. */
export function storedEnergySlope(from: Sources, atS: number, grams: number): number {
  const barG = from.pressure.atS(atS);
  if (barG === null || from.stateAt(atS).steam === null) return 0;
  const step = 0.05;
  const at = (offset: number) => {
    const shifted = { ...from, stateAt: () => from.stateAtPressure(barG + offset) };
    const { fixedJ, jPerG } = storedEnergyAt(shifted, atS);
    return fixedJ + jPerG * grams;
  };
  return (at(step) - at(-step)) / (2 * step);
}
