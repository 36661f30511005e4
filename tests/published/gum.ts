/**
 * GUM, JCGM 100:2008.
 * H.1, end gauge, nm and °C: l = ls + d - ls (dAlpha theta + alpha dTheta). Limits of the rectangular distributions are
 * given there as +-1e-6 /°C (dAlpha) and +-0.05 °C (dTheta); u is the limit over the root of 3. Tolerances: half the
 * last printed digit. Left out: the second-order terms of H.1.7 (11.7 nm, which make 34 nm of 32 nm).
 */
export const endGauge = {
  standardNm: { value: 50_000_623, u: 25, df: 18 },
  differenceNm: {
    value: 215,
    parts: [
      { u: 5.8, df: 24 },
      { u: 3.9, df: 5 },
      { u: 6.7, df: 8 },
    ],
  },
  expansionDifferencePerC: { value: 0, u: 1e-6 / Math.sqrt(3), df: 50 },
  expansionPerC: { value: 11.5e-6, u: 1.2e-6 },
  temperatureC: { value: -0.1, u: 0.406 },
  temperatureDifferenceC: { value: 0, u: 0.05 / Math.sqrt(3), df: 2 },
  wanted: [
    { what: "value", number: 50_000_838, tolerance: 0.5 },
    { what: "standard uncertainty", number: 31.66, tolerance: 0.005 },
    { what: "effective degrees of freedom", number: 16.75, tolerance: 0.005 },
  ],
} as const;

/** H.3: an offset shared by all readings of a thermometer, u 0.005 °C. */
export const sharedOffsetC = 0.005;

/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, Student's t, one-sided 0.975 (two-sided 0.95), printed to
 * three decimals: tolerance half the last.
 */
export const studentT = {
  tolerance: 0.0005,
  rows: [
    { df: 1, t: 12.706 },
    { df: 2, t: 4.303 },
    { df: 5, t: 2.571 },
    { df: 10, t: 2.228 },
    { df: 29, t: 2.045 },
  ],
};
