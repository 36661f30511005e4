import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Steaming } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import {
  exact,
  interval,
  type Measured,
  measured,
  standardUncertainty,
  sum,
} from "../../quantity/measured.ts";
import { type MissedLaps, missedLaps } from "./laps-missed.ts";
import { noticedLaps, unseenLaps } from "./laps-unseen.ts";

export interface Laps {
  /** laps recorded in (fromS, toS] */
  countIn(fromS: number, toS: number): number;
  /** whole laps run in (fromS, toS]: recorded, and those that a gap gives away */
  wholeIn(fromS: number, toS: number): number;
  /**
   * laps run in (fromS, toS]: whole ones, and of an owner who forgets some those to be expected besides, where no gap would
   * show them. The range takes in both readings of a long gap
   */
  runIn(fromS: number, toS: number): Measured;
  /** laps run in (fromS, toS] where she did in all long gaps the contrary of what was counted; null where there is none */
  otherwiseIn(fromS: number, toS: number): Measured | null;
  /** metres run in (fromS, toS]; null where neither lap length nor wheel and revolutions are known */
  distanceM(fromS: number, toS: number): number | null;
  missed: readonly MissedLaps[];
  /** what is in doubt of the laps that gaps give away, and of what the counts are of, about 0 */
  missedDoubt: Measured;
  /** laps to be expected besides, run and lost with no gap that shows them, in all */
  unseen: Measured;
}

/** Of laps written down one by one, so many may be forgotten without a gap that shows it (our estimate). */
const FORGOTTEN = 0.01;

/** Laps run or not, with what they are in doubt by. */
type Doubted = Pick<MissedLaps, "atS" | "eitherWay" | "u">;

const PERHAPS = "laps perhaps not recorded";

/** Doubt of laps about 0 with a random part of `u` besides: of long gaps both readings lie in the range. */
function doubtOf(missed: readonly Doubted[], u: number): Measured {
  const long = missed.flatMap(({ eitherWay }) => eitherWay ?? []);
  const short = missed.filter(({ eitherWay }) => eitherWay === null);
  const uShort = short.reduce((sum, one) => sum + one.u, 0);
  const even = measured(0, Math.hypot(u, uShort), "1", PERHAPS);
  if (long.length === 0) return even;
  const [low, high] = interval(even);
  const fewer = long.reduce((sum, one) => sum + one.fewer, 0);
  const more = long.reduce((sum, one) => sum + one.more + one.strays, 0);
  const uAll = missed.reduce((sum, one) => sum + one.u, 0);
  return {
    ...measured(0, Math.hypot(u, uAll), "1", PERHAPS),
    range95: [-Math.hypot(low, fewer), Math.hypot(high, more)],
  };
}

export function lapsOf(timeline: Timeline, steaming: Steaming, locomotive: Locomotive): Laps {
  const laps = timeline.of("lap");
  const turns = timeline.of("revolutions");
  const { missed, wouldShow } = missedLaps(timeline);
  const doubted: readonly Doubted[] = [...missed, ...timeline.perhapsMore];
  const inWindow = <T extends { atS: number }>(list: readonly T[], fromS: number, toS: number) =>
    list.filter((one) => one.atS > fromS && one.atS <= toS);
  const total = (list: readonly { count: number }[]) => list.reduce((sum, one) => sum + one.count, 0);
  const countIn = (fromS: number, toS: number) => total(inWindow(laps, fromS, toS));
  // who ran on with nobody at the book did not forget them one by one
  const forgotten = total(missed.filter(({ eitherWay }) => eitherWay === null));
  const unseen = unseenLaps(laps, forgotten, wouldShow);
  // as they were counted, until the log shows that its owner forgets
  const forgets = forgotten + noticedLaps(laps) > 0;
  const tapsOf = (list: readonly { count: number }[]) => list.filter((lap) => lap.count === 1).length;
  const wholeIn = (fromS: number, toS: number) => countIn(fromS, toS) + total(inWindow(missed, fromS, toS));
  const besidesIn = (fromS: number, toS: number) => {
    const taps = tapsOf(inWindow(laps, fromS, toS));
    const share = wouldShow || taps === 0 ? 0 : taps / tapsOf(laps);
    return forgets
      ? { mean: share * unseen.value, u: Math.sqrt(share) * standardUncertainty(unseen) }
      : { mean: 0, u: Math.sqrt((wouldShow ? 0 : FORGOTTEN) * taps) };
  };
  const ran = (fromS: number, toS: number, here: readonly Doubted[], turned: number) => {
    const { mean, u } = besidesIn(fromS, toS);
    return sum(exact(wholeIn(fromS, toS) + turned + mean, "1"), doubtOf(here, u));
  };
  const runIn = (fromS: number, toS: number) => ran(fromS, toS, inWindow(doubted, fromS, toS), 0);
  const otherwiseIn = (fromS: number, toS: number) => {
    const here = inWindow(doubted, fromS, toS);
    const short = here.filter(({ eitherWay }) => eitherWay === null);
    if (short.length === here.length) return null;
    const turned = here.reduce(
      (sum, { eitherWay }) => sum + (eitherWay === null ? 0 : eitherWay.more - eitherWay.fewer),
      0,
    );
    return ran(fromS, toS, short, turned);
  };
  const lapM = steaming.track?.lapM;
  const wheelMm = locomotive.drivingWheelMm;
  return {
    countIn,
    wholeIn,
    runIn,
    otherwiseIn,
    missed,
    missedDoubt: doubtOf(doubted, 0),
    unseen,
    distanceM: (fromS, toS) => {
      if (lapM !== undefined && laps.length > 0) return wholeIn(fromS, toS) * lapM;
      if (wheelMm === undefined || turns.length === 0) return null;
      return (total(inWindow(turns, fromS, toS)) * Math.PI * wheelMm) / 1000;
    },
  };
}
