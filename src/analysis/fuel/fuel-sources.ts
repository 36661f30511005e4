import type { Fuel } from "../../logbook/locomotive.ts";

/** Where the rows of the fuel table are from; null for a fuel that has none. */
export const fuelSources: Record<Fuel["kind"], string | null> = {
  spirit:
    "methylated spirit, 95 % by volume, from ethanol 26.81 MJ/kg (Cengel & Boles, table A-27); composition from memory",
  butane: "LPG data sheet, n-butane, gas basis",
  propane: "LPG data sheet, gas basis",
  "butane-propane-70-30": "seven parts of n-butane and three of propane by mass, from the LPG data sheet",
  coal: "Welsh steam coal, common practice (14,000 Btu/lb)",
  charcoal: "from memory",
  other: null,
};
