import { byCatches } from "./catch-verdict.ts";
import { grades } from "./evidence.ts";
import type { LeakCourse } from "./leak-course.ts";
import type { LookCourse } from "./look-course.ts";
import { BY_LOOKS, byLooks } from "./look-verdict.ts";
import { type Case, states, type Verdict } from "./verdict.ts";
import { counted, hoursInWords, lower, serviceWords, shown } from "./words.ts";

/** Looks count beside catches when no drip was caught for so many hours in steam. */
const DRIP_IS_OLD_H = 2.5;

/** The state of one fitting with its reason. */
export function verdictOf(about: Case): Verdict {
  const { leak, looks, signals } = about;
  const verdicts: Verdict[] = [];
  const caught = leak === null || about.limit === null ? null : byCatches(about, leak, about.limit);
  if (caught !== null) verdicts.push(caught.verdict);
  if (looks !== null && (leak === null || looksAreNewer(leak, looks))) {
    verdicts.push(byLooks(about, looks, caught?.byCatchesAlone ?? null));
  }
  const [first, ...others] = verdicts.sort((a, b) => states.indexOf(b.state) - states.indexOf(a.state));
  const worst = first ?? (about.drips.length > 0 ? withoutLimit(about) : nothingKnown(about));
  const signal = signals[0];
  if (signal === undefined) return worst;
  if (first === undefined || (worst.state === "sound" && others.length === 0)) {
    return {
      state: "watch",
      sure: "hardly sure",
      reason: `${signal.words}; ${lower(worst.reason)}`,
      measureNext: signal.readAgain ?? worst.measureNext,
    };
  }
  return { ...worst, reason: `${worst.reason}; also, ${lower(signal.words)}` };
}

/**
 * Looks count beside catches where these are old, or she was seen to blow since; but not where as much was seen while
 * catches were taken: what drips within its limit drips on.
 */
function looksAreNewer(leak: LeakCourse, looks: LookCourse): boolean {
  const lastDrip = leak.points.at(-1)?.reading;
  const lastLook = looks.looks.at(-1);
  if (lastDrip === undefined || lastLook === undefined) return false;
  const before = looks.looks.filter(({ atMs }) => atMs <= lastDrip.atMs);
  if (before.some(({ grade }) => grades.indexOf(grade) >= grades.indexOf(lastLook.grade))) return false;
  const laterH = lastLook.hours - lastDrip.hours;
  return laterH > DRIP_IS_OLD_H || (laterH > 0 && looks.chanceOf("blowing") > BY_LOOKS);
}

/** Catches without a limit to hold them against. */
function withoutLimit({ fitting, drips }: Case): Verdict {
  const last = shown(drips.at(-1)?.gPerMin ?? 0);
  return {
    state: "watch",
    sure: "nothing known",
    reason: `${counted(drips.length, "catch")}, last ${last} g/min; no limit is set`,
    measureNext: `Set a limit for the ${fitting.name.toLowerCase()}, in g/min, to have its catches judged.`,
  };
}

function nothingKnown({ fitting, leftOut, sinceH, service }: Case): Verdict {
  const since =
    service === null ? "" : ` since it was ${serviceWords[service.what]} on ${service.at.slice(0, 10)}`;
  const span = `${hoursInWords(sinceH)} in steam${since}`;
  return {
    state: "watch",
    sure: "nothing known",
    reason:
      leftOut.length === 0
        ? `Neither caught nor looked at in ${span}`
        : `Not looked at in ${span}, and nothing that was caught counts`,
    measureNext: `Look at the ${fitting.name.toLowerCase()} at working pressure and say dry, damp, weeping, dripping or blowing; catch a drip if it does.`,
  };
}
