import { bySeconds, oneRiseAndFall, type Second } from "../pressure/logged-seconds.ts";
import type { PressureReading } from "../pressure/pressure-points.ts";
import type { Mark, Moment } from "./valve-moment.ts";
import { plunged, U_MOMENT_S } from "./valve-usual.ts";

/** Samples so near a moment tell of it, s; and so many seconds with samples to either side make them close. */
const NEAR_S = 15;
const LEAST_SECONDS = 5;
/** About one turn of the pressure so few are enough: it goes up and down at once where a valve pops and shuts within seconds. */
const LEAST_BY_TURN = 3;
/** Samples of a popping valve count together over so long, s. */
const QUICK_S = 0.5;
/** A moment may have been so far from where it was written, s: three errors of its writing. */
export const FURTHEST_S = 3 * U_MOMENT_S;

/** The samples that tell of a moment, in seconds since it, and from where to where they do. */
export interface Stretch {
  seconds: readonly Second[];
  fromS: number;
  toS: number;
  /** how the pressure usually goes there */
  usual: Mark;
  /** a corner nearer to an end than this is none, s */
  marginS: number;
}

/**
 * The samples by a moment. Where its marks stand too close together for a corner between them the valve pops: then it lifts
 * where the pressure turns down, and reseats where it turns up, if nothing else brought it down. Null where they are too few.
 * @param othersS of the other moments, since this one
 * @param plungesS when cold water was fed, or the regulator opened
 * @param uOf of a second's mean, bar
 */
export function stretchAt(
  logged: readonly PressureReading[],
  moment: Moment,
  othersS: readonly number[],
  plungesS: readonly number[],
  uOf: (second: Second) => number,
): Stretch | null {
  if (moment.mark === "top") return oneTurn(logged, moment, uOf);
  const pops = !plunged(moment, plungesS) && othersS.some((s) => Math.abs(s) < LEAST_SECONDS + U_MOMENT_S);
  return betweenMarks(logged, moment, othersS) ?? (pops ? oneTurn(logged, moment, uOf) : null);
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
  const seconds = upside(oneRiseAndFall(upside(all), FURTHEST_S, uOf));
  const [first, last] = [seconds[0], seconds.at(-1)];
  if (first === undefined || last === undefined || !enough(seconds, LEAST_BY_TURN)) return null;
  return { seconds, fromS: first.atS, toS: last.atS, usual: "top", marginS: 2 * everyS };
}

/** On either side of the moment. */
const enough = (seconds: readonly Second[], least: number): boolean => {
  const before = seconds.filter(({ atS }) => atS <= 0).length;
  return before >= least && seconds.length - before >= least;
};
