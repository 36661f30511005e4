import type { Trace } from "../logbook/steaming.ts";
import type { Timeline } from "../logbook/timeline.ts";

export interface Sample {
  atS: number;
  value: number;
}

/** All samples of a channel in order of time, gaps left out. */
export function samplesOf({ traces }: Timeline, channel: Trace["channel"]): Sample[] {
  const of = traces.filter((trace) => trace.channel === channel);
  const samples: Sample[] = [];
  for (const { startS, everyS, values } of of) {
    values.forEach((value, i) => {
      if (value !== null) samples.push({ atS: startS + i * everyS, value });
    });
  }
  return of.length > 1 ? samples.sort((a, b) => a.atS - b.atS) : samples;
}

const FEWEST = 12;
/** Median of a normal error's size, in standard deviations. */
const MEDIAN_OF_NORMAL = 0.6745;
/** Standard deviation of (before - 2 x middle + after), in those of one sample. */
const OF_SECOND_DIFFERENCE = Math.sqrt(6);

/**
 * Standard deviation of one sample's own error from how samples stray from the straight line between their neighbours:
 * the median, so that kinks and slips do not count, and never below that of their rounding (GUM, JCGM 100:2008, F.2.2.1).
 * Null for fewer than twelve.
 */
export function scatterOf(values: readonly number[]): number | null {
  if (values.length < FEWEST) return null;
  const strays: number[] = [];
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < values.length; i++) {
    const [before, here, after] = [values[i - 1] as number, values[i] as number, values[i + 1]];
    const change = Math.abs(here - before);
    if (change > SAME) step = Math.min(step, change);
    if (after !== undefined) strays.push(Math.abs(before - 2 * here + after));
  }
  strays.sort((a, b) => a - b);
  const median = strays[strays.length >> 1] ?? 0;
  const rounding = Number.isFinite(step) ? step / Math.sqrt(12) : 0;
  return Math.max(median / MEDIAN_OF_NORMAL / OF_SECOND_DIFFERENCE, rounding);
}

/** Differences below this are of the binary fractions, not of the instrument. */
const SAME = 1e-6;
