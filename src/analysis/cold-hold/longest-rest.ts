import { type CoolingReading, together } from "../cooling/shut-in-course.ts";
import { BEYOND_DOUBT, NONE_BAR } from "../pressure/pressure-course.ts";
import type { PressureReading } from "../pressure/pressure-points.ts";
import type { Sources } from "../sources.ts";
import { heldCold } from "../state/held-cold.ts";
import { FURTHEST_S } from "../valve/valve-stretch.ts";
import type { HeldPoint } from "./cold-hold-fall.ts";
import { pressuresRead } from "./pressures-read.ts";
import { pumpedIn } from "./pumped-in.ts";

const ENDS = ["strokes", "valve", "blowdown", "drained", "feed"];
/** So far above the straight way to none, in errors of its reading, no leak leaves the pressure (our choice). */
const PLAINLY = 5;

/**
 * Pressures read in the longest time with the pump at rest and all shut, up to where it was let off, or was gone: below what
 * the dial can tell from none. Samples of a logger are put together by neighbours. Null where there were not two in any.
 */
export function longestRest(from: Sources): HeldPoint[] | null {
  const { timeline, errors, pressures } = from;
  const read = pressuresRead(from);
  const ends = timeline.entries.filter(({ kind }) => ENDS.includes(kind)).map(({ atS }) => atS);
  const goneBar = Math.max(
    NONE_BAR,
    BEYOND_DOUBT * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar),
  );
  let longest: readonly PressureReading[] = [];
  for (const { startS, itself } of restsFrom(from, read)) {
    const endS = ends.find((atS) => atS > startS) ?? Number.POSITIVE_INFINITY;
    const rest = read.filter(({ atS, by }) =>
      by === "logger"
        ? atS >= startS + FURTHEST_S && atS <= endS - FURTHEST_S
        : (atS > startS || (itself && atS === startS)) && atS < endS,
    );
    const gone = rest.findIndex(({ barG }) => barG <= goneBar);
    const points = gone < 0 ? rest : untilLetOff(rest.slice(0, gone + 1));
    if (secondsOf(points) > secondsOf(longest)) longest = points;
  }
  if (longest.length === 0) return null;
  const logged = longest
    .filter(({ by }) => by === "logger")
    .map((one): CoolingReading => ({ ...one, biasBar: pressures.uBiasBar }));
  return [...longest.filter(({ by }) => by !== "logger"), ...together(logged)].sort((a, b) => a.atS - b.atS);
}

/**
 * When a rest may begin: with what the pump reached, or after some was let off. A valve that was seen to reseat is open until
 * then; one that was not lets out a drop of cold water and is shut.
 * @returns itself: whether what was read at that second counts
 */
function restsFrom(
  from: Sources,
  read: readonly PressureReading[],
): readonly { startS: number; itself: boolean }[] {
  const { timeline, steaming } = from;
  const pumped = pumpedIn(from);
  const starts = (pumped.length > 0 ? pumped : read.slice(0, 1)).map(({ atS }) => ({
    startS: atS,
    itself: true,
  }));
  if (!heldCold(steaming, timeline)) return starts;
  const valve = timeline.of("valve");
  const shut = valve.filter(({ state }, i) => state === "reseats" || valve[i + 1]?.state !== "reseats");
  const letOff = [...timeline.of("blowdown"), ...shut];
  return [...starts, ...letOff.map(({ atS }) => ({ startS: atS, itself: false }))];
}

/**
 * A leak lets the pressure fall ever slower, so never above the straight way to none: where it stood clearly above it, it was let off.
 * @param rest the last of it gone
 */
function untilLetOff(rest: readonly PressureReading[]): readonly PressureReading[] {
  const [first, last] = [rest[0] as PressureReading, rest.at(-1) as PressureReading];
  const above = rest.map(
    ({ atS, barG }) =>
      barG - first.barG - ((last.barG - first.barG) * (atS - first.atS)) / (last.atS - first.atS),
  );
  const most = Math.max(...above.slice(1, -1));
  const place = above.indexOf(most);
  return most > PLAINLY * (rest[place]?.uBar ?? 0) ? rest.slice(0, place + 1) : rest.slice(0, -1);
}

const secondsOf = (points: readonly HeldPoint[]): number => (points.at(-1)?.atS ?? 0) - (points[0]?.atS ?? 0);
