import type { Fitting } from "../logbook/locomotive.ts";
import type { DripReading, LeftOut } from "./evidence.ts";
import { ENOUGH_FOR_A_TREND, type LeakCourse } from "./leak-course.ts";
import type { Limit } from "./limits.ts";
import type { LookCourse } from "./look-course.ts";
import { counted, hoursInWords, outOf100, shown } from "./words.ts";

export const states = ["sound", "watch", "attend"] as const;
export type State = (typeof states)[number];

/** How sure a state is. */
export const assurances = ["nothing known", "hardly sure", "fairly sure", "sure"] as const;
export type Assurance = (typeof assurances)[number];

export interface Verdict {
  state: State;
  /** one sentence: the evidence, and how sure */
  why: string;
  sure: Assurance;
  /** the reading that would tell most; null where the state is sure without */
  measureNext: string | null;
}

export interface Case {
  fitting: Fitting;
  limit: Limit | null;
  leak: LeakCourse | null;
  looks: LookCourse | null;
  /** catches since the service that could be carried to working pressure */
  drips: readonly DripReading[];
  /** catches that are not in the course */
  leftOut: readonly LeftOut[];
  /** hours in steam of a usual outing */
  outingH: number;
  /** hours in steam since the service */
  sinceH: number;
  /** changes of the engine's own figures that point at this fitting, each a sentence without its stop */
  signals: readonly string[];
}

/** Over the limit by the next outing is attended to at even chances; within four outings watched at three in ten. */
const ATTEND_AT = 0.5;
const WATCH_AT = 0.3;
const WATCH_OUTINGS = 4;
/** Watched above this part of the limit whatever the trend. */
const WATCH_LEVEL = 0.6;
/** Looks count beside drips when no drip was caught for so many hours in steam. */
const DRIP_IS_OLD_H = 2.5;
/** One-sided 95 % of the normal: a reading that stands over the limit beyond its own doubt. */
const BEYOND_DOUBT = 1.645;
/** By looks alone nothing is attended to at less, nor after a single one. */
const BY_LOOKS = 0.9;

/** The state of one fitting with its reason. */
export function verdictOf(about: Case): Verdict {
  const { leak, looks, signals } = about;
  const verdicts: Verdict[] = [];
  if (leak !== null && about.limit !== null) verdicts.push(byDrips(about, leak, about.limit));
  if (looks !== null && (leak === null || looksAreNewer(leak, looks))) {
    verdicts.push(byLooks(about, looks));
  }
  const [first, ...others] = verdicts.sort((a, b) => states.indexOf(b.state) - states.indexOf(a.state));
  const worst = first ?? (about.drips.length > 0 ? withoutLimit(about) : nothingKnown(about));
  const signal = signals[0];
  if (signal === undefined) return worst;
  if (first === undefined || (worst.state === "sound" && others.length === 0)) {
    return { ...worst, state: "watch", sure: "hardly sure", why: `${signal}; ${lower(worst.why)}` };
  }
  return { ...worst, why: `${worst.why} Also: ${lower(signal)}.` };
}

const lower = (text: string): string => text.replace(/^./, (letter) => letter.toLowerCase());

/** A look counts beside catches where these are old, or it was taken since and she blew. */
function looksAreNewer(leak: LeakCourse, looks: LookCourse): boolean {
  const lastDrip = leak.points.at(-1)?.reading;
  const lastLook = looks.looks.at(-1);
  if (lastDrip === undefined || lastLook === undefined) return false;
  const laterH = lastLook.hours - lastDrip.hours;
  return laterH > DRIP_IS_OLD_H || (laterH > 0 && looks.chanceOf("blowing") > BY_LOOKS);
}

function byDrips(about: Case, leak: LeakCourse, limit: Limit): Verdict {
  const { outingH } = about;
  const count = leak.points.length;
  const last = leak.points.at(-1);
  const few = count < ENOUGH_FOR_A_TREND;
  const surelyOver = last !== undefined && last.y - BEYOND_DOUBT * last.sd > limit.gPerMin;
  const jumpedOver = leak.jump !== null && leak.jump.reading.gPerMin > limit.gPerMin;
  const chance = leak.chanceOver(few ? 0 : outingH);
  const attend = surelyOver || (leak.jump === null ? chance >= ATTEND_AT : jumpedOver);
  const later = few ? 0 : leak.chanceOver(WATCH_OUTINGS * outingH);
  const watch =
    later >= WATCH_AT ||
    leak.jump !== null ||
    leak.step !== null ||
    leak.levelNow.value > WATCH_LEVEL * limit.gPerMin;
  const state = attend ? "attend" : watch ? "watch" : "sound";
  const decided = attend ? Math.max(chance, surelyOver ? 0.95 : 0) : 1 - chance;
  const sure =
    few || isStale(leak)
      ? "hardly sure"
      : decided > 0.95 && count >= 5
        ? "sure"
        : decided > 0.75
          ? "fairly sure"
          : "hardly sure";
  return {
    state,
    sure,
    why: dripSentence(about, leak, limit, sure),
    measureNext: nextDrip(leak, limit, state, sure),
  };
}

/** Carried on for longer than the catches span: what has been since is a guess, however well they lie. */
function isStale({ points, nowH }: LeakCourse): boolean {
  const [first, last] = [points[0], points.at(-1)];
  return first !== undefined && last !== undefined && nowH - last.x > last.x - first.x;
}

