import { overlapS, type Timeline } from "../../logbook/timeline.ts";
import { median } from "../../statistics/order.ts";
import { clockGrainS } from "../state/clock-grain.ts";
import { runningStretches } from "../state/phases.ts";

/** Laps that a gap between two others gives away, or may hide. */
export interface MissedLaps {
  /** the lap that ends the gap, and the entry that begins it */
  entryId: string;
  sinceId: string;
  atS: number;
  /** usual laps in the time under way */
  times: number;
  /** laps counted as run in it and not recorded */
  count: number;
  /**
   * of a long gap: so many fewer or more were run if, against what was counted, she stood or ran all the while, and by how many
   * its laps stray from that, 95 times in 100; null of a short one
   */
  eitherWay: { fewer: number; more: number; strays: number } | null;
  /** standard uncertainty of `count` */
  u: number;
}

/** A lap that a gap gives away is in doubt by so much. */
const U_FOUND = 0.3;
/** Of so many laps one that took as long as two can be told from the others. */
const FEWEST = 5;
/** Of so many others, one that took as long as four. */
const FEWEST_OTHERS = 2;
/** Laps must be so regular (relative median deviation) before a gap is read as a lap forgotten. */
const REGULAR = 0.08;
/** Before one of four laps or more is. */
const REGULAR_ENOUGH = 0.25;
/** How near to a whole number of usual laps a gap of two or three must be. */
const NEAR = 0.15;
/** And, of a lap, with a hand on her in it, to be one in which she may as well have run on. */
const WHOLE = 0.1;
/** A gap must be longer than so many laps whatever the clock's grain hides. */
const LONGER = 1.5;
/** The triangular spread of the difference of two times, each to a grain: of the grain, one standard uncertainty. */
const OF_GRAIN = 1 / Math.sqrt(6);
/** And the median of what it strays. */
const STRAY_OF_GRAIN = 1 - Math.SQRT1_2;
const TWO_SIDED = 1.96;

/** Median distance from the median. */
const medianStray = (values: readonly number[]): number => {
  const middle = median(values);
  return median(values.map((value) => Math.abs(value - middle)));
};

/** To a coarse clock one lap is short and the next long: the usual one is told by several together. */
function usualOver(gapTimes: readonly number[], grainS: number): number {
  const mean = gapTimes.reduce((sum, gapS) => sum + gapS, 0) / gapTimes.length;
  const most = Math.max(1, Math.floor(gapTimes.length / 2));
  const together = Math.min(most, Math.ceil((3 * grainS) / mean));
  const spans = gapTimes
    .slice(together - 1)
    .map((_, i) => gapTimes.slice(i, i + together).reduce((sum, gapS) => sum + gapS, 0) / together);
  return median(spans);
}

/**
 * Gaps of two or three usual laps in an otherwise regular run, with no stop and no hand on the engine in them; and any gap of
 * four or more in which the regulator is written open: she ran unlogged, or stood for so long. She is taken to have run, or,
 * where a hand was on her in between, to have stood; of a short gap with a hand in it that is not said where it is no whole laps.
 */
export function missedLaps(timeline: Timeline): { missed: readonly MissedLaps[]; wouldShow: boolean } {
  const counted = timeline.of("lap");
  const regulator = timeline.of("regulator");
  // without the regulator in the log a long gap may as well be a stop
  if (counted.length === 0 || regulator.length === 0) return { missed: [], wouldShow: false };
  const running = runningStretches(timeline);
  // a gap is of time under way: a stop with the regulator shut does not count
  const gaps = counted.flatMap((lap, i) => {
    if (lap.count !== 1) return [];
    // the first lap counts from the moment the engine set off
    const openS = running.findLast(([fromS]) => fromS < lap.atS)?.[0];
    const since = counted[i - 1] ?? regulator.find(({ atS }) => atS === openS);
    if (since === undefined) return [];
    return [{ lap, sinceId: since.id, fromS: since.atS, gapS: overlapS(running, since.atS, lap.atS) }];
  });
  if (gaps.length === 0) return { missed: [], wouldShow: false };
  const hands = [...timeline.of("fuel"), ...timeline.of("feed").filter((feed) => feed.by !== "axle-pump")]
    .map((entry) => entry.atS)
    // what is done while she stands by the log takes none of the time under way
    .filter((atS) => running.some(([fromS, toS]) => atS > fromS && atS < toS));
  const gapTimes = gaps.map((gap) => gap.gapS);
  const grainS = clockGrainS(timeline.entries);
  const ofAll = grainS > 0 ? usualOver(gapTimes, grainS) : median(gapTimes);
  const enough = counted.filter((lap) => lap.count === 1).length >= FEWEST;
  const wouldShow =
    enough && medianStray(gapTimes) < (REGULAR / 2) * ofAll && 2 * (ofAll - grainS) > LONGER * ofAll;
  const missed = gaps.flatMap(({ lap, sinceId, fromS, gapS }, i): MissedLaps[] => {
    const near = [...gapTimes.slice(Math.max(0, i - 4), i), ...gapTimes.slice(i + 1, i + 5)];
    if (near.length === 0) return [];
    const usual = grainS > 0 ? ofAll : median(near);
    const times = Math.round(gapS / usual);
    if (!(times >= 2 && gapS - grainS > LONGER * usual)) return [];
    const stray = Math.max(0, medianStray(near) - STRAY_OF_GRAIN * grainS) / usual;
    const handled = hands.some((atS) => atS > fromS && atS < lap.atS);
    const of = { entryId: lap.id, sinceId, atS: lap.atS, times };
    const uGrain = (OF_GRAIN * grainS) / usual;
    const could = times - 1;
    if (times <= 3) {
      const off = Math.abs(gapS / usual - times);
      if (!(enough && stray < REGULAR && off < NEAR * times)) return [];
      const u = Math.hypot(U_FOUND * could, uGrain);
      if (!handled) return [{ ...of, count: could, u, eitherWay: null }];
      const eitherWay = { fewer: 0, more: could, strays: TWO_SIDED * u };
      return off < WHOLE ? [{ ...of, count: 0, u: could / 2, eitherWay }] : [];
    }
    if (near.length < FEWEST_OTHERS || stray > REGULAR_ENOUGH) return [];
    const count = handled ? 0 : could;
    const strays = TWO_SIDED * Math.hypot(U_FOUND, (times * stray) / 2, uGrain);
    return [{ ...of, count, u: could / 2, eitherWay: { fewer: count, more: could - count, strays } }];
  });
  return { missed, wouldShow };
}
