import { ENOUGH_FOR_A_TREND, type LeakCourse } from "./leak-course.ts";
import type { Limit } from "./limits.ts";
import { looksAgainst } from "./looks-against.ts";
import type { Assurance, Case, State, Verdict } from "./verdict.ts";
import { counted, dayOf, hoursInWords, outOf100, shown } from "./words.ts";

/**
 * A fitting is attended to where it is as good as sure that it passes more than its limit by the next outing: nine
 * chances in ten after five catches, 39 in 40 after three or four, for a course of few points swings. One catch alone,
 * or one out of line, must stand over the limit by three times its own doubt. A steady leak at 0.8 of its limit is so
 * called in fewer than 5 seasons of 100 (our choice; tests/calibration holds it).
 */
const ATTEND_AT = 0.9;
const ENOUGH_TO_ATTEND = 5;
const ATTEND_EARLY_AT = 0.975;
const BEYOND_DOUBT = 3;
/** Watched where the limit may be passed within four outings at three chances in ten... */
const WATCH_AT = 0.3;
const WATCH_OUTINGS = 4;
/** ...and above this part of the limit whatever the trend. */
const WATCH_LEVEL = 0.6;

/** What catches make of a fitting, looks since the last one beside them; and the state that they give alone. */
export function byCatches(
  about: Case,
  leak: LeakCourse,
  limit: Limit,
): { verdict: Verdict; byCatchesAlone: State } {
  const byNext = leak.chanceOver(leak.few ? 0 : about.outingH);
  const [caught, reason] = stateOf(about, leak, limit, byNext);
  const seen = looksAgainst(about.looks, leak, caught);
  const state = caught === "sound" && seen.weighty ? "watch" : caught;
  const decided = caught === "attend" ? Math.max(byNext, reason.beyondDoubt ? 0.95 : 0) : 1 - byNext;
  const sure = seen.words === "" ? sureOf(leak, decided) : "hardly sure";
  const verdict: Verdict = {
    state,
    sure,
    reason: sentence(about, leak, limit, `${reason.words}${seen.words}`),
    measureNext:
      seen.words === ""
        ? nextCatch(leak, limit, state, sure)
        : `Catch a drip ${state === "attend" ? "before it is taken apart, if she is in steam by then" : "at the next steaming"}: the eye and the catches before do not agree.`,
  };
  return { verdict, byCatchesAlone: caught };
}

interface Reason {
  /** "; ..." */
  words: string;
  beyondDoubt: boolean;
}

/** The state by catches, and what decided it. */
function stateOf({ outingH }: Case, leak: LeakCourse, limit: Limit, byNext: number): [State, Reason] {
  const count = leak.points.length;
  const { few, last } = leak;
  const said = (words: string, beyondDoubt = false): Reason => ({ words: `; ${words}`, beyondDoubt });
  if (last.y - BEYOND_DOUBT * last.sd > limit.gPerMin)
    return ["attend", said(`the last catch, ${shown(last.y)}, is over it beyond its own doubt`, true)];
  const asked = count < ENOUGH_TO_ATTEND ? ATTEND_EARLY_AT : ATTEND_AT;
  const next = `chance of being over it by the next outing: ${outOf100(byNext)}`;
  if (!few && leak.jump === null && byNext >= asked) return ["attend", said(next)];
  const chance = few ? `chance that it is over: ${outOf100(byNext)}` : next;
  const now =
    leak.levelNow.value > limit.gPerMin
      ? `over it, but not surely enough to take it apart; ${chance}`
      : chance;
  if (leak.jump !== null) return ["watch", said("one catch out of line is not enough to take it apart")];
  const later = few ? 0 : leak.chanceOver(WATCH_OUTINGS * outingH);
  if (later >= WATCH_AT)
    return ["watch", said(`${now}, within ${WATCH_OUTINGS} outings: ${outOf100(later)}`)];
  if (leak.levelNow.value > limit.gPerMin) return ["watch", said(now)];
  if (leak.levelNow.value > WATCH_LEVEL * limit.gPerMin)
    return ["watch", said(`above ${Math.round(100 * WATCH_LEVEL)} % of it; ${now}`)];
  if (leak.step !== null) return ["watch", said(`what rose at once may do so again; ${now}`)];
  return ["sound", said(now)];
}

function sureOf(leak: LeakCourse, decided: number): Assurance {
  const count = leak.points.length;
  if (leak.few || leak.jump !== null || isStale(leak)) return "hardly sure";
  return decided > 0.95 && count >= ENOUGH_TO_ATTEND
    ? "sure"
    : decided > 0.75
      ? "fairly sure"
      : "hardly sure";
}

