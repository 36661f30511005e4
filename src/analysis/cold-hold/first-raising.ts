import { BEYOND_DOUBT, NONE_BAR } from "../pressure/pressure-course.ts";
import type { Sources } from "../sources.ts";
import { U_MOMENT_S } from "../valve/valve-usual.ts";
import { readBeside } from "./pressures-read.ts";
import type { PumpedIn } from "./pumped-in.ts";

/** Pumped in so far, and the pressure that it reached. */
export interface Pumped {
  ml: number;
  barG: number;
}

/** Of what the next strokes raised her by, a part that they may have put back and still tell her softness (our choice). */
const PUT_BACK = 0.1;

/**
 * Pumped in so far at each pressure on the way up, without what went in before there was pressure; and how much that was,
 * where 0 bar was read before the first of them. The way up ends at the first rest: strokes after one also put back what was
 * lost in it.
 * @param paceBarPerS at which the pressure fell where she was held; 0 where that is not known
 */
export function firstRaising(from: Sources, putIn: readonly PumpedIn[], paceBarPerS: number) {
  const { errors } = from;
  const { dial, logged } = readBeside(from);
  let ml = 0;
  let fromNothingMl: number | null = null;
  const pumped: Pumped[] = [];
  let beforeS = Number.NEGATIVE_INFINITY;
  for (const { atS, ml: more, barG } of putIn) {
    const read =
      dial.findLast((one) => one.atS >= beforeS && one.atS <= atS) ??
      logged.findLast((one) => one.atS >= beforeS + U_MOMENT_S && one.atS <= atS - U_MOMENT_S);
    const last = pumped.at(-1);
    if (last === undefined && read !== undefined && read.barG <= NONE_BAR) fromNothingMl = ml;
    if (last !== undefined) {
      const lostBar = Math.max(paceBarPerS * (atS - beforeS), read === undefined ? 0 : last.barG - read.barG);
      const raisedBar = barG === null ? 0 : barG - last.barG;
      if (lostBar > Math.max(BEYOND_DOUBT * errors.pressureReadingBar, PUT_BACK * raisedBar)) break;
    }
    beforeS = atS;
    ml += more;
    if (barG === null) continue;
    if (barG > Math.max(NONE_BAR, last?.barG ?? 0)) pumped.push({ ml, barG });
    else if (last === undefined) fromNothingMl = ml;
  }
  return { pumped, fromNothingMl };
}
