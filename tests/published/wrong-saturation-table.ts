/**
 * A student's table of saturated steam taken with a boiler thermometer, wrong on purpose (published as an exercise; the
 * same dial read while the pressure rose and while it fell). Bar gauge and °C. Every one of its ten rows is off by more
 * than any fault of reading: the thermometer lagged by tens of degrees, and then stood above.
 */
export const wrongSaturationTable = {
  rising: [
    { barG: 0, celsius: 35 },
    { barG: 0.5, celsius: 58 },
    { barG: 1, celsius: 60 },
    { barG: 1.5, celsius: 79 },
    { barG: 2, celsius: 90 },
  ],
  falling: [
    { barG: 2, celsius: 144 },
    { barG: 1.5, celsius: 140 },
    { barG: 1, celsius: 136 },
    { barG: 0.5, celsius: 132 },
    { barG: 0, celsius: 128 },
  ],
} as const;

/** Spirax Sarco, Dry Saturated Steam Tables, TI-GCM-01 issue 6: the same pressures as printed there. */
export const rightRows = [
  { barG: 0, celsius: 100 },
  { barG: 0.5, celsius: 111.6 },
  { barG: 1.5, celsius: 127.6 },
  { barG: 2.6, celsius: 140 },
] as const;