/** Carried on for longer than the catches span: what has been since is a guess, however well they lie. */
function isStale({ points, nowH }: LeakCourse): boolean {
  const [first, last] = [points[0], points.at(-1)];
  return first !== undefined && last !== undefined && nowH - last.x > last.x - first.x;
}

/** "; the last catch, 0.31 g/min on 2026-04-04, is 30 h in steam old, longer than all catches span" where it is. */
function age(leak: LeakCourse, outingH: number): string {
  const last = leak.points.at(-1);
  if (last === undefined || !isStale(leak)) return "";
  const old = `; the last catch, ${shown(last.y)} g/min on ${dayOf(last.reading.atMs)}, is ${hoursInWords(leak.nowH - last.x)} in steam old`;
  if (leak.points.length > 1) return `${old}, longer than all catches span`;
  return leak.nowH - last.x > outingH ? old : "";
}

/** "Passes ... g/min ...; the owner's limit is ...; what decided; what the eye says; how many catches". */
function sentence({ sinceH, outingH }: Case, leak: LeakCourse, limit: Limit, reason: string): string {
  const { levelNow, hoursToLimit, hoursToLimit80, points } = leak;
  const count = counted(leak.catches, "catch");
  const nothing = points.every(({ y }) => y === 0);
  const [passes, wouldPass] =
    isStale(leak) && !leak.few ? ["it would by now pass", "Would by now pass"] : ["it passes", "Passes"];
  const level = nothing
    ? `Nothing was caught in ${count}: ${passes} less than ${shown(levelNow.high80)} g/min at working pressure, 9 times in 10`
    : `${wouldPass} ${shown(levelNow.value)} g/min at working pressure (${shown(levelNow.low80)} to ${shown(levelNow.high80)})${courseWords(leak)}`;
  const against = limit.own
    ? `the owner's limit is ${shown(limit.gPerMin)}`
    : `${shown(limit.gPerMin)} is taken for a limit, as none was set (common practice)`;
  const time =
    hoursToLimit.value === null || hoursToLimit80 === null
      ? ""
      : hoursToLimit.value === 0
        ? ", which it has reached"
        : `, which is ${hoursInWords(hoursToLimit.value)} of steam away (${hoursInWords(hoursToLimit80[0])} to ${hoursInWords(hoursToLimit80[1])}, 80 times in 100)`;
  const few = !leak.few
    ? ""
    : leak.catches < ENOUGH_FOR_A_TREND
      ? ", too few for a trend"
      : ", too near together for a trend";
  return `${level}; ${against}${time}${reason}; ${count} in ${hoursInWords(sinceH)} in steam${few}${age(leak, outingH)}`;
}

function courseWords({ step, jump, rising }: LeakCourse): string {
  if (step !== null) return `, having risen at once from ${shown(step.before)} to ${shown(step.after)}`;
  if (jump !== null)
    return `, but the last catch jumped to ${shown(jump.reading.gPerMin)} where ${shown(Math.max(0, jump.expected))} was to be expected`;
  return rising === null ? "" : `, rising steadily (so by chance alone: ${outOf100(rising.byChance)})`;
}

function nextCatch(leak: LeakCourse, limit: Limit, state: State, sure: Assurance): string | null {
  const last = leak.points.at(-1);
  if (state === "attend")
    return leak.jump !== null || leak.few
      ? "Catch a drip again before it is taken apart, if she is in steam by then: one catch may be a slip of the cloth."
      : null;
  if (leak.jump !== null)
    return "Catch a drip again at the next steaming, before anything is taken apart: one jump may be a slip of the cloth.";
  if (leak.few) {
    const wanted = Math.max(1, ENOUGH_FOR_A_TREND - leak.points.length);
    const when = wanted === 1 ? "the next steaming" : `each of the next ${wanted} steamings`;
    return `Catch a drip for two minutes at working pressure at ${when}: a trend wants ${leak.catches < ENOUGH_FOR_A_TREND ? "three" : "more than one outing"}.`;
  }
  if (isStale(leak)) return "Catch a drip at the next steaming: the last one is too old to go by.";
  if (sure === "sure" && state !== "watch") return null;
  // more of the doubt from weighing and pressure than from the catching
  if (last !== undefined && last.reading.u > 0.1 * limit.gPerMin && 2 * last.reading.u ** 2 > last.sd ** 2) {
    return "Catch for longer and read the dial before and after: weighing and pressure make most of the doubt.";
  }
  return "Catch a drip at the next steaming: how fast it grows is what is least known.";
}
