import type { Cause } from "../../quantity/weighed-ways.ts";
import { type LinearEstimator, linearEstimator } from "../../statistics/linear-estimate.ts";
import { dot, vectorOf } from "../../statistics/vector.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import type { Mark, Moment } from "./valve-moment.ts";
import { poppingAt, U_HABIT_S } from "./valve-pops.ts";
import {
  FALL_DOUBT,
  MARK_DOUBT,
  MARKS,
  OWN_RISE,
  plungesIn,
  type Thought,
  thoughtAt,
  U_MOMENT_S,
  USUAL,
} from "./valve-usual.ts";

export interface Read {
  atS: number;
  barG: number;
}

/**
 * Pressure about the moments of a valve: one and the same at every lift, another at every reseat. While the valve is
 * shut the pressure comes to the moment, or leaves it, along a line that slackens away from it; while it blows, it sinks quickly from the
 * lift to where valve and fire balance, and from there to the reseat. On top of that it strays, the further from the
 * moment the more (Brownian): a reading beside a moment tells most.
 */
export interface ValveCourse {
  causes: Cause[];
  estimatorOf(stray: Stray): LinearEstimator;
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

/**
 * Strays that may be: standard deviation a minute from a moment, as parts of working pressure, and how likely each is
 * beforehand (our choice). With the valve shut they are others than while it blows: that it then holds the pressure level
 * says nothing of the way up to a lift.
 */
export const STRAYS = {
  shut: [
    { sd: 0.01, likely: 1 },
    { sd: 0.03, likely: 1 },
    { sd: 0.08, likely: 0.6 },
    { sd: 0.2, likely: 0.25 },
  ],
  blowing: [
    { sd: 0.01, likely: 1 },
    { sd: 0.05, likely: 0.6 },
  ],
};
export interface Stray {
  shut: number;
  blowing: number;
}
export const WAYS = STRAYS.shut.flatMap((shut) =>
  STRAYS.blowing.map((blowing) => ({
    stray: { shut: shut.sd, blowing: blowing.sd },
    likely: shut.likely * blowing.likely,
  })),
);

interface Placed extends Read {
  /** place of the moment that it stands nearest to, and seconds since it */
  moment: number;
  sinceS: number;
  mark: Mark;
  thought: Thought;
}

/**
 * @param bound whether lift and reseat stand about a usual fall apart; else each is told by the readings beside it alone
 */
export function valveCourse(
  from: Sources,
  moments: readonly Moment[],
  readings: readonly Read[],
  bound = true,
): ValveCourse {
  const { errors, locomotive } = from;
  const working = locomotive.workingPressureBarG;
  const plungesS = plungesIn(from.timeline);
  const placed = readings.map((reading) => placedAt(moments, reading, plungesS));
  const column = (value: (reading: Placed) => number) => vectorOf(placed, (one) => working * value(one));
  const usual = column(({ thought }) => thought.usual);
  const few = (value: (reading: Placed) => number): Cause => ({
    part: { name: "few readings" },
    column: column(value),
  });
  /** one fire's doing at all lifts */
  const rising = ({ mark, sinceS }: Placed) => mark === "lift" && sinceS <= 0;
  const commonDoubt = bound ? MARK_DOUBT : 0;
  const ownDoubt = (mark: Mark) => (bound && mark !== "top" ? FALL_DOUBT * Math.SQRT1_2 : MARK_DOUBT);
  const causes: Cause[] = [
    ...MARKS.map((mark) => few((one) => shareOf(mark, one) * ownDoubt(mark))),
    few((one) => (one.mark === "top" ? 0 : commonDoubt)),
    ...MARKS.map((mark) => few((one) => (one.mark === mark ? one.thought.uBlowing : 0))),
    ...[true, false].map((blowing) => few((one) => (blows(one) === blowing ? one.thought.uBend : 0))),
    {
      ...few(({ thought }) => (thought.towards === null ? 0 : U_HABIT_S * thought.perS)),
      part: { name: "moment of the valve" },
    },
    few((one) => (rising(one) ? Math.sqrt(1 - OWN_RISE ** 2) * one.thought.uPace : 0)),
    ...moments.flatMap((_, m): Cause[] => {
      const of = (value: (reading: Placed) => number) => few((one) => (one.moment === m ? value(one) : 0));
      return [
        of(({ thought }) => thought.uMoving),
        of((one) => (one.sinceS <= 0 ? (rising(one) ? OWN_RISE : 1) * one.thought.uPace : 0)),
        of((one) => (one.sinceS > 0 ? one.thought.uPace : 0)),
        { ...of(({ thought }) => U_MOMENT_S * thought.perS), part: { name: "moment of the valve" } },
      ];
    }),
    {
      part: { name: "bias of the pressure dial", source: sharedSource.dial(locomotive) },
      column: vectorOf(placed, () => errors.pressureBiasBar),
    },
  ].filter((cause, place) => place <= MARKS.length || cause.column.some((value) => value !== 0));
  return {
    causes,
    estimatorOf: (stray) =>
      linearEstimator({
        y: vectorOf(placed, ({ barG }, i) => barG - (usual[i] ?? 0)),
        noise: vectorOf(placed, () => errors.pressureReadingBar ** 2),
        causes: causes.map((cause) => cause.column),
        wander: strayed(placed, (one) => (stray[blows(one) ? "blowing" : "shut"] * working) ** 2 / 60),
      }),
    atMark: (mark) => {
      const place = MARKS.indexOf(mark);
      const doubtBar = ownDoubt(mark) * working;
      const common = mark === "top" ? 0 : commonDoubt * working;
      return {
        usualBar: USUAL[mark] * working,
        ofWanted: causes.map((_, c) => (c === place ? doubtBar : c === MARKS.length ? common : 0)),
        ofReadings: new Float64Array(placed.length),
        place,
        doubtBar,
      };
    },
    atReadings: (weights) => {
      const total = weights.reduce((a, b) => a + b, 0);
      const ofReadings = vectorOf(weights, (weight) => weight / total);
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

/** How much of a mark's own pressure is in a reading's. */
function shareOf(mark: Mark, { mark: nearest, thought: { towards } }: Placed): number {
  const share = towards?.share ?? 0;
  return mark === nearest ? 1 - share : mark === towards?.mark ? share : 0;
}

const blows = ({ mark, sinceS }: Placed): boolean => mark !== "top" && (mark === "lift") === sinceS > 0;

/** Of a reading within so many seconds of a moment nothing tells which of the two came first. */
const SAME_S = 1;

/** What a second's error of the moment moves a reading by: one that may as well stand on its other side, by what it would there, if that is more. */
function steepest({ perS }: Thought, sinceS: number, beside: (sinceS: number) => Thought): number {
  if (Math.abs(sinceS) >= SAME_S) return perS;
  const across = Math.abs(beside(sinceS > 0 ? 0 : Number.MIN_VALUE).perS);
  return across > Math.abs(perS) ? (perS < 0 ? -across : across) : perS;
}

function placedAt(moments: readonly Moment[], reading: Read, plungesS: readonly number[]): Placed {
  const away = moments.map(({ atS }) => Math.abs(reading.atS - atS));
  const moment = away.indexOf(Math.min(...away));
  const { atS, mark } = moments[moment] as Moment;
  const sinceS = reading.atS - atS;
  const beside = (s: number) =>
    poppingAt(moments, moment, s, plungesS) ?? thoughtAt(moments, moment, s, plungesS);
  const thought = beside(sinceS);
  return {
    ...reading,
    moment,
    sinceS,
    mark,
    thought: { ...thought, perS: steepest(thought, sinceS, beside) },
  };
}

/** Covariance of the readings' strays, of such variance a second, apart on each side of a moment; lower triangle. */
function strayed(placed: readonly Placed[], perS: (one: Placed) => number): Float64Array {
  const n = placed.length;
  const matrix = new Float64Array(n * n);
  placed.forEach((a, i) => {
    for (let j = 0; j <= i; j++) {
      const b = placed[j] as Placed;
      if (b.moment !== a.moment || b.sinceS > 0 !== a.sinceS > 0) continue;
      matrix[i * n + j] = perS(a) * Math.min(Math.abs(a.sinceS), Math.abs(b.sinceS));
    }
  });
  return matrix;
}
