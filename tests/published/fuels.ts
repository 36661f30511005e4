/**
 * Lower heating value MJ/kg and density of the liquid at 20 °C, kg/l. Engines burn the rows that have a kind here: each within
 * its printed digits.
 * Methylated spirit is 95 % of ethanol by volume (composition from memory): the rest is water, some of the volume is swallowed
 * in mixing, and its figures are rounded: within 2 %.
 * Isobutane, of which bottled butane may hold any part (common practice), must lie within what is not known of butane.
 */
export const fuels = [
  { source: "LPG data sheet, gas basis", kind: "propane", mjPerKg: 46.35, kgPerL: 0.5, tolerance: 1e-9 },
  {
    source: "LPG data sheet, gas basis: n-butane",
    kind: "butane",
    mjPerKg: 45.74,
    kgPerL: 0.579,
    tolerance: 1e-9,
  },
  {
    source: "computed of both, seven parts to three by mass",
    kind: "butane-propane-70-30",
    mjPerKg: 0.7 * 45.74 + 0.3 * 46.35,
    kgPerL: 1 / (0.7 / 0.579 + 0.3 / 0.5),
    tolerance: 1e-3,
  },
  {
    source: "ethanol 26.81 MJ/kg, 0.790 kg/l, Cengel & Boles, Table A-27; 95 % by volume",
    kind: "spirit",
    mjPerKg: (0.95 * 0.79 * 26.81) / 0.81,
    kgPerL: 0.81,
    tolerance: 0.02,
  },
  {
    source: "ethanol 26.945 MJ/kg, US DOE hydrogen analysis tables; 95 % by volume",
    kind: "spirit",
    mjPerKg: (0.95 * 0.79 * 26.945) / 0.81,
    kgPerL: 0.81,
    tolerance: 0.025,
  },
  {
    source: "Welsh steam coal, 14,000 Btu/lb, common practice of efficiency contests",
    kind: "coal",
    mjPerKg: (14_000 * 2.326) / 1000,
    kgPerL: null,
    tolerance: 2e-3,
  },
  { source: "charcoal, from memory", kind: "charcoal", mjPerKg: 29.5, kgPerL: null, tolerance: 1e-9 },
] as const;

/** MJ/kg, LPG data sheet, gas basis. */
export const isobutane = 45.57;

/** Fuels of which the program has no kind: an owner gives their figures. Methanol, Cengel & Boles, Table A-27. */
export const methanol = { mjPerKg: 19.92, kgPerL: 0.79 };

/** Gross, as tested: Babcock & Wilcox, Steam, 35th ed. 1919, Table 59, MJ/kg. Steam coal lies above the best of it. */
export const anthracite = { least: 25.8, most: 31.3 };

/**
 * Water of 20 °C that all the heat of a fuel could turn into steam of 40 psi (computed, to the digits given): ml for a
 * ml of ethanol, g for a g of butane; and what is to be expected of either (common practice).
 */
export const ceilings = [
  { fuel: "ethanol, ml", mjPerKg: 26.81, perKg: 0.79, water: 8.0, digits: 1, usual: [2.4, 4] },
  { fuel: "butane, g", mjPerKg: 45.74, perKg: 1, water: 17, digits: 0, usual: [5, 9] },
] as const;
