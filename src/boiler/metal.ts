export type Metal = "copper" | "brass" | "steel";

/**
 * Specific heats, J/(kg K), for 20 to 150 °C; handbook values from memory. Between 20 and 150 °C copper and brass
 * rise by some 3 %, steel by some 6 %; these are about the values for the middle of the range.
 */
const SPECIFIC_HEAT_J_PER_KG_K: Record<Metal, number> = { copper: 385, brass: 380, steel: 460 };

/** Heat capacity of the boiler's metal, J/K. */
export const metalHeatCapacityJPerK = (metalMassG: number, metal: Metal): number =>
  (metalMassG / 1000) * SPECIFIC_HEAT_J_PER_KG_K[metal];
