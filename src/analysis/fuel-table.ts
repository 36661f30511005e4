import type { Fuel } from "../logbook/locomotive.ts";

export interface FuelProperties {
  /** lower heating value, MJ/kg */
  lowerHeatingValueMJPerKg: number;
  /** relative standard uncertainty of it */
  uRelative: number;
  /** density of the liquid at 20 °C, g/ml; null for a solid, which is weighed */
  densityGPerMl: number | null;
  source: string;
}

/** Used where the engine's own record gives no figure. */
export const fuelTable: Record<Fuel["kind"], FuelProperties | null> = {
  spirit: {
    lowerHeatingValueMJPerKg: 24.6,
    uRelative: 0.03,
    densityGPerMl: 0.81,
    source:
      "methylated spirit, 95 % by volume, from ethanol 26.81 MJ/kg (Cengel & Boles, table A-27); composition from memory",
  },
  butane: {
    lowerHeatingValueMJPerKg: 45.74,
    uRelative: 0.01,
    densityGPerMl: 0.579,
    source: "LPG data sheet, n-butane, gas basis",
  },
  propane: {
    lowerHeatingValueMJPerKg: 46.35,
    uRelative: 0.01,
    densityGPerMl: 0.5,
    source: "LPG data sheet, gas basis",
  },
  "butane-propane-70-30": {
    lowerHeatingValueMJPerKg: 45.92,
    uRelative: 0.01,
    densityGPerMl: 0.555,
    source: "by mass from the LPG data sheet",
  },
  coal: {
    lowerHeatingValueMJPerKg: 32.6,
    uRelative: 0.05,
    densityGPerMl: null,
    source: "Welsh steam coal, common practice (14,000 Btu/lb)",
  },
  charcoal: { lowerHeatingValueMJPerKg: 29.5, uRelative: 0.05, densityGPerMl: null, source: "from memory" },
  other: null,
};

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
      source: "the engine's own record",
    };
  }
  return usual && { ...usual, densityGPerMl };
}
