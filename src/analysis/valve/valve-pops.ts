import type { Moment } from "./valve-moment.ts";
import { besideS, plunged, type Thought, U_MOMENT_S, USUAL } from "./valve-usual.ts";

/**
 * A valve that pops blows for no longer than so many seconds, and is up at its lift again within so many: from one such
 * moment to the next the pressure goes from the one's to the other's, give or take such a part of the way where it bends
 * (our choice).
 */
const POPS = { blowsS: 12, risesS: 60 };
const BEND = 0.15;
/** Who writes moments down is early or late by habit, s (our estimate). */
export const U_HABIT_S = 1;

/**
 * Beside a moment of a valve that pops; null where it does not. Of two like marks with none between the other was not
 * written, or out of its order: the pressure is anywhere between lift and reseat.
 */
export function poppingAt(
  moments: readonly Moment[],
  place: number,
  sinceS: number,
  plungesS: readonly number[],
): Thought | null {
  const moment = moments[place] as Moment;
  const other = moments[sinceS > 0 ? place + 1 : place - 1];
  if (other === undefined || moment.mark === "top" || other.mark === "top") return null;
  const opposite = moment.mark === "lift" ? "reseat" : "lift";
  const alike = other.mark === moment.mark;
  // no two are told nearer than they are written
  const apartS = Math.max(U_MOMENT_S, Math.abs(other.atS - moment.atS));
  const blows = (moment.mark === "lift") === sinceS > 0 && !alike;
  if (apartS > (blows ? POPS.blowsS : POPS.risesS) || plunged(moment, plungesS) || plunged(other, plungesS))
    return null;
  const share = alike ? 0.5 : Math.min(0.5, besideS(sinceS) / apartS);
  const way = USUAL[opposite] - USUAL[moment.mark];
  return {
    towards: { mark: opposite, share },
    uBend: alike ? 0 : BEND * 4 * share * (1 - share) * way,
    usual: USUAL[moment.mark] + share * way,
    uBlowing: 0,
    uMoving: alike ? way / Math.sqrt(12) : 0,
    uPace: 0,
    perS: alike ? 0 : ((sinceS > 0 ? 1 : -1) * way) / apartS,
  };
}
