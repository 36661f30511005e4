/**
 * A real cooling record from a builder's web page: copper barrel, steel core, bare, indoors, heated to 140 °C and
 * switched off. Seconds and °C; air of 20 °C is assumed. Temperatures printed to 0.01 °C.
 */
export const coolingRecord = {
  airC: 20,
  points: [
    [1508, 140.99],
    [1600, 137.35],
    [1720, 132.71],
    [2080, 120.12],
    [2700, 102.25],
    [4800, 64.47],
  ],
  /** apparent time constants of a single exponential from the first point to the second, and the fifth to the last */
  timeConstantsS: { first: 3010, last: 3415, tolerance: 15 },
} as const;
