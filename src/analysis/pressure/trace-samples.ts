import type { Trace } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";

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
 * the median, so that kinks and slips do not count. Null for fewer than twelve.
 */
export function strayOf(values: readonly number[]): number | null {
  if (values.length < FEWEST) return null;
  const strays = values
    .slice(2)
    .map((after, i) => Math.abs((values[i] as number) - 2 * (values[i + 1] as number) + after))
    .sort((a, b) => a - b);
  return (strays[strays.length >> 1] as number) / MEDIAN_OF_NORMAL / OF_SECOND_DIFFERENCE;
}

/** The same, but never below that of their rounding, the least step between two (GUM, JCGM 100:2008, F.2.2.1). */
export function scatterOf(values: readonly number[]): number | null {
  const stray = strayOf(values);
  if (stray === null) return null;
  const step = values.reduce((least, value, i) => {
    const change = Math.abs(value - (values[i - 1] ?? value));
    return change > SAME ? Math.min(least, change) : least;
  }, Number.POSITIVE_INFINITY);
  return Math.max(stray, Number.isFinite(step) ? step / Math.sqrt(12) : 0);
}

/** Differences below this are of the binary fractions, not of the instrument. */
const SAME = 1e-6;
