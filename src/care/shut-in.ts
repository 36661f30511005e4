import { ICE_POINT_K } from "../analysis/circumstances.ts";
import type { Outing } from "./outings.ts";

/** How fast a boiler that is shut in cools: fall of its temperature above the air's, a part in a thousand each second. */
export interface ShutInFall {
  perThousandS: number;
  /** the same over the upper half of the fall, over that of the lower half; null where halves cannot be told */
  upperOverLower: number | null;
}

/** Readings above this part of working pressure count: lower down the dial tells little. */
const LEAST_SHARE = 0.25;
const LEAST_READINGS = 3;
const LEAST_S = 180;

/** The fall in the longest shut-in of an outing; null without one that is read often enough. */
export function shutInFall({ sources, report }: Outing): ShutInFall | null {
  const { pressure, around, locomotive } = sources;
  const phase = report.phases
    .filter(({ name }) => name === "shut-in")
    .sort((a, b) => b.toS - b.fromS - (a.toS - a.fromS))[0];
  if (phase === undefined) return null;
  const least = LEAST_SHARE * locomotive.workingPressureBarG;
  const airK = around.ambientC + ICE_POINT_K;
  const points = pressure.points
    .filter(([atS, barG]) => atS >= phase.fromS && atS <= phase.toS && barG > least)
    .map(([atS, barG]) => ({ atS, log: Math.log(around.boilingK(barG) - airK) }));
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return null;
  if (points.length < LEAST_READINGS || last.atS - first.atS < LEAST_S) return null;
  const half = points.length >> 1;
  const [upper, lower] = [points.slice(0, half + 1), points.slice(half)];
  const [fast, slow] = [fallOf(upper), fallOf(lower)];
  return {
    perThousandS: 1000 * fallOf(points),
    upperOverLower: half < 2 || !(slow > 0) ? null : fast / slow,
  };
}

function fallOf(points: readonly { atS: number; log: number }[]): number {
  const n = points.length;
  const meanS = points.reduce((sum, point) => sum + point.atS, 0) / n;
  const mean = points.reduce((sum, point) => sum + point.log, 0) / n;
  const across = points.reduce((sum, point) => sum + (point.atS - meanS) * (point.log - mean), 0);
  return -across / points.reduce((sum, point) => sum + (point.atS - meanS) ** 2, 0);
}
