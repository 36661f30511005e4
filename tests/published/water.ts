/**
 * Volume of hot water relative to 4 °C, Babcock & Wilcox, Steam, 35th ed. 1919, Table 11: °F, ratio.
 * Within 0.04 %: 212 °F agrees to the last printed digit, above the boiling point the measurements of that day stand
 * 0.02 to 0.03 % to either side of IF97.
 */
export const hotWaterVolume = {
  tolerance: 0.0004,
  rows: [
    { fahrenheit: 212, ratio: 1.04343 },
    { fahrenheit: 250, ratio: 1.0611 },
    { fahrenheit: 300, ratio: 1.089 },
    { fahrenheit: 340, ratio: 1.116 },
  ],
};

/**
 * Water at 20 °C and 101 325 Pa: density kg/m3, isothermal compressibility 1/GPa (accepted values, handbook).
 * Density within IF97's stated uncertainty of 0.001 % there, rounded up to 0.0015 % with the last printed digit.
 * Compressibility within 0.2 %: IF97 stands 0.14 % below; its fit weighs volume and the speed of sound, not their
 * pressure slopes.
 */
export const waterAt20C = [
  { what: "density", wanted: 998.207, tolerance: 1.5e-5 },
  { what: "compressibility", wanted: 0.4589, tolerance: 0.002 },
] as const;

/**
 * Steam takes about 1600 times the room of the water it was only at the atmosphere: at 40 psi above it 488 times (computed). The
 * first is the trade's round figure; the second to its digits.
 */
export const steamToWater = [
  { psiG: 0, times: 1600, tolerance: 0.05 },
  { psiG: 40, times: 488, tolerance: 0.002 },
];
