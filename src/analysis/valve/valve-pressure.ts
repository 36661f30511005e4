import { gathered, interval, type Measured } from "../../quantity/measured.ts";
import { averaged, weighedWays } from "../../quantity/weighed-ways.ts";
import { positivePart } from "../../statistics/positive-part.ts";
import type { Sources } from "../sources.ts";
import { blownUnseen, crestAbout, levelOfCrest } from "./crest.ts";
import { peakUnread, riseEnded } from "./peak-unread.ts";
import { type PressureWanted, type Read, type ValveCourse, valveCourse, WAYS } from "./valve-course.ts";
import { greaterOf, loggedAt } from "./valve-logged.ts";
import type { Mark, Moment } from "./valve-moment.ts";
import { NEAR_S, readingsNear } from "./valve-readings.ts";

/** A mark left open by more than this part of what was thought beforehand was not read. */
const NOT_TOLD_BEYOND = 0.6;
const BETWEEN = "pressure between readings";
const NAMES = { readings: "pressure readings", wander: BETWEEN, ways: BETWEEN };

/** The pressure at a mark: where a logger stood close beside each from its samples, else from all readings; null where they leave it open. */
export function markOf(
  from: Sources,
  moments: readonly Moment[],
  all: readonly Read[],
  mark: Mark,
): Measured | null {
  const logged = loggedAt(
    from,
    moments.filter((moment) => moment.mark === mark),
    moments,
  );
  if (logged !== null) return logged;
  const readings = readingsNear(moments, all);
  if (readings.length === 0) return null;
  const alone = valveCourse(from, moments, readings, false);
  const itself = alone.atMark(mark);
  if ((tellerOf(alone)(itself).left[itself.place] ?? 0) > NOT_TOLD_BEYOND * itself.doubtBar) return null;
  const course = valveCourse(from, moments, readings);
  const { left: _, ...found } = tellerOf(course)(course.atMark(mark));
  return found;
}

/**
 * The highest pressure where no lift was seen: at the end of the rise where the fire put out or the regulator opened ended it
 * beside the highest reading, else the level of the readings beside that. Of what went on between two readings then
 * the range allows what the pace does (`peakUnread`), upwards only, for it was as high as it was read.
 */
export function highestRead(from: Sources, all: readonly Read[], top: Read): Measured | null {
  const moment: Moment = { atS: top.atS, mark: "top" };
  const logged = loggedAt(from, [moment], []);
  if (logged !== null) return logged;
  const crest = crestAbout(all, top, from.errors.pressureReadingBar);
  const read = levelOfCrest(from, crest, top);
  const ended = crest.level ? null : riseEnded(from.timeline, all, top);
  const atEnd = ended === null ? null : markOf(from, [ended], all, "top");
  if (atEnd !== null && atEnd.value >= read.value) return atEnd;
  const figure = blownUnseen(from, crest, read);
  const unread = peakUnread(from.timeline, all, top);
  if (unread === 0) return figure;
  const [low, high] = interval(figure);
  return { ...figure, range95: [low, high + unread] };
}

/** What stands above the lift by more than so many reading errors was no way up to it, whatever mark comes next (our choice). */
const CLEARLY = 3;
/** Readings this much below the highest, in reading errors, may as well have been the highest. */
const AS_HIGH = 0.25;
/**
 * A valve that blows seldom lets the pressure above its lift: of the doubt by which it may have, so much is believed in the
 * value (our choice), the rest widens it.
 */
const BELIEVED = 0.5;

/**
 * The higher of the lift, which was reached, and of what the dial showed where it stood highest: a reading's error is
 * told by its neighbours and by what the valve does, for the highest of many is high by chance too. On the way up to a
 * lift nothing stands above it, but what does so clearly was on another way.
 */
export function higherThanLift(
  from: Sources,
  moments: readonly Moment[],
  all: readonly Read[],
  lifted: Measured,
): Measured {
  const clearlyAbove = lifted.value + CLEARLY * from.errors.pressureReadingBar;
  const comesToLift = ({ atS, barG }: Read) => {
    const next = moments.find((moment) => moment.atS >= atS);
    return next?.mark === "lift" && next.atS - atS <= NEAR_S && barG <= clearlyAbove;
  };
  const top = highestOf(all.filter((read) => !comesToLift(read)));
  if (top === null) return lifted;
  const shown = loggedAt(from, [{ atS: top.atS, mark: "top" }], []);
  if (shown !== null) return greaterOf(lifted, shown);
  const apart = moments.every(({ atS }) => Math.abs(atS - top.atS) > NEAR_S);
  const within: readonly Moment[] = apart ? [...moments, { atS: top.atS, mark: "top" }] : moments;
  const readings = readingsNear([...moments, top], all);
  const course = valveCourse(from, within, readings);
  const tell = tellerOf(course);
  const lift = course.atMark("lift");
  const highBarG = Math.max(
    ...readings.map((read) => (comesToLift(read) ? Number.NEGATIVE_INFINITY : read.barG)),
  );
  const highestRead = course.atReadings(
    readings.map((read) =>
      comesToLift(read) ? 0 : Math.exp((read.barG - highBarG) / (AS_HIGH * from.errors.pressureReadingBar)),
    ),
  );
  const above = tell(added(lift, 1, highestRead, -1));
  const u = Math.hypot(...above.parts.map((part) => part.u));
  const doubted = positivePart(above.value, u);
  const { mean, share } = positivePart(above.value, BELIEVED * u);
  const straight = tell(added(lift, share, highestRead, 1 - share));
  return {
    unit: "bar",
    value: Math.max(lifted.value, straight.value + mean - share * above.value),
    parts: gathered([
      ...straight.parts,
      { name: BETWEEN, u: Math.hypot(doubted.uBent, (doubted.share - share) * u, doubted.mean - mean) },
    ]),
  };
}

export const highestOf = (reads: readonly Read[]): Read | null =>
  reads.reduce<Read | null>((a, b) => (a === null || b.barG > a.barG ? b : a), null);

const tellerOf = (course: ValveCourse) => {
  const ways = weighedWays(
    WAYS,
    ({ stray }) => course.estimatorOf(stray),
    ({ likely }) => likely,
  );
  return (wanted: PressureWanted) => {
    const told = averaged(ways, {
      ofWanted: wanted.ofWanted,
      ofReadings: wanted.ofReadings,
      unit: "bar",
      parts: course.causes.map(({ part }) => part),
      names: NAMES,
    });
    return { ...told, value: wanted.usualBar + told.value };
  };
};

const added = (a: PressureWanted, byA: number, b: PressureWanted, byB: number): PressureWanted => ({
  usualBar: byA * a.usualBar + byB * b.usualBar,
  ofWanted: a.ofWanted.map((one, c) => byA * one + byB * (b.ofWanted[c] as number)),
  ofReadings: a.ofReadings.map((one, i) => byA * one + byB * (b.ofReadings[i] as number)),
});
