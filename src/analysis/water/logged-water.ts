import type { Timeline } from "../../logbook/timeline.ts";
import type { Offset } from "../pressure/offset.ts";
import { type TraceReading, traceReadings } from "../pressure/trace-readings.ts";
import type { ReadingErrors } from "../state/instruments.ts";
import { levelOffset } from "./level-offset.ts";

/** What loggers of level and weight tell of the water, put together as readings. */
export interface LoggedWater {
  /** level in mm, brought to what glass and logger agree on, or weight in g */
  readings: readonly (TraceReading & { of: "level" | "weight" })[];
  /** what brings the glass to that, mm */
  lowerGlassBy: number;
  /** how far the glass stood above the logger; null where not both were read */
  glassOffset: Offset | null;
}

export const noneLogged = (): LoggedWater => ({ readings: [], lowerGlassBy: 0, glassOffset: null });

export function loggedWater(timeline: Timeline, errors: ReadingErrors): LoggedWater {
  const { offset, lowerReadingsBy, lowerSamplesBy } = levelOffset(timeline, errors);
  const readings = timeline.traces.flatMap((trace): LoggedWater["readings"] => {
    if (trace.channel === "massG")
      return traceReadings(trace, errors.massReadingG).map((each) => ({ ...each, of: "weight" }));
    if (trace.channel !== "levelMm") return [];
    return traceReadings(trace, errors.levelReadingMm).map((each) => ({
      ...each,
      value: each.value - lowerSamplesBy,
      of: "level",
    }));
  });
  return { readings, lowerGlassBy: lowerReadingsBy, glassOffset: offset };
}
