import { traceReadings } from "../pressure/trace-readings.ts";
import type { Sources } from "../sources.ts";

/** The water's temperature as it was read. */
export interface TemperatureRead {
  atS: number;
  celsius: number;
  /** standard uncertainty of this one */
  uK: number;
}

/** Each reading of the boiler's thermometer, K (our choice); a logger's is no surer. */
const U_THERMOMETER_K = 0.1;
/** Water that is no longer cold, °C: what was read then says nothing of a cold hold. */
const HOTTEST_C = 90;

/**
 * Readings of the boiler's thermometer while she was cold, in order of time: by hand, or where that was not at two moments a
 * logger's.
 */
export function readCold({ timeline }: Sources): TemperatureRead[] {
  const isCold = ({ celsius }: TemperatureRead) => celsius > 0 && celsius < HOTTEST_C;
  const byHand = timeline
    .of("temperature")
    .filter(({ of }) => of === "boiler")
    .map(({ atS, celsius }): TemperatureRead => ({ atS, celsius, uK: U_THERMOMETER_K }))
    .filter(isCold);
  if (readTwice(byHand)) return byHand;
  const logged = timeline.traces
    .filter(({ channel }) => channel === "temperatureC")
    .flatMap((trace) => traceReadings(trace, U_THERMOMETER_K))
    .map(({ atS, value, u }): TemperatureRead => ({ atS, celsius: value, uK: Math.max(u, U_THERMOMETER_K) }))
    .filter(isCold)
    .sort((a, b) => a.atS - b.atS);
  return readTwice(logged) ? logged : byHand;
}

export const readTwice = (read: readonly TemperatureRead[]): boolean =>
  (read.at(-1)?.atS ?? 0) > (read[0]?.atS ?? 0);

/** Straight between readings of the thermometer, and as the nearest outside of them; undefined where there are none. */
export function temperatureAt(
  read: readonly TemperatureRead[],
  atS: number,
): { celsius: number; uK: number } | undefined {
  const next = read.findIndex((entry) => entry.atS > atS);
  const [before, after] = [read[next - 1], read[next] ?? read.at(-1)];
  if (before === undefined || after === undefined) return after;
  const share = (atS - before.atS) / (after.atS - before.atS);
  return {
    celsius: before.celsius + (after.celsius - before.celsius) * share,
    uK: Math.max(before.uK, after.uK),
  };
}
