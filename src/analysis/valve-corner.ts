import type { Part } from "../quantity/measured.ts";
import { linearEstimator } from "../statistics/linear-estimate.ts";
import { vectorOf } from "../statistics/vector.ts";
import { bySeconds, oneRiseAndFall, type Second } from "./logged-seconds.ts";
import type { PressureReading } from "./pressure-points.ts";
import type { Mark, Moment } from "./valve-moment.ts";
import { plunged, U_MOMENT_S } from "./valve-usual.ts";
import { averaged, weighedWays } from "./weighed-ways.ts";

/** Samples so near a moment tell of it, s; and so many seconds with samples to either side make them close. */
const NEAR_S = 15;
const LEAST_SECONDS = 5;
/** About one turn of the pressure so few are enough: it goes up and down at once where a valve pops and shuts within seconds. */
const LEAST_BY_TURN = 3;
/** Samples of a popping valve count together over so long, s. */
const QUICK_S = 0.5;
/** The moment may have been so far from where it was written, in errors of its writing, and is tried every so many s. */
const FURTHEST = 3;
const STEP_S = 0.5;
/**
 * Parts of working pressure (our choice): what the pressure at the moment is in doubt by beforehand, how fast it goes a
 * second and bends a second squared on either side, and what a second's mean stands off such a bend.
 */
const DOUBT = { bar: 0.3, perS: 0.012, perS2: 0.0005, off: 0.0015 };
/**
 * How the pressure goes in the mean of our invented engines before and after, as such parts: without it the corner that
 * is lost in the samples' scatter would be taken for none, and a lift as too low.
 */
const USUAL: Record<Mark, { beforePerS: number; afterPerS: number; afterPerS2: number }> = {
  lift: { beforePerS: 0.005, afterPerS: -0.011, afterPerS2: 0.0004 },
  reseat: { beforePerS: -0.004, afterPerS: -0.004, afterPerS2: 0 },
  top: { beforePerS: 0, afterPerS: 0, afterPerS2: 0 },
};

/**
 * A valve that shuts bends the pressure up. Where it does not do so by so many of the bend's errors, something else brought
 * it down (cold feed, the regulator opened), and the corner, if there is one, is that and not the valve's.
 */
const BENDS_UP = 2;
/** Nor is it the valve's where the pressure goes on falling faster than so many parts of working pressure a second (our choice). */
const FALLS_ON = 0.002;

/** Pressure at one moment, without the bias that all samples share. */
export interface Corner {
  value: number;
  u: number;
  parts: Part[];
}

/** The samples that tell of a moment, in seconds since it, and from where to where they do. */
interface Stretch {
  seconds: readonly Second[];
  fromS: number;
  toS: number;
  /** how the pressure usually goes there */
  usual: Mark;
  /** a corner nearer to an end than this is none, s */
  marginS: number;
}

/** Between the marks before and after, which may stand a little off; null where a side has too few seconds. */
function betweenMarks(
  logged: readonly PressureReading[],
  { atS, mark }: Moment,
  othersS: readonly number[],
): Stretch | null {
  const fromS = Math.max(-NEAR_S, ...othersS.filter((s) => s < 0).map((s) => s + U_MOMENT_S));
  const toS = Math.min(NEAR_S, ...othersS.filter((s) => s > 0).map((s) => s - U_MOMENT_S));
  const seconds = bySeconds(logged, atS, fromS, toS);
  return enough(seconds, LEAST_SECONDS) ? { seconds, fromS, toS, usual: mark, marginS: 2 } : null;
}

/** The one rise and fall, or for a reseat fall and rise, that the moment belongs to; null where too little of it was logged. */
function oneTurn(
  logged: readonly PressureReading[],
  { atS, mark }: Moment,
  uOf: (second: Second) => number,
): Stretch | null {
  const everyS = mark === "top" ? 1 : QUICK_S;
  const upside = (seconds: readonly Second[]) =>
    mark === "reseat" ? seconds.map((second) => ({ ...second, barG: -second.barG })) : seconds;
  const all = bySeconds(logged, atS, -NEAR_S, NEAR_S, everyS);
  const seconds = upside(oneRiseAndFall(upside(all), FURTHEST * U_MOMENT_S, uOf));
  const [first, last] = [seconds[0], seconds.at(-1)];
  if (first === undefined || last === undefined || !enough(seconds, LEAST_BY_TURN)) return null;
  return { seconds, fromS: first.atS, toS: last.atS, usual: "top", marginS: 2 * everyS };
}

