/** Samples at their own times. */
export interface TimedSample {
  atS: number;
  value: number;
}

export interface Grid {
  startS: number;
  everyS: number;
}

export interface Gridded extends Grid {
  values: (number | null)[];
}

/** How far a sample may lie from its place on the grid, in steps: a sensor's clock trembles. */
const tolerance = 0.25;
/** A grid with fewer than one place in so many filled is no grid of these samples. */
const sparsest = 1000;

/**
 * Places samples, in order of time, on an evenly spaced grid, `null` where one is missing; each moves by at most
 * a quarter of a step.
 * @param known a grid to continue if the samples fit it; else their own spacing makes one
 * @returns null where they fit no grid: fewer than two, two at one time, or too uneven
 */
export function onUniformGrid(samples: readonly TimedSample[], known: readonly Grid[] = []): Gridded | null {
  for (const grid of known) {
    const placed = place(samples, grid);
    if (placed !== null) return placed;
  }
  const gaps = samples.slice(1).map((sample, i) => sample.atS - (samples[i]?.atS ?? sample.atS));
  const ascending = gaps.toSorted((a, b) => a - b);
  const [first] = samples;
  const last = samples.at(-1);
  if (first === undefined || last === undefined) return null;
  for (const gap of [ascending[Math.floor(ascending.length / 2)], ascending[0]]) {
    if (gap === undefined || !(gap > 0)) continue;
    const steps = gaps.reduce((total, each) => total + Math.max(1, Math.round(each / gap)), 0);
    const everyS = round((last.atS - first.atS) / steps);
    const placed = everyS > 0 ? place(samples, { startS: round(first.atS), everyS }) : null;
    if (placed !== null) return placed;
  }
  return null;
}

/** To a microsecond. */
const round = (seconds: number) => Math.round(seconds * 1e6) / 1e6;

function place(samples: readonly TimedSample[], grid: Grid): Gridded | null {
  const [first] = samples;
  const last = samples.at(-1);
  if (first === undefined || last === undefined) return null;
  const indexOf = (sample: TimedSample) => (sample.atS - grid.startS) / grid.everyS;
  const begin = Math.round(indexOf(first));
  const count = Math.round(indexOf(last)) - begin + 1;
  if (count > samples.length * sparsest) return null;
  const values: (number | null)[] = Array.from({ length: count }, () => null);
  for (const sample of samples) {
    const index = Math.round(indexOf(sample));
    if (Math.abs(indexOf(sample) - index) > tolerance) return null;
    if (values[index - begin] !== null) return null;
    values[index - begin] = sample.value;
  }
  return { startS: grid.startS + begin * grid.everyS, everyS: grid.everyS, values };
}
