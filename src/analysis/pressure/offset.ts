import { meanOf } from "../../statistics/mean-of.ts";
import type { Sample } from "./trace-samples.ts";

/** How far what a hand read stood above what a logger showed at the same moments. */
export interface Offset {
  value: number;
  /** standard uncertainty: of the readings alone, not of either instrument's bias */
  u: number;
  /** degrees of freedom of u, where it is what the pairs stray by; Infinity where it is of their declared errors */
  df: number;
  /** the readings it was made of */
  entries: readonly string[];
}

interface Read {
  id: string;
  atS: number;
  value: number;
}

/** Samples this near to a reading stand for its moment; between ones further apart than the second, nobody knows, s. */
const AT_ONCE_S = 3;
const GAP_S = 60;
/** A reading is written down so many seconds off, standard uncertainty (common practice). */
const U_STAMP_S = 2;
/** The pace is taken over so many seconds to either side. */
const PACE_S = 15;
/** So many standard uncertainties from the median, a reading is a slip and no bias. */
const SLIP = 5;

/**
 * Mean difference of hand readings and samples, each pair weighed by its errors, slips left out. Where the pairs stray
 * more than their errors say, u grows with it (Birge ratio).
 * @param samples in order of time
 * @returns null where no reading lies within the samples
 */
export function offsetBetween(
  readings: readonly Read[],
  samples: readonly Sample[],
  u: { ofReading: number; ofSample: number },
): Offset | null {
  const pairs = readings.flatMap((read) => {
    const here = loggedAbout(samples, read.atS);
    if (here === null) return [];
    const uPair = Math.hypot(u.ofReading, u.ofSample / Math.sqrt(here.count), here.pace * U_STAMP_S);
    return [{ id: read.id, by: read.value - here.value, u: uPair }];
  });
  if (pairs.length === 0) return null;
  const sorted = pairs.map(({ by }) => by).sort((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  const middle = ((sorted[Math.floor(half)] as number) + (sorted[Math.ceil(half)] as number)) / 2;
  const kept = pairs.filter((pair) => Math.abs(pair.by - middle) <= SLIP * pair.u);
  if (kept.length === 0) return null;
  const weight = kept.reduce((sum, pair) => sum + pair.u ** -2, 0);
  const value = kept.reduce((sum, pair) => sum + pair.by * pair.u ** -2, 0) / weight;
  const squares = kept.reduce((sum, pair) => sum + ((pair.by - value) / pair.u) ** 2, 0);
  const birge = kept.length > 1 ? Math.max(1, Math.sqrt(squares / (kept.length - 1))) : 1;
  return {
    value,
    u: birge / Math.sqrt(weight),
    df: birge > 1 ? kept.length - 1 : Number.POSITIVE_INFINITY,
    entries: kept.map(({ id }) => id),
  };
}

/** What the samples about a moment show: their mean or the straight line between two, and the pace, a second. */
export function loggedAbout(
  samples: readonly Sample[],
  atS: number,
): { value: number; count: number; pace: number } | null {
  const next = firstFrom(samples, atS);
  const after = samples[next];
  const before = after?.atS === atS ? after : samples[next - 1];
  if (before === undefined || after === undefined || after.atS - before.atS > GAP_S) return null;
  const about = samples.slice(
    firstFrom(samples, atS - AT_ONCE_S),
    firstFrom(samples, atS + AT_ONCE_S + 1e-6),
  );
  const early = samples[Math.max(0, firstFrom(samples, atS - PACE_S) - 1)] as Sample;
  const late = samples[Math.min(samples.length - 1, firstFrom(samples, atS + PACE_S))] as Sample;
  const pace = late.atS > early.atS ? (late.value - early.value) / (late.atS - early.atS) : 0;
  if (about.length > 1) {
    const value =
      meanOf(about, (sample) => sample.value) + pace * (atS - meanOf(about, (sample) => sample.atS));
    return { value, count: about.length, pace };
  }
  const share = before === after ? 0 : (atS - before.atS) / (after.atS - before.atS);
  return { value: before.value + share * (after.value - before.value), count: 1, pace };
}

/** Place of the first sample at or after a moment. */
function firstFrom(samples: readonly Sample[], atS: number): number {
  let [low, high] = [0, samples.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((samples[middle] as Sample).atS < atS) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Both brought together. Nothing is declared of a logger's bias, so it is taken to be as large as that of what the hand
 * read (our choice): each gives way alike, but for what the difference itself is not known by. What is left to both is no
 * less than half of what they differ by: either may be the one that is off. Two that err apart are surer together than either
 * by itself; of a logger that was set by the dial, no less likely beforehand (our choice), all of the dial's bias is left.
 * How far they differ tells which.
 */
export function broughtTogether(
  offset: Offset | null,
  uBias: number,
): { lowerReadingsBy: number; lowerSamplesBy: number; uBias: number } {
  if (offset === null) return { lowerReadingsBy: 0, lowerSamplesBy: 0, uBias };
  const own = Math.max(uBias, Math.abs(offset.value) / 2);
  const by = (offset.value * own ** 2) / (2 * own ** 2 + offset.u ** 2);
  const left = uBias * Math.sqrt(leftOfSquare(offset, uBias));
  return { lowerReadingsBy: by, lowerSamplesBy: -by, uBias: Math.max(left, Math.abs(offset.value) / 2) };
}

/** Variance left to both as a part of that of one by itself, by how likely they err apart or alike. */
function leftOfSquare({ value, u }: Offset, uBias: number): number {
  if (u === 0) return value === 0 ? 1 : 0.5;
  const apartSquare = 2 * uBias ** 2 + u ** 2;
  const against = (u / Math.sqrt(apartSquare)) * Math.exp((value ** 2 / 2) * (u ** -2 - 1 / apartSquare));
  const alike = 1 / (1 + against);
  return alike + ((1 - alike) * (uBias ** 2 + u ** 2)) / apartSquare;
}
