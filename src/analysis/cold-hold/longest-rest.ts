import { BEYOND_DOUBT, NONE_BAR } from "../pressure/pressure-course.ts";
import type { Sources } from "../sources.ts";
import type { HeldPoint } from "./cold-hold-fall.ts";
import { pumpedIn } from "./pumped-in.ts";

const ENDS = ["strokes", "valve", "blowdown", "drained", "feed"];

/**
 * Pressures read in the longest time with the pump at rest, up to where the pressure was gone: below what the dial can tell
 * from none. Null where there were not two in any.
 */
export function longestRest(from: Sources): HeldPoint[] | null {
  const { timeline, errors } = from;
  const pumped = pumpedIn(from);
  const ends = timeline.entries.filter(({ kind }) => ENDS.includes(kind)).map(({ atS }) => atS);
  const read = [...timeline.of("pressure"), ...timeline.of("strokes")].sort((a, b) => a.atS - b.atS);
  const starts = pumped.length > 0 ? pumped.map(({ atS }) => atS) : read.slice(0, 1).map(({ atS }) => atS);
  const goneBar = Math.max(
    NONE_BAR,
    BEYOND_DOUBT * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar),
  );
  let longest: HeldPoint[] = [];
  for (const startS of starts) {
    const endS = ends.find((atS) => atS > startS) ?? Number.POSITIVE_INFINITY;
    const rest = read.filter(({ atS }) => atS >= startS && atS < endS);
    const gone = rest.findIndex(({ barG }) => barG <= goneBar);
    const points = gone < 0 ? rest : rest.slice(0, gone);
    if (secondsOf(points) > secondsOf(longest)) longest = points;
  }
  return longest.length === 0 ? null : longest;
}

const secondsOf = (points: readonly HeldPoint[]): number => (points.at(-1)?.atS ?? 0) - (points[0]?.atS ?? 0);
