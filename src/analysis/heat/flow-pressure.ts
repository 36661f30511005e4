import { overlapS } from "../../logbook/timeline.ts";
import { type PressurePoint, pressureAt } from "../pressure/pressure-points.ts";
import type { Sources } from "../sources.ts";
import type { Stretch } from "../state/phases.ts";
import { USUAL } from "../valve/valve-usual.ts";

/** A reading so near to a mark of the safety valve tells more than the mark, s. */
const READ_NEAR_S = 60;
/** A window is looked at so many times for the mean by flow. */
const LOOKS = 40;

/** The pressures that were read, and where no reading is near those at which a safety valve usually lifts and reseats. */
export function withValve({ pressure, timeline, locomotive }: Sources): PressurePoint[] {
  const marks = timeline
    .of("valve")
    .filter(({ atS }) => pressure.points.every(([readS]) => Math.abs(readS - atS) > READ_NEAR_S))
    .map(({ atS, state }): PressurePoint => {
      const part = state === "lifts" ? USUAL.lift : USUAL.reseat;
      return [atS, part * locomotive.workingPressureBarG];
    });
  return [...pressure.points, ...marks].sort((a, b) => a[0] - b[0]);
}

/** Gauge pressure at which steam left, bar: whatever takes it takes more at a higher pressure, in proportion to the absolute. */
export const meanByFlow = (
  points: readonly PressurePoint[],
  { around }: Sources,
  fromS: number,
  toS: number,
): number =>
  weighedMean(fromS, toS, (atS) => {
    const barG = pressureAt(points, atS) ?? 0;
    return { barG, leaves: around.absolutePa(barG) };
  });

/** Of what leaves under way, so much leaves standing, while the valve may blow and below the pressure at which it usually reseats (our estimates). */
const STANDING = { valve: 0.5, leaks: 0.1 };

/**
 * Gauge pressure at which steam left once she was raised, bar. Under way it is the demand that moves the pressure, the more the
 * lower, so steam leaves at what is read then in the mean over time; standing it leaves by her valve and her leaks.
 */
export function meanAsUsed(
  points: readonly PressurePoint[],
  from: Sources,
  fromS: number,
  toS: number,
  underWay: readonly Stretch[],
): number {
  const { around, locomotive } = from;
  const workingBarG = locomotive.workingPressureBarG;
  const engineTook = (atS: number) => underWay.some(([startS, endS]) => atS >= startS && atS < endS);
  const readUnderWay = points.filter(([atS]) =>
    underWay.some(([startS, endS]) => atS >= startS && atS <= endS),
  );
  return weighedMean(fromS, toS, (atS) => {
    if (engineTook(atS))
      return { barG: pressureAt(readUnderWay.length > 0 ? readUnderWay : points, atS) ?? 0, leaves: 1 };
    const barG = pressureAt(points, atS) ?? 0;
    const share = barG >= USUAL.reseat * workingBarG ? STANDING.valve : STANDING.leaks;
    return { barG, leaves: (share * around.absolutePa(barG)) / around.absolutePa(workingBarG) };
  });
}

function weighedMean(fromS: number, toS: number, look: (atS: number) => { barG: number; leaves: number }) {
  let [sum, barGSum] = [0, 0];
  for (let i = 0; i < LOOKS; i++) {
    const { barG, leaves } = look(fromS + ((i + 0.5) / LOOKS) * (toS - fromS));
    sum += leaves;
    barGSum += leaves * barG;
  }
  return barGSum / sum;
}

/**
 * Over a lit fire the pressure may go up to the valve's lift and come back unseen: between readings further apart than this it
 * begins to, by as much again and twice it may have been there all the while, s (our estimate).
 */
const UNSEEN_FROM_S = 60;
const UNSEEN_BY_S = 240;
/** Of the way from what was read to working pressure, the mean's standard uncertainty in such a gap (our estimate). */
const UNSEEN = 0.4;

/** Standard uncertainty of the mean pressure over a window for what it did while nobody read it, bar. */
export function unseenBetween(
  points: readonly PressurePoint[],
  { fuel, locomotive }: Sources,
  fromS: number,
  toS: number,
): number {
  let variance = 0;
  points.slice(1).forEach(([atS, barG], i) => {
    const [beforeS, beforeBarG] = points[i] as PressurePoint;
    const gapS = overlapS(fuel.fire, Math.max(fromS, beforeS), Math.min(toS, atS));
    const grown = Math.min(1, Math.max(0, (gapS - UNSEEN_FROM_S) / (UNSEEN_BY_S - UNSEEN_FROM_S)));
    const wayBar = Math.max(0, locomotive.workingPressureBarG - (barG + beforeBarG) / 2);
    variance += ((UNSEEN * grown * wayBar * gapS) / Math.max(1, toS - fromS)) ** 2;
  });
  return Math.sqrt(variance);
}
