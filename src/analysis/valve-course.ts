import { type LinearEstimator, linearEstimator } from "../statistics/linear-estimate.ts";
import { dot } from "../statistics/vector.ts";
import { sharedSource } from "./instruments.ts";
import type { Sources } from "./sources.ts";
import type { Cause } from "./weighed-ways.ts";

/** What a moment fixes: the pressure the valve lifts at, the one it reseats at, or the top of the readings. */
export type Mark = "lift" | "reseat" | "top";
export interface Moment {
  atS: number;
  mark: Mark;
}

export interface Read {
  atS: number;
  barG: number;
}

/**
 * Pressure about the moments of a valve: one and the same at every lift, another at every reseat. While the valve is
 * shut the pressure comes to the moment, or leaves it, along a straight line; while it blows, it sinks quickly from the
 * lift to where valve and fire balance, and from there to the reseat. On top of that it strays, the further from the
 * moment the more (Brownian): a reading beside a moment tells most.
 */
export interface ValveCourse {
  causes: Cause[];
  estimatorOf(straySd: number): LinearEstimator;
  atMark(mark: Mark): PressureWanted & { /** place among the causes */ place: number; doubtBar: number };
  /** where the readings were taken, free of their errors and of the dial's: their mean by such weights */
  atReadings(weights: readonly number[]): PressureWanted;
}

/** A pressure to be told: what it is thought to be beforehand, bar, and what a unit of each cause and reading adds. */
export interface PressureWanted {
  usualBar: number;
  ofWanted: number[];
  ofReadings: Float64Array;
}

/** Strays that may be: standard deviation a minute from a moment, as parts of working pressure. */
export const STRAY_SDS = [0.01, 0.03, 0.08, 0.2];
/**
 * Thought beforehand, as parts of working pressure (our choice): the marks; the pace a second with the valve shut; how
 * far the pressure sinks below the lift, or stands above the reseat, while it blows (that in the mean of our invented
 * engines). All with the doubt beside it.
 */
const USUAL = { lift: 1.03, reseat: 0.92, top: 1 };
const MARK_DOUBT = 0.3;
const PACE: Record<Mark, { mean: number; u: number }> = {
  lift: { mean: 0.005, u: 0.005 },
  reseat: { mean: -0.006, u: 0.009 },
  top: { mean: 0, u: 0.004 },
};
/** Cold feed shuts the valve, and the pressure goes on sinking fast: the pace then, and from how long before to how long after its entry. */
const FED = { pace: { mean: -0.02, u: 0.03 }, beforeS: 60, afterS: 20 };
const BLOWING = { mean: { lift: 0.095, reseat: 0.06, top: 0 }, u: 0.08, timeS: 10 };
/** A moment is written down so many seconds off. */
export const U_MOMENT_S = 3;
const MARKS = ["lift", "reseat", "top"] as const;

interface Placed extends Read {
  /** place of the moment that it stands nearest to, and seconds since it */
  moment: number;
  sinceS: number;
  mark: Mark;
  blowing: boolean;
  /** parts of working pressure a second along the straight line */
  pace: { mean: number; u: number };
}

