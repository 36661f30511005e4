import { type BuildUp, cleadingRadiusMm } from "./build-up.ts";
import { dimensionMm, type Layout, usableMl, withBuildUp } from "./layout.ts";
import { firstEnough, searchDimension, waterBy } from "./solve.ts";

/** One dimension that alone would close the gap. */
export interface Closer {
  /** place of the tank; null where it is of the space */
  tank: number | null;
  dimension: string;
  change: "more" | "less";
  byMm: number;
}

/** How high a pair stands: no size of it, yet it may hold more by it. */
export const UNDERSIDE = "height of its underside";

/** What is more than doubled is another tank, no remedy (our choice). */
const MOST_TIMES = 2;
/** No tank stands nearer to the cleading (our choice; practice is 1.0 to 1.5 mm). */
const LEAST_CLEARANCE_MM = 0.5;
/** A loading gauge is given by the line: a wider one is named only where nothing else would do, and not far wider. */
const MOST_GAUGE_TIMES = 1.25;

interface Limits {
  /** the free dimension may become no larger than this */
  solved: { tank: number; dimension: string; atMostMm: number } | null;
}

/** All that would close the gap alone, within the space that there is, the least change first. */
export function closersOf(layout: Layout, neededMl: number, { solved }: Limits): Closer[] {
  const within = [...ofTanks(layout, neededMl, solved), ...ofSpace(layout, neededMl)];
  return (within.length > 0 ? within : widerGauge(layout, neededMl)).sort((a, b) => a.byMm - b.byMm);
}

const change = (fromMm: number, mm: number | null): number | null => {
  const byMm = mm === null ? 0 : Number(Math.abs(mm - fromMm).toFixed(1));
  return byMm > 0 ? byMm : null;
};

function ofTanks(layout: Layout, neededMl: number, solved: Limits["solved"]): Closer[] {
  return layout.tanks.flatMap((tank, place) => {
    const sizes = (["length", "height", "width"] as const).flatMap((dimension): Closer[] => {
      const nowMm = dimensionMm(layout, place, dimension);
      if (nowMm === null) return [];
      const most = [MOST_TIMES * nowMm];
      if (dimension === "width" && layout.buildUp.gaugeMm !== null) most.push(layout.buildUp.gaugeMm);
      if (solved?.tank === place && solved.dimension === dimension) most.push(solved.atMostMm);
      const found = searchDimension(layout, place, dimension, neededMl, [nowMm, Math.min(...most)]);
      const byMm = Math.min(...most) > nowMm ? change(nowMm, found.mm) : null;
      return byMm === null ? [] : [{ tank: place, dimension, change: "more", byMm }];
    });
    if (tank.kind !== "side-pair" || layout.buildUp.boilerRadiusMm === null) return sizes;
    // raised above the boiler's middle a tank comes nearer to it; by more than its own height it is another tank
    const baseMm = Number(tank.base);
    const highestMm = Math.min(cleadingRadiusMm(layout.buildUp), baseMm + Number(tank.height));
    const raised =
      baseMm < highestMm ? firstEnough(waterBy(layout, place, "base"), neededMl, baseMm, highestMm).mm : null;
    const byMm = change(baseMm, raised);
    return byMm === null
      ? sizes
      : [...sizes, { tank: place, dimension: UNDERSIDE, change: "more" as const, byMm }];
  });
}

const spaceWater = (layout: Layout, key: keyof BuildUp) => (mm: number) =>
  usableMl(withBuildUp(layout, { [key]: mm }));

function ofSpace(layout: Layout, neededMl: number): Closer[] {
  const least = [
    ["laggingMm", "lagging", 0],
    ["clearanceMm", "clearance to the cleading", LEAST_CLEARANCE_MM],
    ["plateworkMm", "platework outside the tanks", 0],
  ] as const;
  return least.flatMap(([key, dimension, leastMm]): Closer[] => {
    const nowMm = layout.buildUp[key];
    if (nowMm <= leastMm) return [];
    const byMm = change(nowMm, firstEnough(spaceWater(layout, key), neededMl, nowMm, leastMm).mm);
    return byMm === null ? [] : [{ tank: null, dimension, change: "less", byMm }];
  });
}

function widerGauge(layout: Layout, neededMl: number): Closer[] {
  const { gaugeMm } = layout.buildUp;
  if (gaugeMm === null) return [];
  const { mm } = firstEnough(spaceWater(layout, "gaugeMm"), neededMl, gaugeMm, MOST_GAUGE_TIMES * gaugeMm);
  const byMm = change(gaugeMm, mm);
  return byMm === null ? [] : [{ tank: null, dimension: "loading gauge, whole width", change: "more", byMm }];
}
