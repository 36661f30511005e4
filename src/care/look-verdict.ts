import { ENOUGH_FOR_A_TREND } from "./leak-course.ts";
import type { LookCourse } from "./look-course.ts";
import type { Case, State, Verdict } from "./verdict.ts";
import { counted, dayOf, hoursInWords, outOf100, shown } from "./words.ts";

/** By looks alone nothing is attended to at less, nor after a single one. */
export const BY_LOOKS = 0.9;
/** Watched where it more likely weeps than not, or drips within so many outings at three chances in ten. */
const WEEPS_AT = 0.5;
const DRIPS_AT = 0.3;
const OUTINGS = 4;

/**
 * What graded looks make of a fitting.
 * @param byCatches what its catches alone make of it, where there are any
 */
export function byLooks(about: Case, looks: LookCourse, byCatches: State | null): Verdict {
  const { outingH, fitting } = about;
  const count = looks.looks.length;
  const dripping = looks.chanceOf("dripping");
  const weeping = looks.chanceOf("weeping");
  const later = looks.chanceOf("dripping", OUTINGS * outingH);
  const attend = count > 1 && dripping >= BY_LOOKS;
  const state = attend ? "attend" : weeping >= WEEPS_AT || later >= DRIPS_AT ? "watch" : "sound";
  const decided = attend ? dripping : 1 - dripping;
  const sure = count < ENOUGH_FOR_A_TREND ? "hardly sure" : decided > 0.9 ? "fairly sure" : "hardly sure";
  const chance = attend
    ? `that it really drips or blows: ${outOf100(dripping)}`
    : weeping >= WEEPS_AT
      ? `that it really weeps or worse: ${outOf100(weeping)}, that it drips: ${outOf100(dripping)}`
      : state === "watch"
        ? `that it really drips: ${outOf100(dripping)}, within ${OUTINGS} outings: ${outOf100(later)}`
        : `that it really drips: ${outOf100(dripping)}`;
  const last = looks.looks.at(-1)?.grade ?? "";
  const few = count < ENOUGH_FOR_A_TREND ? ", too few to go by" : "";
  return {
    state,
    sure,
    reason: `Looked ${last} the last time, ${counted(count, "look")} in ${hoursInWords(about.sinceH)} in steam${few}; ${chance}, as far as looks go${otherwise(about, state, byCatches)}`,
    measureNext:
      state === "attend" || (state === "sound" && count >= ENOUGH_FOR_A_TREND)
        ? null
        : `Catch a drip at the ${fitting.name.toLowerCase()} for two minutes at working pressure: a look cannot tell how much.`,
  };
}

function otherwise({ drips }: Case, state: State, byCatches: State | null): string {
  const last = drips.at(-1);
  if (byCatches === null || byCatches === state || last === undefined) return "";
  return `; its catches, the last of ${shown(last.gPerMin)} g/min on ${dayOf(last.atMs)} and before these looks, say ${byCatches}`;
}
