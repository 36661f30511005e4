import type { Timeline } from "../../logbook/timeline.ts";
import type { Mark, Moment } from "./valve-moment.ts";

/**
 * What is thought of a safety valve beforehand, as parts of working pressure, each with its doubt (our choice; the means
 * are those of our invented engines as they are written down).
 */
export const MARKS = ["lift", "reseat", "top"] as const;
export const USUAL = { lift: 1.03, reseat: 0.91, top: 1 };
/** The pressures of the marks together, and how far the fall from lift to reseat may be from usual. */
export const MARK_DOUBT = 0.3;
export const FALL_DOUBT = 0.06;

/** A moment is written down so many seconds off. */
export const U_MOMENT_S = 2.5;
/** Seconds from a moment to a reading, in the mean over where the moment may have been. */
export const besideS = (sinceS: number): number => Math.hypot(sinceS, 0.8 * U_MOMENT_S);

/** How fast the pressure goes beside a moment with the valve shut. */
export interface Pace {
  /** a second */
  mean: number;
  u: number;
  /** away from the moment it slackens with this time, s: the rise to a lift is the faster the nearer it comes */
  lastsS: number;
}
const STEADY_S = 1000;
const PACE: Record<Mark, Pace> = {
  lift: { mean: 0.0055, u: 0.005, lastsS: 200 },
  reseat: { mean: -0.0015, u: 0.004, lastsS: STEADY_S },
  top: { mean: 0, u: 0.004, lastsS: STEADY_S },
};
/** To a lift soon after a reseat, without a plunge between and with one. */
const AGAIN: Pace = { mean: 0.0018, u: 0.002, lastsS: STEADY_S };
const RECOVERING: Pace = { mean: 0.004, u: 0.004, lastsS: 100 };
/** After the regulator was opened. */
const DRAWN: Pace = { mean: -0.004, u: 0.006, lastsS: STEADY_S };
/** Of the doubt of a rise, each lift's own; the rest is one fire's at all of them. */
export const OWN_RISE = 0.6;

/**
 * Cold feed, or the regulator opened, shuts the valve, and the pressure goes on sinking fast: from so long before its
 * entry to so long after. It has begun to sink before the valve is seen to shut.
 */
const PLUNGES = { beforeS: 60, afterS: 20, pace: { mean: -0.011, u: 0.01, lastsS: 20 }, begunS: 10 };

/** While the valve blows: how far the pressure stands below the lift or above the reseat, and in what time it comes to. */
const BLOWING = {
  mean: { lift: 0.085, reseat: 0.04, top: 0 },
  u: { lift: 0.08, reseat: 0.02, top: 0 },
  timeS: { lift: 7, reseat: 10, top: 1 },
  plungesTimeS: 3,
  /** how fast it may go on up or down besides, a second */
  uPerS: 0.001,
};

/** What is thought of one reading beside a moment. */
export interface Thought {
  /** where a popping valve takes the pressure on to another mark's: that, and the part of the way gone */
  towards: { mark: Mark; share: number } | null;
  /** by how much a way between two marks may bend here */
  uBend: number;
  /** of the pressure, all in all */
  usual: number;
  /** by how much it may stand off where valve and fire balance, and by how much more where that moves */
  uBlowing: number;
  uMoving: number;
  uPace: number;
  /** what a second's error of the moment moves it by */
  perS: number;
}

/** @param plungesS when cold water was fed, or the regulator opened */
export function thoughtAt(
  moments: readonly Moment[],
  place: number,
  sinceS: number,
  plungesS: readonly number[],
): Thought {
  const { mark } = moments[place] as Moment;
  const pace = paceAt(moments, place, sinceS, plungesS);
  const plunges = pace === PLUNGES.pace;
  const beside = mark === "top" ? Math.abs(sinceS) : besideS(sinceS);
  if ((mark === "lift" && sinceS > 0) || (mark === "reseat" && sinceS <= 0)) {
    const timeS = plunges ? BLOWING.plungesTimeS : BLOWING.timeS[mark];
    const settled = (mark === "lift" ? -1 : 1) * (1 - Math.exp(-beside / timeS));
    return {
      towards: null,
      uBend: 0,
      usual: USUAL[mark] + BLOWING.mean[mark] * settled,
      uBlowing: BLOWING.u[mark] * settled,
      uMoving: mark === "reseat" ? BLOWING.uPerS * beside : 0,
      uPace: 0,
      perS: plunges
        ? Math.hypot(pace.mean, pace.u) * Math.exp(-beside / PLUNGES.begunS)
        : (-BLOWING.mean[mark] / timeS) * Math.exp(-beside / timeS),
    };
  }
  const lineS = (sinceS > 0 ? 1 : -1) * pace.lastsS * (1 - Math.exp(-beside / pace.lastsS));
  return {
    towards: null,
    uBend: 0,
    usual: USUAL[mark] + pace.mean * lineS,
    uBlowing: 0,
    uMoving: 0,
    uPace: pace.u * lineS,
    perS:
      (moments[place] as Moment).endedBy === undefined && mark === "top" ? 0 : Math.hypot(pace.mean, pace.u),
  };
}

/** When cold water was fed, or the regulator opened. */
export const plungesIn = (timeline: Timeline): number[] =>
  [
    ...timeline.of("feed").filter((feed) => feed.by !== "axle-pump"),
    ...timeline.of("regulator").filter(({ state }) => state === "open"),
  ].map(({ atS }) => atS);

/** Whether one of these shut the valve. */
export const plunged = (moment: Moment | undefined, plungesS: readonly number[]): boolean =>
  moment?.mark === "reseat" &&
  plungesS.some((atS) => atS > moment.atS - PLUNGES.afterS && atS < moment.atS + PLUNGES.beforeS);

function paceAt(
  moments: readonly Moment[],
  place: number,
  sinceS: number,
  plungesS: readonly number[],
): Pace {
  const moment = moments[place] as Moment;
  if (moment.endedBy !== undefined) {
    if (sinceS <= 0) return PACE.lift;
    return moment.endedBy === "fire" ? PACE.reseat : DRAWN;
  }
  if (plunged(moment, plungesS)) return PLUNGES.pace;
  const before = moments[place - 1];
  if (moment.mark !== "lift" || before?.mark !== "reseat") return PACE[moment.mark];
  return plunged(before, plungesS) ? RECOVERING : AGAIN;
}
