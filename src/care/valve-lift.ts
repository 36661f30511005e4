import { USUAL_VALVE_LIMIT as MOST_RISE } from "../analysis/words/valve-meaning.ts";
import { figure } from "./indicator-values.ts";
import { indicators } from "./indicators.ts";
import type { Outing } from "./outings.ts";
import { type State, states, type Verdict } from "./verdict.ts";
import { dayOf, lower } from "./words.ts";

/** One-sided 95 % of the normal: over it beyond the doubt of the reading. */
const BEYOND_DOUBT = 1.645;

/** How high a safety valve let the pressure go, the last time that it was seen to lift. */
export interface ValveLift {
  atMs: number;
  workingBarG: number;
  /** where it lifted, and the highest that was read while it could; bar gauge */
  liftBarG: number;
  highestBarG: number;
  /** standard uncertainty of the highest */
  u: number;
}

const lift = indicators.find(({ key }) => key === "lift");

/** The last lift that was read in these outings; null where none was. */
export function liftSince(outings: readonly Outing[]): ValveLift | null {
  for (const outing of [...outings].reverse()) {
    const lifted = lift?.value(outing);
    if (lifted === null || lifted === undefined) continue;
    const highest = figure(outing.report.safetyValve?.highest) ?? lifted;
    return {
      atMs: outing.startMs,
      workingBarG: outing.sources.locomotive.workingPressureBarG,
      liftBarG: lifted.value,
      highestBarG: Math.max(highest.value, lifted.value),
      u: highest.u,
    };
  }
  return null;
}

/**
 * A verdict of a safety valve's leaking, with its lift held against working pressure: one that lets the pressure go too
 * high is watched, and attended to where that is beyond the doubt of the dial. Sound speaks of leaking only.
 */
export function withLift(verdict: Verdict, found: ValveLift | null | "no valve"): Verdict {
  if (found === "no valve") return verdict;
  const high = found === null ? null : tooHigh(found);
  if (found === null || high === null)
    return verdict.state === "sound"
      ? { ...verdict, reason: `${verdict.reason}; that is of leaking only, not of whether it lifts in time` }
      : verdict;
  const words = liftWords(found);
  if (states.indexOf(verdict.state) > states.indexOf(high))
    return { ...verdict, reason: `${verdict.reason}; also, ${lower(words)}` };
  return {
    state: high,
    sure: high === "attend" ? "fairly sure" : "hardly sure",
    reason: `${words}; ${lower(verdict.reason)}`,
    measureNext: `${high === "attend" ? "Before she is worked again, try" : "Try"} the valve by a dial known to be right, the fire ready to drop and never beyond what your code allows: where it lifts comes before what it leaks.`,
  };
}

function tooHigh({ workingBarG, highestBarG, u }: ValveLift): Exclude<State, "sound"> | null {
  const over = highestBarG - (1 + MOST_RISE) * workingBarG;
  return over > BEYOND_DOUBT * u ? "attend" : over > 0 ? "watch" : null;
}

function liftWords({ atMs, workingBarG, liftBarG, highestBarG }: ValveLift): string {
  const percent = (barG: number) => Math.round(100 * (barG / workingBarG - 1));
  const went =
    highestBarG.toFixed(1) === liftBarG.toFixed(1)
      ? ""
      : ` and let the pressure go to ${highestBarG.toFixed(1)} bar`;
  return `Lifted at ${liftBarG.toFixed(1)} bar${went} on ${dayOf(atMs)}, ${percent(highestBarG)} % above the working pressure of ${workingBarG.toFixed(1)} bar, where ${100 * MOST_RISE} % is the most that codes let it rise (common practice)`;
}
