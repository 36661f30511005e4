import type { Trace } from "../../logbook/steaming.ts";
import { meanOf } from "../../statistics/mean-of.ts";
import { strayOf } from "./trace-samples.ts";

/** Samples of a trace put together as one reading. */
export interface TraceReading {
  atS: number;
  value: number;
  /** standard uncertainty: of one sample over the root of their number */
  u: number;
}

/**
 * A trace is put together to so many readings at most, each of the samples within so many seconds: over a longer time
 * water swells, is fed and is drawn, and a mean of all is of no one moment.
 */
const TRACE_READINGS = 60;
const TOGETHER_S = 5;

/**
 * The readings of a trace. First and last sample stand by themselves, for totals run from one to the other.
 * @param uDeclared of one sample; taken larger where the samples scatter more about their neighbours
 */
export function traceReadings({ startS, everyS, values }: Trace, uDeclared: number): TraceReading[] {
  const samples = values.flatMap((value, i) => (value === null ? [] : [{ atS: startS + i * everyS, value }]));
  const uSample = Math.max(uDeclared, strayOf(samples.map(({ value }) => value)) ?? 0);
  const size = Math.max(1, Math.ceil(samples.length / TRACE_READINGS));
  const inner = samples.slice(1, -1);
  const groups = [samples.slice(0, 1)];
  for (let start = 0; start < inner.length; start += size) {
    const group = inner.slice(start, start + size);
    const middleS = ((group[0]?.atS ?? 0) + (group.at(-1)?.atS ?? 0)) / 2;
    groups.push(group.filter(({ atS }) => Math.abs(atS - middleS) <= TOGETHER_S + everyS / 2));
  }
  groups.push(samples.slice(1).slice(-1));
  return groups.flatMap((group) => {
    if (group.length === 0) return [];
    return [
      {
        atS: meanOf(group, ({ atS }) => atS),
        value: meanOf(group, ({ value }) => value),
        u: uSample / Math.sqrt(group.length),
      },
    ];
  });
}
