import type { Fuel } from "../../logbook/locomotive.ts";

export interface FuelProperties {
  /** lower heating value, MJ/kg */
  lowerHeatingValueMJPerKg: number;
  /** relative standard uncertainty of it */
  uRelative: number;
  /** density of the liquid at 20 °C, g/ml; null for a solid, which is weighed */
  densityGPerMl: number | null;
}

/** Used where the engine's own record gives no figure; where each is from stands in `fuelSources`. */
export const fuelTable: Record<Fuel["kind"], FuelProperties | null> = {
  spirit: {
    lowerHeatingValueMJPerKg: 24.6,
    uRelative: 0.03,
    densityGPerMl: 0.81,
  },
  butane: {
    lowerHeatingValueMJPerKg: 45.74,
    uRelative: 0.01,
    densityGPerMl: 0.579,
  },
  propane: {
    lowerHeatingValueMJPerKg: 46.35,
    uRelative: 0.01,
    densityGPerMl: 0.5,
  },
  "butane-propane-70-30": {
    lowerHeatingValueMJPerKg: 45.92,
    uRelative: 0.01,
    densityGPerMl: 0.553,
  },
  coal: {
    lowerHeatingValueMJPerKg: 32.6,
    uRelative: 0.05,
    densityGPerMl: null,
  },
  charcoal: { lowerHeatingValueMJPerKg: 29.5, uRelative: 0.05, densityGPerMl: null },
  other: null,
};

/** Whether the fuel is weighed out and lies on a grate. */
export const isSolid = ({ kind }: Pick<Fuel, "kind">): boolean => fuelTable[kind]?.densityGPerMl === null;

/** An owner's own heating value is taken to be good to 1 % (our choice). */
const OWN_VALUE_U_RELATIVE = 0.01;

/** Properties of the engine's fuel: its own figures first, the table for the rest; null where neither knows. */
export function fuelProperties(fuel: Fuel): FuelProperties | null {
  const usual = fuelTable[fuel.kind];
  const own = fuel.lowerHeatingValueMJPerKg;
  const densityGPerMl = fuel.densityGPerMl ?? usual?.densityGPerMl ?? null;
  if (own !== undefined) {
    return {
      lowerHeatingValueMJPerKg: own,
      uRelative: OWN_VALUE_U_RELATIVE,
      densityGPerMl,
    };
  }
  return usual && { ...usual, densityGPerMl };
}
