import { fitGrowth } from "../statistics/growth-fit.ts";
import type { DripReading, LookReading } from "./evidence.ts";
import { ENOUGH_FOR_A_TREND, pointsOf, priorOf, scatterOf } from "./leak-course.ts";
import { catches } from "./left-out.ts";

/** What was read of a fitting before a service. */
export interface Life {
  drips: readonly DripReading[];
  looks: readonly LookReading[];
  /** hours of the engine's life at the service before, 0 without one */
  startH: number;
  serviced: boolean;
}

/** Degrees of freedom that the scatter of catches is taken to be known with. */
const TRUSTED_DF = 4;

/** What would pass without the service: by the course before, or by its level where readings are too few for one. */
export interface Without {
  /** g/min at so many hours since the service before */
  at(x: number): number;
  /** of the mean of readings there, whose own scatter is `readingSd` */
  spreadAt(x: number, readingSd: number): number;
  df: number;
  words: (gPerMin: string, count: string) => string;
}

export function without(before: Life, limit: number): Without {
  const points = pointsOf({ ...before, nowH: 0 }, limit);
  const df = points.length + TRUSTED_DF - 1;
  const caught = catches(before.drips.length);
  if (points.length < ENOUGH_FOR_A_TREND) {
    const count = points.length;
    const level = points.reduce((sum, { y }) => sum + y, 0) / count;
    const variance =
      points.reduce((sum, { reading }) => sum + scatterOf(level, reading.u, limit) ** 2, 0) / count;
    const squares = points.reduce((sum, { y }) => sum + (y - level) ** 2, 0) / variance;
    const scatter = (TRUSTED_DF + squares) / df;
    return {
      at: () => level,
      spreadAt: (_, readingSd) => Math.sqrt(scatter * (variance / count + readingSd ** 2)),
      df,
      words: (gPerMin, since) =>
        `where ${gPerMin} passed before (${caught} before, too few for a course, so levels are compared; ${since} since)`,
    };
  }
  const fit = fitGrowth(points, priorOf(limit, before.serviced));
  return {
    at: (x) => fit.at(x),
    spreadAt: (x, readingSd) => fit.spreadAt(x, readingSd),
    df,
    words: (gPerMin, since) =>
      `where ${gPerMin} was to be expected without it (${caught} before, ${since} since)`,
  };
}