/** On either side of the moment. */
const enough = (seconds: readonly Second[], least: number): boolean => {
  const before = seconds.filter(({ atS }) => atS <= 0).length;
  return before >= least && seconds.length - before >= least;
};

/**
 * Pressure at a moment from a logger's samples: bent to either side of it, with a corner there, the moment anywhere about
 * where it was written. Where its marks stand too close together for that, the valve pops: then it lifts where the pressure
 * turns down, and reseats where it turns up, if nothing else brought it down. Null where too few samples stand by it, or the bend is none of the valve's.
 * @param othersS of the other moments, since this one
 * @param plungesS when cold water was fed, or the regulator opened
 */
export function cornerAt(
  logged: readonly PressureReading[],
  moment: Moment,
  othersS: readonly number[],
  plungesS: readonly number[],
  working: number,
): Corner | null {
  const uSample = Math.max(...logged.map(({ uBar }) => uBar));
  const uOf = ({ samples }: Second) => Math.hypot(uSample / Math.sqrt(samples), DOUBT.off * working);
  const pops = !plunged(moment, plungesS) && othersS.some((s) => Math.abs(s) < LEAST_SECONDS + U_MOMENT_S);
  const stretch =
    (moment.mark === "top" ? null : betweenMarks(logged, moment, othersS)) ??
    (moment.mark === "top" || pops ? oneTurn(logged, moment, uOf) : null);
  if (stretch === null) return null;
  const { seconds } = stretch;
  const mean = seconds.reduce((sum, { barG }) => sum + barG, 0) / seconds.length;
  const least = Math.max(-FURTHEST * U_MOMENT_S, stretch.fromS + stretch.marginS);
  const most = Math.min(FURTHEST * U_MOMENT_S, stretch.toS - stretch.marginS);
  const offs = Array.from({ length: Math.floor((most - least) / STEP_S) + 1 }, (_, i) => least + i * STEP_S);
  const { beforePerS, afterPerS, afterPerS2 } = USUAL[stretch.usual];
  const usualGone = (sinceS: number) =>
    working * (sinceS < 0 ? beforePerS * sinceS : afterPerS * sinceS + afterPerS2 * sinceS ** 2);
  const noise = vectorOf(seconds, (second) => uOf(second) ** 2);
  const ways = weighedWays(
    offs,
    (offS) => {
      const column = (doubt: number, of: (sinceS: number) => number) =>
        vectorOf(seconds, ({ atS }) => working * doubt * of(atS - offS));
      return linearEstimator({
        y: vectorOf(seconds, ({ atS, barG }) => barG - mean - usualGone(atS - offS)),
        noise,
        causes: [
          column(DOUBT.bar, () => 1),
          column(DOUBT.perS, (s) => Math.min(s, 0)),
          column(DOUBT.perS, (s) => Math.max(s, 0)),
          column(DOUBT.perS2, (s) => Math.min(s, 0) ** 2),
          column(DOUBT.perS2, (s) => Math.max(s, 0) ** 2),
        ],
      });
    },
    (offS) => Math.exp(-0.5 * (offS / U_MOMENT_S) ** 2),
  );
  const few = { name: "few readings" };
  const told = (ofWanted: readonly number[]): Corner => {
    const { value, parts } = averaged(ways, {
      ofWanted,
      unit: "bar",
      parts: [few, few, few, few, few],
      names: {
        readings: "pressure readings",
        wander: "pressure between readings",
        ways: "moment of the valve",
      },
    });
    return { value, u: Math.hypot(...parts.map(({ u }) => u)), parts };
  };
  if (moment.mark === "reseat") {
    const bend = told([0, -DOUBT.perS * working, DOUBT.perS * working, 0, 0]);
    const after = told([0, 0, DOUBT.perS * working, 0, 0]);
    const [bends, fallsOn] = [
      bend.value + (afterPerS - beforePerS) * working,
      after.value + afterPerS * working,
    ];
    if (bends < BENDS_UP * bend.u || fallsOn < -FALLS_ON * working) return null;
  }
  const pressure = told([DOUBT.bar * working, 0, 0, 0, 0]);
  return { ...pressure, value: mean + pressure.value };
}
