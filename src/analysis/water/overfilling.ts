import type { Sources } from "../sources.ts";
import type { WaterMove } from "./feed-course.ts";
import type { MassReading } from "./mass-reading.ts";

/** A boiler filled to the brim may have been measured by so much too small (our choice). */
export const MEASURED_MORE = 1.05;
/** So shortly after a reading of the glass nothing worth counting has been drawn, s (our choice). */
const JUST_READ_S = 120;

const isFill = ({ timeline }: Sources, { order }: { order: number }) =>
  timeline.entries[order]?.kind === "fill";
const mostG = ({ geometry }: Sources) => 1e6 * MEASURED_MORE * geometry.totalM3;
const ofGlass = ({ of, poured }: MassReading) => of === "contents" && poured !== true;

/** Readings without a filling that is more than the boiler holds, where the glass tells the water besides. */
export const withoutOverfilling = (from: Sources, readings: readonly MassReading[]): MassReading[] =>
  readings.filter((one) => !(isFill(from, one) && one.grams > mostG(from) && readings.some(ofGlass)));

/** The reading of the glass on top of which a filling could not go in; null where it could. */
export function overfilledFrom(
  from: Sources,
  readings: readonly MassReading[],
  move: Pick<WaterMove, "atS" | "order" | "grams">,
): MassReading | null {
  const before = readings.findLast(
    (one) => ofGlass(one) && one.order < move.order && move.atS - one.atS <= JUST_READ_S,
  );
  return isFill(from, move) && before !== undefined && before.grams + move.grams > mostG(from)
    ? before
    : null;
}
