/**
 * Heat lost by bare horizontal steam pipes in still air, W/m: engineeringtoolbox.com, "Steam Pipes - Heat Losses". It is for
 * air of 10 to 25 °C and does not say how the pipes look. Nominal bores 15 to 50 mm, of steel tubes to EN 10255, which are the
 * sizes of small boilers; larger ones are told 6 to 11 % less than free convection about a cylinder gives.
 */
export const barePipes = {
  outsideMm: [21.3, 26.9, 33.7, 42.4, 48.3, 60.3],
  airC: 15,
  emissivity: 0.9,
  /** emissivities of 0.8 and 0.95, and 5 °C of the air, change the loss by so much */
  tolerance: 0.06,
  rows: [
    { warmerK: 56, lossWPerM: [54, 65, 79, 103, 108, 132] },
    { warmerK: 67, lossWPerM: [68, 82, 100, 122, 136, 168] },
    { warmerK: 78, lossWPerM: [83, 100, 122, 149, 166, 203] },
    { warmerK: 89, lossWPerM: [99, 120, 146, 179, 205, 246] },
    { warmerK: 100, lossWPerM: [116, 140, 169, 208, 234, 285] },
    { warmerK: 111, lossWPerM: [134, 164, 198, 241, 271, 334] },
    { warmerK: 125, lossWPerM: [159, 191, 233, 285, 321, 394] },
    { warmerK: 139, lossWPerM: [184, 224, 272, 333, 373, 458] },
    { warmerK: 153, lossWPerM: [210, 255, 312, 382, 429, 528] },
  ],
} as const;

/**
 * Worked examples. Cengel, Heat and Mass Transfer, example 9-1 (as worked at scribd.com/document/454323336): a pipe in a room,
 * by convection alone; its table of air conducts 2 % less than ours. Kern, Process Heat Transfer, example 2.5 (as worked in
 * the Scilab textbook companion 1328): a 2-in. steam pipe under half an inch of rock wool, 103 Btu/h for a foot and 125 °F at
 * the surface by Kern's own curve of surface coefficients, his third figure.
 */
export const hotWaterPipe = {
  outsideM: 0.08,
  lengthM: 6,
  surfaceC: 70,
  airC: 20,
  lossW: 443,
  tolerance: 0.02,
};
export const laggedSteamPipe = {
  outsideIn: 2.375,
  overLaggingIn: 3.375,
  conductivityBtuPerHFtF: 0.033,
  hotF: 300,
  airF: 70,
  lossBtuPerHFt: 103,
  surfaceF: 125,
  tolerance: 0.03,
};

/** Dry air at 1 atm (engineeringtoolbox.com, "Air Properties"): °C, W/m/K, 1e-6 m2/s, printed to three or four digits. */
export const dryAir = [
  [0, 0.0243, 13.3],
  [20, 0.0257, 15.11],
  [40, 0.0271, 16.97],
  [60, 0.0285, 18.9],
  [80, 0.0299, 20.94],
  [100, 0.0314, 23.06],
  [120, 0.0328, 25.23],
] as const;

/** Natural convection about a horizontal cylinder, worked values of Churchill & Chu's correlation, within the last printed digit. */
export const churchillChu = {
  tolerance: 1e-6,
  rows: [
    { prandtl: 0.7, grashof: 1e5, nusselt: 7.07684 },
    { prandtl: 0.69, grashof: 2.63e9, nusselt: 139.1349 },
  ],
};
