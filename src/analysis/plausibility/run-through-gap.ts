import { glassReading } from "../../logbook/glass-reading.ts";
import type { NamedEntry } from "../../logbook/timeline.ts";
import { median } from "../../statistics/order.ts";
import type { Sources } from "../sources.ts";

/** So many laps before it tell what a lap usually takes. */
const LAPS = 4;
/** A lap follows within so many usual ones. */
const SOON = 2;
/** The pressure stands as before within this part of working pressure (our choice). */
const ALIKE = 0.15;
/** Clocks are put to another hour: the gap is whole hours and a usual lap, to this part of the lap. */
const HOUR_S = 3600;
const OF_A_LAP = 0.25;
/** The water fell by less than this part of what so long a run takes (our choice). */
const OF_THE_FALL = 0.25;
/** That fall must be so many reading errors for the glass to tell. */
const TELLING = 12;

/**
 * True where she seems to have run on through a gap in the log as if it were not there: regulator open, laps before and at
 * once after it at their usual pace, pressure as before, and either the gap is an hour to within a part of a lap or the
 * water fell too little for so long a run. A rest is none of these: the regulator is written shut, or opened anew.
 */
export function ranThroughGap(from: Sources, before: NamedEntry, entry: NamedEntry): boolean {
  const { timeline, pressure, errors, locomotive } = from;
  const [fromS, toS] = [before.atS, entry.atS];
  const regulator = timeline.of("regulator");
  const open = regulator.findLast(({ atS }) => atS <= fromS);
  const next = regulator.find(({ atS }) => atS > fromS);
  if (open?.state !== "open" || next?.state === "open") return false;
  if (timeline.of("fire").findLast(({ atS }) => atS <= toS)?.state === "out") return false;
  const laps = timeline.of("lap").filter(({ atS, count }) => count === 1 && atS > open.atS);
  const until = laps.filter(({ atS }) => atS <= fromS).slice(-LAPS - 1);
  const after = laps.find(({ atS }) => atS >= toS);
  if (until.length <= LAPS || after === undefined) return false;
  const usualS = median(until.slice(1).map(({ atS }, i) => atS - (until[i] as typeof after).atS));
  if (after.atS - toS > SOON * usualS) return false;
  const [p, q] = [pressure.atS(fromS), pressure.points.find(([atS]) => atS >= toS)?.[1]];
  const alike = Math.max(ALIKE * locomotive.workingPressureBarG, 2 * errors.pressureReadingBar);
  if (p === null || q === undefined || Math.abs(p - q) > alike) return false;
  const overS = after.atS - (until.at(-1) as typeof after).atS - usualS;
  const hours = Math.round(overS / HOUR_S);
  return (
    (hours > 0 && Math.abs(overS - hours * HOUR_S) < OF_A_LAP * usualS) ||
    fellTooLittle(from, open.atS, fromS, toS)
  );
}

/** By the glass, where nothing was fed from two readings before the gap to one after it. */
function fellTooLittle({ timeline, errors }: Sources, openS: number, fromS: number, toS: number): boolean {
  const fedS = timeline.of("feed").findLast(({ atS }) => atS <= toS)?.atS ?? Number.NEGATIVE_INFINITY;
  const levels = timeline.of("level").filter((level) => glassReading(level) === "exact");
  const run = levels.filter(({ atS }) => atS <= fromS && atS >= Math.max(openS, fedS));
  const next = levels.find(({ atS }) => atS >= toS);
  if (run.length === 0 || next === undefined) return false;
  const [first, last] = [run[0], run.at(-1)] as [typeof next, typeof next];
  if (last.atS === first.atS) return false;
  const puts = [...timeline.of("feed"), ...timeline.of("fill"), ...timeline.of("bypass")];
  if (puts.some(({ atS }) => atS >= first.atS && atS <= next.atS)) return false;
  const mmPerS = (first.mm - last.mm) / (last.atS - first.atS);
  const gapMm = mmPerS * (toS - fromS);
  const restMm = mmPerS * (next.atS - last.atS - (toS - fromS));
  return gapMm > TELLING * errors.levelReadingMm && last.mm - next.mm - restMm < OF_THE_FALL * gapMm;
}
