/** Published examples of trend, change, groups and prediction. Tolerances: half the last printed digit, or rounding. */

/** P. K. Sen, J. Amer. Statist. Assoc. 63 (1968) 1379-1389, the seven points; the interval printed there is wrong. */
export const sen = {
  t: [1, 2, 3, 4, 10, 12, 18],
  y: [9, 15, 19, 20, 45, 55, 78],
  level: 0.93,
  wanted: [
    { what: "slope", number: 4 },
    { what: "intercept, median of y - slope t", number: 6 },
    { what: "lower end", number: 26 / 7 },
    { what: "upper end", number: 35 / 8 },
  ],
  tolerance: 1e-12,
} as const;

/** USEPA, Statistical Analysis of Groundwater Monitoring Data, Unified Guidance, 2009, example 17-6. */
export const usepaTrend = {
  t: [
    89.6, 89.8, 90.1, 90.3, 90.6, 90.8, 91.1, 91.3, 91.6, 91.8, 92.1, 92.6, 93.1, 93.6, 94.1, 94.6, 95.1,
    95.6, 95.8, 96.1, 96.3, 96.6, 96.8,
  ],
  y: [
    480, 450, 490, 520, 485, 510, 510, 530, 510, 560, 560, 540, 590, 550, 600, 700, 570, 610, 650, 620, 830,
    720, 590,
  ],
  /** as a statistics package prints them; relative tolerance of its seven digits */
  wanted: [
    { what: "slope", number: 26.66667 },
    { what: "z", number: 5.107322 },
    { what: "p", number: 3.267574e-7 },
    { what: "lower end", number: 20 },
    { what: "upper end", number: 35.71182 },
  ],
  tolerance: 5e-7,
} as const;

/** Hollander & Wolfe, Nonparametric Statistical Methods, 1973, p. 187: lightness of tuna and a panel's liking. */
export const kendallExample = {
  x: [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1],
  y: [2.6, 3.1, 2.5, 5, 3.6, 4, 5.2, 2.8, 3.8],
  wanted: [
    { what: "tau", number: 0.4444, tolerance: 5e-5 },
    { what: "one-sided p, exact", number: 0.05972, tolerance: 5e-6 },
  ],
} as const;

/** NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3: target 325, k 0.3175, h 4.1959. */
export const cusumExample = {
  target: 325,
  k: 0.3175,
  h: 4.1959,
  values: [
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15,
    328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ],
  /** places count from 1 as printed */
  wanted: [
    { side: "upper", place: 13, sum: 3.0075 },
    { side: "upper", place: 14, sum: 4.94 },
    { side: "upper", place: 20, sum: 19.035 },
    { side: "lower", place: 4, sum: 0.3325 },
    { side: "lower", place: 8, sum: 0.715 },
  ],
  firstSignalAt: 14,
  tolerance: 5e-5,
} as const;

/** USEPA Unified Guidance 2009, example 18-1; the bound for one value is computed, not printed. */
export const predictionExample = {
  values: [12.6, 30.8, 52, 28.1, 33.3, 44, 3, 12.8, 58.1, 12.6, 17.6, 25.3],
  wanted: [
    { what: "mean", number: 27.51667 },
    { what: "standard deviation", number: 17.10119 },
    { what: "bound for the next one", number: 59.48248 },
    { what: "bound for the next four", number: 73.67237 },
  ],
  tolerance: 5e-6,
} as const;

/** Student's sleep data (Biometrika 6, 1908), as the R project's documentation works them by Welch's test. */
export const sleep = {
  first: [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2],
  second: [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
  wanted: [
    { what: "t", number: -1.8608, tolerance: 5e-5 },
    { what: "degrees of freedom", number: 17.776, tolerance: 5e-4 },
    { what: "p", number: 0.07939, tolerance: 5e-6 },
    { what: "lower end", number: -3.3654832, tolerance: 5e-8 },
    { what: "upper end", number: 0.2054832, tolerance: 5e-8 },
  ],
} as const;

/** Hollander & Wolfe 1973, p. 69: permeability of membranes; the shift is computed, not printed. */
export const rankSumExample = {
  first: [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46],
  second: [1.15, 0.88, 0.9, 0.74, 1.21],
  wanted: [
    { what: "W", number: 35, tolerance: 0 },
    { what: "one-sided p, exact", number: 0.1272, tolerance: 5e-5 },
    { what: "shift", number: 0.305, tolerance: 1e-12 },
  ],
} as const;

/** Graybill & Iyer, Regression Analysis, 1994, p. 431: the temperature at which a thermometer would read 104. */
export const inverseExample = {
  x: [96, 98, 100, 102, 104, 106, 108, 110],
  y: [95.71, 98.16, 99.52, 102.09, 103.79, 106.18, 108.14, 110.21],
  reads: 104,
  wanted: [
    { what: "likeliest", chance: 0.5, number: 103.995, tolerance: 5e-4 },
    { what: "lower end of 95 %", chance: 0.025, number: 103.4, tolerance: 0.05 },
    { what: "upper end of 95 %", chance: 0.975, number: 104.6, tolerance: 0.05 },
  ],
} as const;
