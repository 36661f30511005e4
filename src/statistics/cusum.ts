import { normalBelow } from "./normal-distribution.ts";

export interface CusumStep {
  upper: number;
  lower: number;
}

export interface Cusum {
  steps: readonly CusumStep[];
  /** place (from 0) of the first sum above h; null where there is none */
  firstAbove: number | null;
  firstBelow: number | null;
}

/**
 * Sums of what goes beyond target by more than k, upwards and downwards, each kept from falling below 0 (Page 1954;
 * NIST/SEMATECH e-Handbook 6.3.2.3).
 * @param k allowance and h limit, in the unit of the values, both above 0
 */
export function cusum(values: readonly number[], target: number, k: number, h: number): Cusum {
  if (!(k > 0 && h > 0)) throw new RangeError(`cusum: k ${k} and h ${h}, wanted both above 0`);
  let [upper, lower] = [0, 0];
  const steps = values.map((value) => {
    upper = Math.max(0, upper + value - target - k);
    lower = Math.max(0, lower + target - value - k);
    return { upper, lower };
  });
  const first = (of: (step: CusumStep) => number) => {
    const place = steps.findIndex((step) => of(step) > h);
    return place < 0 ? null : place;
  };
  return { steps, firstAbove: first((step) => step.upper), firstBelow: first((step) => step.lower) };
}

/**
 * Mean number of values until a one-sided sum signals though nothing has changed (Siegmund 1985): within some per cent
 * for k from 0.25 to 1 and h from 3 up.
 * @param k and h in standard deviations
 */
export function valuesToFalseAlarm(k: number, h: number): number {
  const reach = h + 1.166;
  return (Math.exp(2 * k * reach) - 2 * k * reach - 1) / (2 * k * k);
}

/** Cells that the sum is divided into; the chance below changes by less than 1e-4 with twice as many. */
const CELLS = 200;

/**
 * Chance that a one-sided sum has signalled by the last of so many independent standard normal values though nothing has
 * changed: the sum as a Markov chain of cells (Brook & Evans, Biometrika 59 (1972) 539). It holds for a known standard,
 * and for values that are each compared with all before them, the first without such left out (Hawkins, The Statistician
 * 36 (1987) 299); a sum against the mean of a few first values signals far oftener.
 * @param k and h in standard deviations
 */
export function chanceOfFalseAlarm(values: number, k: number, h: number): number {
  const width = (2 * h) / (2 * CELLS - 1);
  const stepTo = (from: number, to: number) => {
    const up = normalBelow((to - from + 0.5) * width + k);
    return to === 0 ? up : up - normalBelow((to - from - 0.5) * width + k);
  };
  const steps = Array.from({ length: 2 * CELLS }, (_, i) => stepTo(CELLS, i + 1));
  const toNothing = Array.from({ length: CELLS }, (_, from) => stepTo(from, 0));
  let chances: number[] = Array.from({ length: CELLS }, (_, cell) => (cell === 0 ? 1 : 0));
  for (let value = 0; value < values; value++) {
    chances = chances.map((_, to) =>
      chances.reduce(
        (sum, chance, from) =>
          sum + chance * (to === 0 ? (toNothing[from] ?? 0) : (steps[CELLS + to - from - 1] ?? 0)),
        0,
      ),
    );
  }
  return 1 - chances.reduce((sum, chance) => sum + chance, 0);
}
