/**
 * Spirax Sarco, Dry Saturated Steam Tables, TI-GCM-01 issue 6: bar g; °C; hf, hfg, hg kJ/kg; vg m3/kg.
 * °C within half its last printed digit. The print stands above IF97 by 0.026 to 0.035 % in hf and 0.007 to 0.012 % in
 * hfg: it comes from an older formulation of steam; hence 0.04 % for heats; vg within one of its last printed digit.
 */
export const spiraxSarco = {
  tolerance: { celsius: 0.05, heat: 0.0004, volumeM3PerKg: 0.001 },
  rows: [
    { barG: 0, celsius: 100.0, hf: 419.1, hfg: 2256.66, hg: 2675.76, vg: 1.674 },
    { barG: 0.5, celsius: 111.6, hf: 468.33, hfg: 2225.47, hg: 2693.8, vg: 1.15 },
    { barG: 1.5, celsius: 127.6, hf: 536.27, hfg: 2180.86, hg: 2717.13, vg: 0.715 },
    { barG: 2.6, celsius: 140.0, hf: 589.33, hfg: 2144.55, hg: 2733.89, vg: 0.509 },
  ],
};

/**
 * Marks & Davis, Tables and Diagrams of the Thermal Properties of Steam, 1909, as printed in Babcock & Wilcox, Steam,
 * 35th ed. 1919, Table 23: psia; °F; vg ft3/lb; hf, hfg, hg Btu/lb (mean Btu: some 0.08 % more than the international
 * one used here, so that IF97 stands 0.05 to 0.1 % above in most rows; the rest is the measuring of 1909 and the last
 * printed digit, which is 0.03 % of the smallest hf and 0.05 to 0.1 % of vg).
 */
export const marksAndDavis = {
  tolerance: { fahrenheit: 0.1, volume: 0.0015, hf: 0.0012, hfg: 0.0012, hg: 0.0011 },
  rows: [
    { psia: 15, fahrenheit: 213.0, vg: 26.27, hf: 181.0, hfg: 969.7, hg: 1150.7 },
    { psia: 44, fahrenheit: 273.1, vg: 9.59, hf: 242.0, hfg: 929.2, hg: 1171.2 },
    { psia: 74, fahrenheit: 306.7, vg: 5.89, hf: 276.5, hfg: 904.4, hg: 1180.9 },
    { psia: 100, fahrenheit: 327.8, vg: 4.429, hf: 298.3, hfg: 888.0, hg: 1186.3 },
  ],
};
