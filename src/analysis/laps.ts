import type { Locomotive } from "../logbook/locomotive.ts";
import type { Steaming } from "../logbook/steaming.ts";
import { overlapS, type Timeline } from "../logbook/timeline.ts";
import { type Measured, measured, standardUncertainty } from "../quantity/measured.ts";
import { median } from "../statistics/order.ts";
import { noticedLaps, unseenLaps } from "./laps-unseen.ts";
import { runningStretches } from "./phases.ts";

export interface Laps {
  /** laps recorded in (fromS, toS] */
  countIn(fromS: number, toS: number): number;
  /**
   * laps run in (fromS, toS]: recorded, those a gap of twice or thrice the usual time gives away, and of an owner who forgets
   * some those to be expected besides, where no gap would show them
   */
  runIn(fromS: number, toS: number): Measured;
  /** metres run in (fromS, toS]; null where neither lap length nor wheel and revolutions are known */
  distanceM(fromS: number, toS: number): number | null;
  missed: readonly { entryId: string; atS: number; count: number }[];
  /** laps to be expected besides, run and lost with no gap that shows them, in all */
  unseen: Measured;
}

/** Of laps written down one by one, so many may be forgotten without a gap that shows it (our estimate). */
const FORGOTTEN = 0.01;

/** Median distance from the median. */
const medianStray = (values: readonly number[]): number => {
  const middle = median(values);
  return median(values.map((value) => Math.abs(value - middle)));
};

/** A lap that a gap gives away is in doubt by so much. */
export const U_FOUND = 0.3;

export function lapsOf(timeline: Timeline, steaming: Steaming, locomotive: Locomotive): Laps {
  const laps = timeline.of("lap");
  const turns = timeline.of("revolutions");
  const { missed, wouldShow } = missedLaps(timeline);
  const inWindow = <T extends { atS: number }>(list: readonly T[], fromS: number, toS: number) =>
    list.filter((one) => one.atS > fromS && one.atS <= toS);
  const total = (list: readonly { count: number }[]) => list.reduce((sum, one) => sum + one.count, 0);
  const countIn = (fromS: number, toS: number) => total(inWindow(laps, fromS, toS));
  const unseen = unseenLaps(laps, total(missed), wouldShow);
  // as they were counted, until the log shows that its owner forgets
  const forgets = total(missed) + noticedLaps(laps) > 0;
  const tapsOf = (list: readonly { count: number }[]) => list.filter((lap) => lap.count === 1).length;
  const foundIn = (fromS: number, toS: number) => total(inWindow(missed, fromS, toS));
  const runIn = (fromS: number, toS: number) => {
    const forgotten = foundIn(fromS, toS);
    const taps = tapsOf(inWindow(laps, fromS, toS));
    const share = wouldShow || taps === 0 ? 0 : taps / tapsOf(laps);
    const [besides, uBesides] = forgets
      ? [share * unseen.value, Math.sqrt(share) * standardUncertainty(unseen)]
      : [0, Math.sqrt((wouldShow ? 0 : FORGOTTEN) * taps)];
    const u = Math.hypot(U_FOUND * forgotten, uBesides);
    return measured(countIn(fromS, toS) + forgotten + besides, u, "1", "laps perhaps not recorded");
  };
  const lapM = steaming.track?.lapM;
  const wheelMm = locomotive.drivingWheelMm;
  return {
    countIn,
    runIn,
    missed,
    unseen,
    distanceM: (fromS, toS) => {
      if (lapM !== undefined && laps.length > 0) return (countIn(fromS, toS) + foundIn(fromS, toS)) * lapM;
      if (wheelMm === undefined || turns.length === 0) return null;
      return (total(inWindow(turns, fromS, toS)) * Math.PI * wheelMm) / 1000;
    },
  };
}

/** Of so many laps one that took as long as two can be told from the others. */
const FEWEST = 5;
/** Laps must be so regular (relative median deviation) before a gap is read as a lap forgotten. */
const REGULAR = 0.08;
/** How near to a whole number of usual laps such a gap must be. */
const NEAR = 0.15;

/**
 * Gaps of two or three usual laps in an otherwise regular run, with no stop and no hand on the engine in them.
 */
function missedLaps(timeline: Timeline): { missed: Laps["missed"]; wouldShow: boolean } {
  const counted = timeline.of("lap");
  const laps = counted.filter((lap) => lap.count === 1);
  // without the regulator in the log a long gap may as well be a stop
  if (laps.length < FEWEST || timeline.of("regulator").length === 0) return { missed: [], wouldShow: false };
  const running = runningStretches(timeline);
  // a gap is of time under way: a stop with the regulator shut does not count
  const gaps = counted.flatMap((lap, i) => {
    if (lap.count !== 1) return [];
    // the first lap counts from the moment the engine set off
    const fromS = counted[i - 1]?.atS ?? running.findLast(([openS]) => openS < lap.atS)?.[0];
    return fromS === undefined ? [] : [{ lap, fromS, gapS: overlapS(running, fromS, lap.atS) }];
  });
  const hands = [
    ...timeline.of("fuel"),
    ...timeline.of("feed").filter((feed) => feed.by !== "axle-pump"),
  ].map((entry) => entry.atS);
  const gapTimes = gaps.map((gap) => gap.gapS);
  const wouldShow = medianStray(gapTimes) < (REGULAR / 2) * median(gapTimes);
  const missed = gaps.flatMap(({ lap, fromS, gapS }, i) => {
    const near = [...gapTimes.slice(Math.max(0, i - 4), i), ...gapTimes.slice(i + 1, i + 5)];
    const usual = median(near);
    const times = Math.round(gapS / usual);
    if (!(times >= 2 && times <= 3 && Math.abs(gapS / usual - times) < NEAR * times)) return [];
    const regular = medianStray(near) < REGULAR * usual;
    const handled = hands.some((atS) => atS > fromS && atS < lap.atS);
    return regular && !handled ? [{ entryId: lap.id, atS: lap.atS, count: times - 1 }] : [];
  });
  return { missed, wouldShow };
}
