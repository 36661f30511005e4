import type { Locomotive } from "../logbook/locomotive.ts";

/**
 * What is put between boiler and cleading, W/m/K through its thickness. Tables are for about 20 °C; wood conducts 2 to 3 %
 * more for every 10 °C (Wood Handbook, USDA Forest Products Laboratory, ch. 4, with equation 4-15), and lagging is some 70 °C
 * warmer in the middle: what the bench offers is rounded up from the table by that fifth.
 */
export const laggingMaterials = [
  {
    name: "cork or balsa",
    conductivityWPerMK: 0.05,
    source:
      "cork 0.039 to 0.041 (EN 13170:2012, as quoted by the RIBuild guide), 0.05 at 240 kg/m3; balsa across the grain 0.038, 0.067 along it (Kotlarewski, BioResources 9(4), 2014)",
  },
  { name: "felt", conductivityWPerMK: 0.05, source: "from memory" },
  { name: "ceramic fibre paper", conductivityWPerMK: 0.06, source: "from memory" },
  {
    name: "pine",
    conductivityWPerMK: 0.14,
    source: "fir, pine 0.12 at 300 K (Mechanical Engineers' Handbook, vol. 4, table 3)",
  },
  {
    name: "oak or maple",
    conductivityWPerMK: 0.19,
    source: "0.16 at 300 K (Mechanical Engineers' Handbook, vol. 4, table 3)",
  },
] as const;

export const USUAL_CONDUCTIVITY_W_PER_M_K = laggingMaterials[0].conductivityWPerMK;

/**
 * Emissivity of the cleading. Brass: highly polished 0.04, dull plate 0.22; paint: black gloss 0.90, oil paints 0.92 to 0.96
 * (J. R. Thome, Heat transfer, EPFL 2008, as tabled by cableizer.com under "Effective emissivity"); polished steel 0.07 to 0.10
 * (the same).
 */
export const cleadingSurfaces = {
  painted: { emissivity: 0.9, words: "painted" },
  dull: { emissivity: 0.22, words: "dull brass" },
  bright: { emissivity: 0.05, words: "bright brass" },
} as const;
export type CleadingSurface = keyof typeof cleadingSurfaces;

/**
 * Emissivity of a bare boiler that has been in steam, its metal browned: copper oxidized 0.6 to 0.7 at 50 °C (emissivity
 * tables of the FLIR T10xx manual, table 39), brass oxidized 0.46 to 0.56 at 40 to 260 °C (Thome, as above), rolled sheet steel
 * 0.66 (Omega OS100 manual, section 6).
 */
export const bareEmissivity: Record<Locomotive["boiler"]["metal"], number> = {
  copper: 0.65,
  brass: 0.51,
  steel: 0.66,
};