export function valveCourse(
  from: Sources,
  moments: readonly Moment[],
  readings: readonly Read[],
): ValveCourse {
  const { errors, locomotive } = from;
  const working = locomotive.workingPressureBarG;
  const feedsS = from.timeline
    .of("feed")
    .filter((feed) => feed.by !== "axle-pump")
    .map((feed) => feed.atS);
  const placed = readings.map((reading) => placedAt(moments, reading, feedsS));
  const column = (value: (reading: Placed) => number) =>
    Float64Array.from(placed, (one) => working * value(one));
  const beside = (sinceS: number) => Math.hypot(sinceS, 0.8 * U_MOMENT_S);
  const settled = (one: Placed) =>
    (one.mark === "lift" ? -1 : 1) * (1 - Math.exp(-beside(one.sinceS) / BLOWING.timeS));
  /** seconds along the straight line, as long as the valve is shut */
  const lineS = (one: Placed) =>
    one.mark === "top" ? one.sinceS : Math.sign(one.sinceS || -1) * beside(one.sinceS);
  const usual = column(
    (one) =>
      USUAL[one.mark] + (one.blowing ? BLOWING.mean[one.mark] * settled(one) : one.pace.mean * lineS(one)),
  );
  /** what a second's error of the moment moves the pressure by */
  const perSecond = (one: Placed) =>
    one.blowing
      ? (-BLOWING.mean[one.mark] / BLOWING.timeS) * Math.exp(-beside(one.sinceS) / BLOWING.timeS)
      : Math.hypot(one.pace.mean, one.pace.u);
  const few = (value: (reading: Placed) => number): Cause => ({
    part: { name: "few readings" },
    column: column(value),
  });
  const causes: Cause[] = [
    ...MARKS.map((mark) => few((one) => (one.mark === mark ? MARK_DOUBT : 0))),
    ...MARKS.map((mark) => few((one) => (one.blowing && one.mark === mark ? BLOWING.u * settled(one) : 0))),
    ...moments.flatMap((_, m): Cause[] => [
      few((one) => (one.moment === m && !one.blowing && one.sinceS <= 0 ? one.pace.u * lineS(one) : 0)),
      few((one) => (one.moment === m && !one.blowing && one.sinceS > 0 ? one.pace.u * lineS(one) : 0)),
      {
        part: { name: "moment of the valve" },
        column: column((one) => (one.moment === m && one.mark !== "top" ? U_MOMENT_S * perSecond(one) : 0)),
      },
    ]),
    {
      part: { name: "bias of the pressure dial", source: sharedSource.dial(locomotive) },
      column: Float64Array.from(placed, () => errors.pressureBiasBar),
    },
  ].filter((cause, place) => place < MARKS.length || cause.column.some((value) => value !== 0));
  const unit = unitStray(placed);
  return {
    causes,
    estimatorOf: (straySd) =>
      linearEstimator({
        y: Float64Array.from(placed, ({ barG }, i) => barG - (usual[i] ?? 0)),
        noise: Float64Array.from(placed, () => errors.pressureReadingBar ** 2),
        causes: causes.map((cause) => cause.column),
        wander: unit.map((value) => ((straySd * working) ** 2 / 60) * value),
      }),
    atMark: (mark) => {
      const place = MARKS.indexOf(mark);
      const doubtBar = MARK_DOUBT * working;
      const ofWanted = causes.map((_, c) => (c === place ? doubtBar : 0));
      return {
        usualBar: USUAL[mark] * working,
        ofWanted,
        ofReadings: new Float64Array(placed.length),
        place,
        doubtBar,
      };
    },
    atReadings: (weights) => {
      const total = weights.reduce((a, b) => a + b, 0);
      const ofReadings = Float64Array.from(weights, (weight) => weight / total);
      return {
        usualBar: dot(ofReadings, usual),
        ofWanted: causes.map(({ part, column }) =>
          part.source === undefined ? 0 : -dot(ofReadings, column),
        ),
        ofReadings,
      };
    },
  };
}

function placedAt(moments: readonly Moment[], reading: Read, feedsS: readonly number[]): Placed {
  const away = moments.map(({ atS }) => Math.abs(reading.atS - atS));
  const moment = away.indexOf(Math.min(...away));
  const { atS, mark } = moments[moment] as Moment;
  const sinceS = reading.atS - atS;
  const blowing = (mark === "lift" && sinceS > 0) || (mark === "reseat" && sinceS <= 0);
  const fed = mark === "reseat" && feedsS.some((fedS) => fedS > atS - FED.afterS && fedS < atS + FED.beforeS);
  return { ...reading, moment, sinceS, mark, blowing, pace: fed ? FED.pace : PACE[mark] };
}

/** Covariance of the readings' strays for a variance of 1 a second, apart on each side of a moment; lower triangle. */
function unitStray(placed: readonly Placed[]): Float64Array {
  const n = placed.length;
  const matrix = new Float64Array(n * n);
  placed.forEach((a, i) => {
    for (let j = 0; j <= i; j++) {
      const b = placed[j] as Placed;
      if (b.moment !== a.moment || b.sinceS > 0 !== a.sinceS > 0) continue;
      matrix[i * n + j] = Math.min(Math.abs(a.sinceS), Math.abs(b.sinceS));
    }
  });
  return matrix;
}
