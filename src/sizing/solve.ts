import { heldBy, type Layout, type TankDimension, usableMl } from "./layout.ts";

/** Dimensions are given to a tenth of a millimetre. */
const STEP_MM = 0.1;
/** Steps between the sizes that are looked at first, as far as anything stands beside a boiler; then a hundredth more each time. */
const COARSE = 5;
const FINE_UP_TO = 4000;

/** Usable water at a size, ml; null where there can be no such tank. */
export type WaterAt = (mm: number) => number | null;

export interface Searched {
  /** the first size, from the beginning of the search, at which there is enough; null where there is none */
  mm: number | null;
  /** where there is none: the size that came nearest, if any could be made */
  bestMm: number | null;
}

/** The steps looked at first, from the beginning to the end of the search. */
function* coarseSteps(first: number, last: number): Generator<number> {
  for (let step = first; step < last; ) {
    yield step;
    step += step - first < FINE_UP_TO ? COARSE : Math.ceil((step - first) * 0.01);
  }
  yield last;
}

/**
 * Searches from one size towards another, by tenths of a millimetre. More is not always more: a side tank under the
 * boiler's middle is pushed outwards as its roof rises, and one with a curved face may run out of room. So the sizes
 * are scanned, both sides of every crest are looked at step by step, and the first size that serves is found exactly.
 */
export function firstEnough(at: WaterAt, neededMl: number, fromMm: number, toMm: number): Searched {
  const sign = toMm < fromMm ? -1 : 1;
  const count = Math.floor(Math.abs(toMm - fromMm) / STEP_MM + 1e-6);
  const size = (step: number) => Number((fromMm + sign * step * STEP_MM).toFixed(6));
  const water = (step: number) => at(size(step)) ?? none;
  const enough = (step: number) => water(step) >= neededMl - 1e-9;
  let best = { step: -1, ml: none };
  let [beforeLast, last]: { step: number; ml: number }[] = [];
  for (const step of coarseSteps(0, count)) {
    const ml = water(step);
    if (ml > best.ml) best = { step, ml };
    if (ml >= neededMl - 1e-9) {
      return { mm: size(firstStep(last?.step ?? -1, step, enough)), bestMm: null };
    }
    if (last !== undefined && isCrest(beforeLast?.ml ?? none, last.ml, ml) && step - last.step <= COARSE) {
      for (let near = (beforeLast?.step ?? -1) + 1; near < step; near++) {
        if (enough(near)) return { mm: size(near), bestMm: null };
      }
    }
    [beforeLast, last] = [last, { step, ml }];
  }
  return { mm: null, bestMm: best.step < 0 ? null : size(best.step) };
}

const none = Number.NEGATIVE_INFINITY;
const isCrest = (before: number, ml: number, after: number): boolean =>
  ml > none && ml >= before && ml >= after;

/** The first step above `low` that serves, where `high` does. */
function firstStep(low: number, high: number, enough: (step: number) => boolean): number {
  if (high - low <= COARSE) {
    for (let step = low + 1; step < high; step++) if (enough(step)) return step;
    return high;
  }
  let [below, above] = [low, high];
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if (enough(middle)) above = middle;
    else below = middle;
  }
  return above;
}

/** Usable water of all tanks by one dimension of one of them; null where that one cannot be made so. */
export function waterBy(layout: Layout, place: number, dimension: TankDimension | "base"): WaterAt {
  const own = layout.tanks[place];
  if (own === undefined) return () => null;
  const tried = (mm: number): typeof own => ({ ...own, [dimension]: mm });
  const changed = (mm: number): Layout => ({ ...layout, tanks: layout.tanks.with(place, tried(mm)) });
  // a side tank that grows may take the place of a well tank
  if (
    own.kind === "side-pair" &&
    layout.tanks.some((tank) => tank.kind === "well" && tank.base !== undefined)
  ) {
    return (mm) => (heldBy(changed(mm), tried(mm)).water === null ? null : usableMl(changed(mm)));
  }
  const othersMl = usableMl({ ...layout, tanks: layout.tanks.toSpliced(place, 1) });
  return (mm) => {
    const { water } = heldBy(layout, tried(mm));
    return water === null ? null : water.usableMl + othersMl;
  };
}

/** Searches a dimension of which more always holds more, as length does: halving the span finds the first at once. */
export function firstOfRising(at: WaterAt, neededMl: number, fromMm: number, toMm: number): Searched {
  const count = Math.floor((toMm - fromMm) / STEP_MM + 1e-6);
  const size = (step: number) => Number((fromMm + step * STEP_MM).toFixed(6));
  const enough = (step: number) => (at(size(step)) ?? none) >= neededMl - 1e-9;
  if (count < 0 || !enough(count)) {
    return { mm: null, bestMm: count < 0 || at(size(count)) === null ? null : size(count) };
  }
  return { mm: size(firstStep(-1, count, enough)), bestMm: null };
}

/** Searches one dimension of one tank upwards. */
export function searchDimension(
  layout: Layout,
  place: number,
  dimension: TankDimension,
  neededMl: number,
  [fromMm, toMm]: readonly [number, number],
): Searched {
  const search = dimension === "length" ? firstOfRising : firstEnough;
  return search(waterBy(layout, place, dimension), neededMl, fromMm, toMm);
}

/** Smallest dimension at which the tanks hold what is needed, to 0.1 mm upwards. */
export function dimensionFor(
  layout: Layout,
  place: number,
  dimension: TankDimension,
  neededMl: number,
  atMostMm: number,
): Searched {
  return searchDimension(layout, place, dimension, neededMl, [STEP_MM, atMostMm]);
}
