/**
 * NIST Statistical Reference Datasets (StRD), linear regression: certified values, 15 digits. Tolerance: 1e-10
 * relative, what double precision loses in sums of squares of such size. [x, y]
 */
export const norris = {
  points: [
    [0.2, 0.1],
    [337.4, 338.8],
    [118.2, 118.1],
    [884.6, 888.0],
    [10.1, 9.2],
    [226.5, 228.1],
    [666.3, 668.5],
    [996.3, 998.5],
    [448.6, 449.1],
    [777.0, 778.9],
    [558.2, 559.2],
    [0.4, 0.3],
    [0.6, 0.1],
    [775.5, 778.1],
    [666.9, 668.8],
    [338.0, 339.3],
    [447.5, 448.9],
    [11.6, 10.8],
    [556.0, 557.7],
    [228.1, 228.3],
    [995.8, 998.0],
    [887.6, 888.8],
    [120.2, 119.6],
    [0.3, 0.3],
    [0.3, 0.6],
    [556.8, 557.6],
    [339.1, 339.3],
    [887.2, 888.0],
    [999.0, 998.5],
    [779.0, 778.9],
    [11.1, 10.2],
    [118.3, 117.6],
    [229.2, 228.9],
    [669.1, 668.4],
    [448.9, 449.2],
    [0.5, 0.2],
  ],
  wanted: {
    intercept: -0.262323073774029,
    uIntercept: 0.232818234301152,
    slope: 1.00211681802045,
    uSlope: 0.429796848199937e-3,
    residual: 0.884796396144373,
  },
} as const;

/** The same sets, NoInt1: a line through the origin. */
export const noIntercept = {
  points: Array.from({ length: 11 }, (_, i) => [60 + i, 130 + i] as const),
  wanted: { slope: 2.07438016528926, uSlope: 0.0165289256198347, residual: 3.56753034006338 },
} as const;

/**
 * ISO/TS 28037:2010, straight-line calibration, as carried by a public test suite. Tolerance: half the last printed
 * digit. First y alone in error (clause 6), then both axes (clause 7).
 */
export const yInError = {
  points: [
    [1, 3.3],
    [2, 5.6],
    [3, 7.1],
    [4, 9.3],
    [5, 10.7],
    [6, 12.1],
  ],
  uY: 0.5,
  wanted: [
    { what: "intercept", number: 1.866667, tolerance: 5e-7 },
    { what: "uIntercept", number: 0.4654747, tolerance: 5e-8 },
    { what: "slope", number: 1.757143, tolerance: 5e-7 },
    { what: "uSlope", number: 0.1195229, tolerance: 5e-8 },
    { what: "covariance", number: -0.05, tolerance: 5e-4 },
  ],
  inverse: { y: 10.5, uY: 0.5, x: 4.913, uX: 0.322, tolerance: 5e-4 },
} as const;

export const bothInError = {
  points: [
    { x: 1.2, uX: 0.2, y: 3.4, uY: 0.2 },
    { x: 1.9, uX: 0.2, y: 4.4, uY: 0.2 },
    { x: 2.9, uX: 0.2, y: 7.2, uY: 0.2 },
    { x: 4.0, uX: 0.2, y: 8.5, uY: 0.4 },
    { x: 4.7, uX: 0.2, y: 10.8, uY: 0.4 },
    { x: 5.9, uX: 0.2, y: 13.5, uY: 0.4 },
  ],
  wanted: [
    { what: "intercept", number: 0.5788, tolerance: 5e-5 },
    { what: "uIntercept", number: 0.4764, tolerance: 5e-5 },
    { what: "slope", number: 2.1597, tolerance: 5e-5 },
    { what: "uSlope", number: 0.1355, tolerance: 5e-5 },
    { what: "chiSquared", number: 2.743, tolerance: 5e-4 },
  ],
} as const;

/**
 * GUM, JCGM 100:2008, H.3, thermometer calibration: correction b (°C) against t - 20 °C, ordinary least squares.
 * Tolerance: half the last printed digit.
 */
export const thermometer = {
  zeroC: 20,
  readingsC: [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511],
  correctionsC: [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16],
  wanted: [
    { what: "intercept", number: -0.1712, tolerance: 5e-5 },
    { what: "uIntercept", number: 0.0029, tolerance: 5e-5 },
    { what: "slope", number: 0.00218, tolerance: 5e-6 },
    { what: "uSlope", number: 0.00067, tolerance: 5e-6 },
    { what: "correlation", number: -0.93, tolerance: 5e-4 },
    { what: "at 30 °C", number: -0.1494, tolerance: 5e-5 },
    { what: "u at 30 °C", number: 0.0041, tolerance: 5e-5 },
  ],
} as const;
