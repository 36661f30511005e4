/**
 * Discharge of steam into the atmosphere, Clark, as printed in Babcock & Wilcox, Steam, 35th ed. 1919, Table 68: psia,
 * lb/min for 1 in2. Napier's rule, carried here, stands 4.7 % below at the bottom to 1.5 % above at the top: a straight
 * line through a curve. The bounds are those, to the last digit they are stated in.
 */
export const clark = {
  lowest: -0.0475,
  highest: 0.0155,
  rows: [
    { psia: 25.37, poundsPerMin: 22.81 },
    { psia: 40, poundsPerMin: 35.18 },
    { psia: 60, poundsPerMin: 52.59 },
    { psia: 75, poundsPerMin: 65.3 },
    { psia: 100, poundsPerMin: 86.34 },
    { psia: 135, poundsPerMin: 115.61 },
    { psia: 165, poundsPerMin: 140.46 },
    { psia: 215, poundsPerMin: 181.58 },
  ],
};

/**
 * A 1.0 mm hole at 4.0 bar absolute, discharge coefficient 1, kg/h (computed values): by Napier, to its last printed
 * digit; by an equilibrium calculation, within 2 % (Napier is a straight line, see Clark's table).
 */
export const oneMillimetreHole = [
  { by: "Napier", kgPerH: 1.648, tolerance: 0.0005 / 1.648 },
  { by: "equilibrium", kgPerH: 1.675, tolerance: 0.02 },
];

/** Napier in kg/h for 1 mm2 and 1 bar, Babcock & Wilcox, eq. 49, to the last digit stated. */
export const napierKgPerH = { wanted: 0.5245, tolerance: 0.0001 };

/** Critical ratio of dry saturated steam, n = 1.135 (Zeuner). */
export const criticalRatio = 0.577;

/** W = 1.9 a K sqrt((p - d) d) lb/min, Babcock & Wilcox, eq. 50, K for a short pipe and for a thin plate. */
export const unchoked = { poundsPerMin: 1.9, shortPipe: 0.93, thinPlate: 0.63 };