/** "; the last catch, 0.31 g/min on 2026-04-04, is 30 h in steam old, longer than all catches span" where it is. */
function age(leak: LeakCourse): string {
  const last = leak.points.at(-1);
  if (last === undefined || !isStale(leak)) return "";
  const day = new Date(last.reading.atMs).toISOString().slice(0, 10);
  return `; the last catch, ${shown(last.y)} g/min on ${day}, is ${hoursInWords(leak.nowH - last.x)} in steam old, longer than all catches span`;
}

function dripSentence({ sinceH }: Case, leak: LeakCourse, limit: Limit, sure: Assurance): string {
  const { levelNow, jump, step, hoursToLimit, hoursToLimit80, pRising } = leak;
  const level = `Passes ${shown(levelNow.value)} g/min at working pressure (${shown(levelNow.low80)} to ${shown(levelNow.high80)})`;
  const against = limit.own
    ? `the owner's limit is ${shown(limit.gPerMin)}`
    : `${shown(limit.gPerMin)} is taken for a limit, as none was set (common practice)`;
  const course =
    step !== null
      ? `, having risen at once from ${shown(step.before)} to ${shown(step.after)}`
      : jump !== null
        ? `, but the last catch jumped to ${shown(jump.reading.gPerMin)} where ${shown(Math.max(0, jump.expected))} was to be expected`
        : pRising !== null && pRising < 0.05
          ? `, rising steadily (so by chance alone: ${outOf100(pRising)})`
          : "";
  const time =
    hoursToLimit.value === null || hoursToLimit80 === null
      ? ""
      : hoursToLimit.value === 0
        ? ", which it has reached"
        : `, which is ${hoursInWords(hoursToLimit.value)} of steam away (${hoursInWords(hoursToLimit80[0])} to ${hoursInWords(hoursToLimit80[1])}, 80 times in 100)`;
  return `${level}${course}; ${against}${time}; ${counted(leak.points.length, "catch").replace("catchs", "catches")} in ${hoursInWords(sinceH)} in steam${age(leak)}, ${sure}.`;
}

function nextDrip(leak: LeakCourse, limit: Limit, state: State, sure: Assurance): string | null {
  const last = leak.points.at(-1);
  if (leak.jump !== null)
    return "Catch a drip again at the next steaming, before anything is taken apart: one jump may be a slip of the cloth.";
  if (leak.points.length < ENOUGH_FOR_A_TREND) {
    return `Catch a drip for two minutes at working pressure at each of the next ${counted(ENOUGH_FOR_A_TREND - leak.points.length, "steaming")}: a trend wants three.`;
  }
  if (isStale(leak)) return "Catch a drip at the next steaming: the last one is too old to go by.";
  if (sure === "sure" && state !== "watch") return null;
  if (last !== undefined && last.reading.u > 0.1 * limit.gPerMin) {
    return "Catch for longer and read the dial before and after: weighing and pressure make most of the doubt.";
  }
  return "Catch a drip at the next steaming: how fast it grows is what is least known.";
}

function byLooks(about: Case, looks: LookCourse): Verdict {
  const { outingH, fitting } = about;
  const count = looks.looks.length;
  const last = looks.looks.at(-1);
  const dripping = looks.chanceOf("dripping");
  const attend = count > 1 && dripping >= BY_LOOKS;
  const watch =
    looks.chanceOf("weeping") >= 0.5 || looks.chanceOf("dripping", WATCH_OUTINGS * outingH) >= WATCH_AT;
  const state = attend ? "attend" : watch ? "watch" : "sound";
  const decided = attend ? dripping : 1 - dripping;
  const sure = count < ENOUGH_FOR_A_TREND ? "hardly sure" : decided > 0.9 ? "fairly sure" : "hardly sure";
  const chance = attend
    ? `the chance that it really drips or blows is ${outOf100(dripping)}`
    : `the chance that it really drips is ${outOf100(dripping)}`;
  return {
    state,
    sure,
    why: `Looked ${last?.grade ?? "at"} the last time, ${counted(count, "look")} in ${hoursInWords(about.sinceH)} in steam; ${chance}, as far as looks go; ${sure}.`,
    measureNext:
      state === "sound" && count >= ENOUGH_FOR_A_TREND
        ? null
        : `Catch a drip at the ${fitting.name.toLowerCase()} for two minutes at working pressure: a look cannot tell how much.`,
  };
}

/** Catches without a limit to hold them against. */
function withoutLimit({ fitting, drips }: Case): Verdict {
  const last = shown(drips.at(-1)?.gPerMin ?? 0);
  const caught = counted(drips.length, "catch").replace("catchs", "catches");
  return {
    state: "watch",
    sure: "nothing known",
    why: `${caught}, last ${last} g/min; no limit is set, so no state can be told.`,
    measureNext: `Set a limit for the ${fitting.name.toLowerCase()}, in g/min, to have its catches judged.`,
  };
}

function nothingKnown({ fitting, leftOut, sinceH }: Case): Verdict {
  return {
    state: "watch",
    sure: "nothing known",
    why:
      leftOut.length === 0
        ? `Neither caught nor looked at in ${hoursInWords(sinceH)} in steam: nothing is known of it.`
        : `Not looked at in ${hoursInWords(sinceH)} in steam, and nothing that was caught counts.`,
    measureNext: `Look at the ${fitting.name.toLowerCase()} at working pressure and say dry, damp, weeping, dripping or blowing; catch a drip if it does.`,
  };
}
