import { absent, type Figure, type Measured, scaled } from "../quantity/measured.ts";
import { greaterOfNormals } from "../statistics/greater-of-normals.ts";
import type { Sources } from "./sources.ts";
import { type Mark, type Moment, type Read, STRAY_SDS, valveCourse } from "./valve-course.ts";
import { averaged, weighedWays } from "./weighed-ways.ts";

export interface SafetyValveFigures {
  /** bar gauge */
  lift: Figure;
  reseat: Figure;
  highest: Figure;
  /** highest pressure above working pressure, as a part of working pressure */
  rise: Figure;
}

/** Readings this near a moment of the valve tell of it, s; and so many to either side of each. */
const NEAR_S = 150;
const EITHER_SIDE = 8;
const MOST_READINGS = 80;
const MOST_MOMENTS = 16;
/** A mark left open by more than this part of what was thought beforehand was not read. */
const NOT_TOLD_BEYOND = 0.6;
/** A reading so many times its uncertainty above the lift shows a pressure of its own. */
const CLEARLY_ABOVE = 3;
/** Samples of a logger count together over so long: a moment is not written down nearer, s. */
const TOGETHER_S = 3;
const NAMES = {
  readings: "pressure readings",
  wander: "pressure between readings",
  ways: "pressure between readings",
};

/** What the entries tell of the safety valve; null where none does and the steaming was not to try it. */
export function safetyValveOf(from: Sources): SafetyValveFigures | null {
  const entries = from.timeline.of("valve");
  if (entries.length === 0 && from.steaming.purpose !== "safety-valve") return null;
  const all = from.pressures.all;
  const top = all.reduce<Read | null>((a, b) => (a === null || b.barG > a.barG ? b : a), null);
  const none = absent("no pressure was read");
  if (top === null) return { lift: none, reseat: none, highest: none, rise: none };

  const moments = entries
    .slice(0, MOST_MOMENTS)
    .map((entry): Moment => ({ atS: entry.atS, mark: entry.state === "lifts" ? "lift" : "reseat" }));
  const marked = (mark: Mark, words: string): Figure =>
    moments.some((moment) => moment.mark === mark)
      ? (markOf(from, moments, all, mark) ??
        absent(`no pressure was read near enough to the ${mark}: read the dial as it happens`))
      : absent(`the valve was not seen to ${words}`);
  const lift = marked("lift", "lift");
  const lifted = moments.some((moment) => moment.mark === "lift");
  const highest =
    lifted && lift.value === null
      ? absent("the valve lifted while no pressure was read: the highest was not seen")
      : highestOf(from, all, top, lift);
  const working = from.locomotive.workingPressureBarG;
  return {
    lift,
    reseat: marked("reseat", "reseat"),
    highest,
    rise:
      highest.value === null
        ? highest
        : scaled({ ...highest, value: highest.value - working }, 1 / working, "1"),
  };
}

/** The pressure at a mark from all readings about the moments; null where they leave it open. */
function markOf(
  from: Sources,
  moments: readonly Moment[],
  all: readonly Read[],
  mark: Mark,
): Measured | null {
  const readings = readingsNear(moments, all);
  if (readings.length === 0) return null;
  const course = valveCourse(from, moments, readings);
  const { place, usualBar, doubtBar } = course.mark(mark);
  const found = averaged(weighedWays(STRAY_SDS, course.estimatorOf), {
    ofWanted: course.causes.map((_, c) => (c === place ? doubtBar : 0)),
    unit: "bar",
    parts: course.causes.map(({ part }) => part),
    names: NAMES,
  });
  if ((found.left[place] ?? 0) > NOT_TOLD_BEYOND * doubtBar) return null;
  return { value: usualBar + found.value, unit: "bar", parts: found.parts };
}

/** The nearest readings to either side of each moment, nearer ones first where there are too many. */
function readingsNear(moments: readonly Moment[], all: readonly Read[]): Read[] {
  const found = new Map<Read, number>();
  for (const { atS } of moments) {
    const near = all.filter((read) => Math.abs(read.atS - atS) <= NEAR_S);
    const outwards = near.filter((read) => read.atS <= atS).reverse();
    const before = together(outwards).slice(0, EITHER_SIDE);
    const after = together(near.filter((read) => read.atS > atS)).slice(0, EITHER_SIDE);
    for (const read of [...before, ...after])
      found.set(read, Math.min(found.get(read) ?? Number.POSITIVE_INFINITY, Math.abs(read.atS - atS)));
  }
  return [...found]
    .sort(([, a], [, b]) => a - b)
    .slice(0, MOST_READINGS)
    .map(([read]) => read)
    .sort((a, b) => a.atS - b.atS);
}

/** Readings closer than a moment is told, as one at their mean. */
function together(reads: readonly Read[]): Read[] {
  const groups: Read[][] = [];
  for (const read of reads) {
    const last = groups.at(-1);
    const first = last?.[0];
    if (last !== undefined && first !== undefined && Math.abs(read.atS - first.atS) < TOGETHER_S)
      last.push(read);
    else groups.push([read]);
  }
  return groups.flatMap((group) => {
    const [only] = group;
    if (group.length === 1 && only !== undefined) return [only];
    const mean = (of: (read: Read) => number) =>
      group.reduce((sum, read) => sum + of(read), 0) / group.length;
    return [{ atS: mean(({ atS }) => atS), barG: mean(({ barG }) => barG) }];
  });
}

/**
 * The highest pressure: the lift, which was reached, or what stood clearly above it. The highest of many readings is
 * high by chance too, so it is weighed with its neighbours, and without them never counts against the lift.
 */
function highestOf(from: Sources, all: readonly Read[], top: Read, lift: Figure): Figure {
  const byTop = markOf(from, [{ atS: top.atS, mark: "top" }], all, "top");
  if (lift.value === null) return byTop ?? absent("the pressure was hardly read");
  const sdOf = ({ parts }: Measured) =>
    Math.hypot(...parts.filter((part) => part.source === undefined).map((part) => part.u));
  const doubt = Math.hypot(from.errors.pressureReadingBar, sdOf(lift));
  if (byTop === null || top.barG < lift.value + CLEARLY_ABOVE * doubt) return lift;
  const greater = greaterOfNormals(
    { mean: lift.value, sd: sdOf(lift) },
    { mean: byTop.value, sd: sdOf(byTop) },
  );
  const shared = byTop.parts.filter((part) => part.source !== undefined);
  return { value: greater.mean, unit: "bar", parts: [{ name: NAMES.readings, u: greater.sd }, ...shared] };
}
