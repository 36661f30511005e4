import { dimensionMm, heldBy, type Layout, type TankDimension, usableMl, withDimension } from "./layout.ts";

/** Dimensions are given to a tenth of a millimetre. */
const STEP_MM = 0.1;

/** Smallest dimension at which the tanks hold what is needed, to 0.1 mm upwards; null where none up to `atMostMm` does. */
export function dimensionFor(
  layout: Layout,
  place: number,
  dimension: TankDimension,
  neededMl: number,
  atMostMm: number,
): number | null {
  const enough = (mm: number) => {
    const tried = withDimension(layout, place, dimension, mm);
    const own = tried.tanks[place];
    if (own === undefined || heldBy(tried, own).water === null) return false;
    return usableMl(tried) >= neededMl - 1e-9;
  };
  const lastStep = Math.floor(atMostMm / STEP_MM + 1e-9);
  if (lastStep < 1 || !enough(lastStep * STEP_MM)) return null;
  let [low, high] = [0, lastStep];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (enough(middle * STEP_MM)) high = middle;
    else low = middle;
  }
  return Number((high * STEP_MM).toFixed(1));
}

/** One dimension that alone would close the gap. */
export interface Closer {
  tank: number;
  dimension: TankDimension;
  moreMm: number;
}

/** No owner makes a tank longer than this to close a gap. */
const FARTHEST_MM = 500;

export function closersOf(layout: Layout, neededMl: number): Closer[] {
  const growing = ["length", "height", "width"] as const;
  return layout.tanks
    .flatMap((_, tank) =>
      growing.flatMap((dimension): Closer[] => {
        const nowMm = dimensionMm(layout, tank, dimension);
        if (nowMm === null) return [];
        const mm = dimensionFor(layout, tank, dimension, neededMl, nowMm + FARTHEST_MM);
        return mm === null || mm <= nowMm
          ? []
          : [{ tank, dimension, moreMm: Number((mm - nowMm).toFixed(1)) }];
      }),
    )
    .sort((a, b) => a.moreMm - b.moreMm);
}
