import { absent, combined, type Figure, interval, type Measured, measured } from "../../quantity/measured.ts";
import { type LeakCourse, leakCourse } from "../leaks/leak-course.ts";
import type { Sources } from "../sources.ts";
import { onlyLeaked, usesSteam } from "../state/only-leaked.ts";
import type { Stretch } from "../state/phases.ts";
import type { Combination } from "../water/balance-factors.ts";
import type { MassReading } from "../water/mass-reading.ts";
import { drawnWithin, notTold, toldBetween, type Water } from "../water/water.ts";
import { type CoolingReading, shutInStretches } from "./shut-in-course.ts";

/** Water that left through what is shut, g, and what a leak of 1 g/min at working pressure lets out meanwhile. */
export interface Drop extends LeakCourse {
  left: Measured;
}

/** What is known of the water of a boiler shut in hot. */
export interface ShutInWater {
  /** in the boiler at the first pressure of the window, g */
  contents: Figure;
  /** null where nothing tells what left */
  drop: Drop | null;
  /** why there is no drop */
  why: string;
}

/** A reading of the water counts for an end of the shut-in that it is so near to, s. */
const BESIDE_S = 120;
/** What an engine of this size may leak unseen, g/min (our estimate). */
const LEAK_PERHAPS_G_PER_MIN = 0.5;
const WEIGHED_ONLY =
  "the engine was weighed, which tells the water that left and not what she holds: read the glass too, or measure the filling";

/**
 * @param shut when all was shut
 * @param cooling the pressures used, in order; one at least
 */
export function shutInWater(
  from: Sources,
  water: Water,
  shut: Stretch,
  cooling: readonly [CoolingReading, ...CoolingReading[]],
): ShutInWater {
  const { balance, input } = water;
  const first = cooling[0];
  const held = input.readings.filter(({ of }) => of === "contents");
  const dropOver = (fromS: number, toS: number) => {
    const left = drawnWithin(water, [[fromS, toS]]);
    if (left.value === null) return { drop: null, why: left.why };
    const course = leakCourse(from, cooling, fromS, toS);
    // read twice at one moment, or while there was no pressure
    if (course.perLeakG === 0) return { drop: null, why: notTold(water) };
    return { drop: { left, ...course }, why: "" };
  };
  if (balance === null) {
    const last = cooling.at(-1) as CoolingReading;
    return { contents: loneReading(held, water.why, first.atS, last.atS), drop: null, why: water.why };
  }
  const readFromS = input.readings.find(({ atS }) => atS >= shut[0] - BESIDE_S)?.atS ?? shut[1];
  const readToS = input.readings.findLast(({ atS }) => atS <= shut[1] + BESIDE_S)?.atS ?? shut[0];
  const [fromS, toS] = [Math.max(shut[0], readFromS), Math.min(shut[1], readToS)];
  const contentsWith = (drawn: NonNullable<Combination["drawn"]>) =>
    held.length === 0
      ? absent(WEIGHED_ONLY)
      : (balance.estimate({ unit: "g", contents: [[first.atS, 1]], drawn }) ?? absent(notTold(water)));
  if (toS > fromS) return { contents: contentsWith([]), ...dropOver(fromS, toS) };
  if (!onlyLeaked(from)) return { contents: contentsWith([]), drop: null, why: notTold(water) };

  const [startS, endS] = toldBetween(water.input);
  const whole = dropOver(startS, endS);
  const filledS = held[0]?.atS ?? startS;
  if (whole.drop === null) return { contents: contentsWith([]), ...whole };
  const { left, perLeakG } = whole.drop;
  const before = leakCourse(from, cooling, filledS, first.atS);
  const share = before.perLeakG / perLeakG;
  const contents = contentsWith([
    [first.atS, 1],
    [filledS, -1],
    [startS, share],
    [endS, -share],
  ]);
  if (contents.value === null) return { contents, ...whole };
  const uGone = (left.value * before.uG) / perLeakG;
  return {
    contents: combined(contents.value, "g", [
      [contents, 1],
      [measured(0, Math.abs(uGone), "g", "leak not known"), 1],
    ]),
    ...whole,
  };
}

/** Whether steam was used in a hot hold once she was shut in: what left is then no leak alone. */
export function usedInHold(from: Sources): boolean {
  const { steaming, timeline } = from;
  const shutS = shutInStretches(from)[0]?.[0] ?? Number.POSITIVE_INFINITY;
  return (
    steaming.purpose === "hot-hold" && timeline.entries.some((entry) => entry.atS > shutS && usesSteam(entry))
  );
}

/**
 * The most that may have leaked where steam was used in the hold, g/min at working pressure: as if all had leaked that
 * left between the readings of the water about it. Null where those do not tell.
 */
export function mostLeaked(
  from: Sources,
  water: Water,
  cooling: readonly [CoolingReading, ...CoolingReading[]],
): number | null {
  const { readings } = water.input;
  const fromS =
    readings.findLast(({ atS }) => atS <= cooling[0].atS + BESIDE_S)?.atS ?? Number.POSITIVE_INFINITY;
  const toS = readings.at(-1)?.atS ?? Number.NEGATIVE_INFINITY;
  if (toS <= fromS) return null;
  const left = drawnWithin(water, [[fromS, toS]]);
  if (left.value === null) return null;
  return Math.max(0, interval(left)[1]) / leakCourse(from, cooling, fromS, toS).perLeakG;
}

/** A reading by itself, with doubt for what may have left between it and the first pressure. */
function loneReading(held: readonly MassReading[], why: string, firstS: number, lastS: number): Figure {
  const [only] = held;
  if (only === undefined) return absent(why.startsWith("nothing") ? why : WEIGHED_ONLY);
  if (held.length > 1 || only.atS < firstS - BESIDE_S || only.atS > lastS + BESIDE_S) return absent(why);
  return {
    value: only.grams,
    unit: "g",
    parts: [
      { name: "readings", u: only.uGrams },
      ...only.shared.map(({ uGrams, ...part }) => ({ ...part, u: uGrams })),
      { name: "leak not known", u: (LEAK_PERHAPS_G_PER_MIN * Math.abs(only.atS - firstS)) / 60 },
    ].filter(({ u }) => u !== 0),
  };
}
