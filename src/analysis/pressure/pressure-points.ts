import { meanOf } from "../../statistics/mean-of.ts";
/** One pressure as it was read, by hand or by a logger, or told by the boiler's thermometer, brought to what the two agree on. */
export interface PressureReading {
  atS: number;
  barG: number;
  /** standard uncertainty of this reading alone */
  uBar: number;
  by: "dial" | "logger" | "thermometer";
  /** the entry of pump strokes that reached it */
  strokesId?: string;
}

export type PressurePoint = readonly [atS: number, barG: number];

/** At most so many points of a trace are kept: more would not move a mean. */
const TRACE_POINTS = 400;
/** Samples further apart do not tell what the pressure was between them, s. */
const GAP_S = 60;

/** A logger's samples put together by neighbours; a reading of the dial among them counts by its error against theirs. */
export function pointsOfBoth(readings: readonly PressureReading[]): PressurePoint[] {
  const logged = readings.filter(({ by }) => by === "logger");
  const read = readings.filter(({ by }) => by === "dial");
  const size = Math.max(1, Math.ceil(logged.length / TRACE_POINTS));
  const points: [number, number][] = [];
  for (let start = 0; start < logged.length; start += size) {
    const group = logged.slice(start, start + size);
    points.push([meanOf(group, ({ atS }) => atS), meanOf(group, ({ barG }) => barG)]);
  }
  const bySamples = [...points];
  const uSample = (logged[0]?.uBar ?? 0) / Math.sqrt(size);
  for (const { atS, barG, uBar } of read) {
    const index = lastAtOrBefore(bySamples, atS);
    const [before, after] = [bySamples[index], bySamples[index + 1]];
    if (before === undefined || after === undefined || after[0] - before[0] > GAP_S) {
      points.push([atS, barG]);
      continue;
    }
    const off = barG - (pressureAt(bySamples, atS) as number);
    const nearest = atS - before[0] < after[0] - atS ? before : after;
    nearest[1] += (off * uSample ** 2) / (uSample ** 2 + uBar ** 2);
  }
  return points.sort((a, b) => a[0] - b[0]);
}

/** Place of the last point at or before a moment; -1 where there is none. */
export function lastAtOrBefore(points: readonly PressurePoint[], atS: number): number {
  let low = 0;
  let high = points.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((points[middle] as PressurePoint)[0] <= atS) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** Straight between two points, before and after them the nearest; null where there is none. */
export function pressureAt(points: readonly PressurePoint[], atS: number): number | null {
  const index = lastAtOrBefore(points, atS);
  const before = points[index];
  const after = points[index + 1];
  if (before === undefined) return after?.[1] ?? null;
  if (after === undefined || after[0] === before[0]) return before[1];
  return before[1] + ((after[1] - before[1]) * (atS - before[0])) / (after[0] - before[0]);
}

/** Boiling points go nearly as the fourth root of the absolute pressure: so, of a gauge pressure in bar. */
const warmthOf = (barG: number): number => (1 + barG) ** 0.25;

/** As a boiler warms and cools, her warmth straight between two points; before and after them the nearest; null where there is none. */
export function pressureByWarmth(points: readonly PressurePoint[], atS: number): number | null {
  const near = lastAtOrBefore(points, atS);
  const [before, after] = [points[near], points[near + 1]];
  const straight = pressureAt(points, atS);
  if (before === undefined || after === undefined || straight === before[1]) return straight;
  const warmth = [before, after].map(([s, barG]): PressurePoint => [s, warmthOf(barG)]);
  return (pressureAt(warmth, atS) as number) ** 4 - 1;
}
