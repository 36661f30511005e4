import { ICE_POINT_K } from "../analysis/state/circumstances.ts";
import type { Value } from "./indicator-values.ts";
import type { Outing } from "./outings.ts";

/** How fast a boiler that is shut in cools: fall of its temperature above the air's, a part in a thousand each second. */
export interface ShutInFall {
  perThousandS: Value;
  /** the same over the upper half of the fall, over that of the lower half; null where halves cannot be told */
  upperOverLower: Value | null;
}

/** Readings above this part of working pressure count: lower down the dial tells little. */
const LEAST_SHARE = 0.25;
const LEAST_READINGS = 3;
const LEAST_S = 180;
/** A fall is told, and may be divided by, from so many standard uncertainties on. */
const LEAST_TOLD = 4;

/** The fall in the longest shut-in of an outing; null without one that is read often enough. */
export function shutInFall({ sources, report }: Outing): ShutInFall | null {
  const { pressure, around, locomotive, errors } = sources;
  const phase = report.phases
    .filter(({ name }) => name === "shut-in")
    .sort((a, b) => b.toS - b.fromS - (a.toS - a.fromS))[0];
  if (phase === undefined) return null;
  const least = LEAST_SHARE * locomotive.workingPressureBarG;
  const airK = around.ambientC + ICE_POINT_K;
  const points = pressure.points
    .filter(([atS, barG]) => atS >= phase.fromS && atS <= phase.toS && barG > least)
    .map(([atS, barG]): Point => {
      const above = (bar: number) => around.boilingK(bar) - airK;
      const read = errors.pressureReadingBar;
      return { atS, log: Math.log(above(barG)), u: Math.log(above(barG + read) / above(barG)) };
    });
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return null;
  if (points.length < LEAST_READINGS || last.atS - first.atS < LEAST_S) return null;
  const half = points.length >> 1;
  const [upper, lower] = [points.slice(0, half + 1), points.slice(half)];
  const [all, fast, slow] = [fallOf(points), fallOf(upper), fallOf(lower)];
  return {
    perThousandS: { value: 1000 * all.value, u: 1000 * all.u },
    upperOverLower:
      half < 2 || !(slow.value > LEAST_TOLD * slow.u) || !(fast.value > 0)
        ? null
        : {
            value: fast.value / slow.value,
            u: (fast.value / slow.value) * Math.hypot(fast.u / fast.value, slow.u / slow.value),
          },
  };
}

interface Point {
  atS: number;
  log: number;
  /** of the logarithm, by the reading of the dial */
  u: number;
}

function fallOf(points: readonly Point[]): Value {
  const n = points.length;
  const meanS = points.reduce((sum, point) => sum + point.atS, 0) / n;
  const mean = points.reduce((sum, point) => sum + point.log, 0) / n;
  const squares = points.reduce((sum, point) => sum + (point.atS - meanS) ** 2, 0);
  const across = points.reduce((sum, point) => sum + (point.atS - meanS) * (point.log - mean), 0);
  const u = Math.sqrt(points.reduce((sum, point) => sum + ((point.atS - meanS) * point.u) ** 2, 0));
  return { value: -across / squares, u: u / squares };
}
