import { overlapS, stretchesOf } from "../../logbook/timeline.ts";
import { steamLeak } from "../../steam/leak-flow.ts";
import { LEAKS, unnotedValve } from "../engine/takes-besides.ts";
import { isSolid } from "../fuel/fuel-table.ts";
import { type PressurePoint, pressureAt } from "../pressure/pressure-points.ts";
import type { Sources } from "../sources.ts";
import { type Stretch, underWayStretches } from "../state/phases.ts";
import { USUAL } from "../valve/valve-usual.ts";
import { madeAtRest } from "./surface-loss.ts";

/** A reading so near to a mark of the safety valve tells more than the mark, s. */
const READ_NEAR_S = 60;
/** A window is looked at so many times for the mean by flow. */
const LOOKS = 20;

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

/** Steam through an opening at a gauge pressure, against that at working pressure: as the absolute, and less below the critical ratio. */
function byFlow({ around, locomotive }: Sources): (barG: number) => number {
  const through = (barG: number) =>
    steamLeak(around.absolutePa(Math.max(barG, 0)), around.atmospherePa, 1).massKgPerS;
  const atWorking = through(locomotive.workingPressureBarG);
  return (barG) => through(barG) / atWorking;
}

/** Of leaks alone, which pass more at a higher pressure. */
export function byLeaks(points: readonly PressurePoint[], from: Sources, fromS: number, toS: number): LeftAt {
  const flow = byFlow(from);
  return weighed(fromS, toS, (atS) => {
    const barG = pressureAt(points, atS) ?? 0;
    return { barG, leaves: flow(barG) };
  });
}

export const meanByFlow = (...of: Parameters<typeof byLeaks>): number => byLeaks(...of).barG;

/**
 * Whoever drives by hand, as an engine with a grate must be, keeps the pace and takes as much at any pressure; of a small one left to
 * run with her regulator as it is set each opening passes less at a lower pressure: half-way between (our estimate).
 */
const LEFT_ALONE = 0.5;

/** At what gauge pressure steam left, bar: the mean by what left, and how far the pressures lie from it. */
export interface LeftAt {
  barG: number;
  sdBar: number;
}

/** The blower on at working pressure, as a part of what leaves under way (our estimate). */
const BLOWER = 0.12;

/** With what usually leaves there, as a part of what leaves under way in as long. */
export interface Draught extends LeftAt {
  usual: number;
}

/**
 * The draught of a window. Under way steam leaves at what is read then; at her valve all leaves that the fire makes, more by as much
 * as the valve usually takes of all. At rest steam leaves by leaks and blower, and once working pressure was met, from the pressure
 * at which her valve usually reseats, by that: what the fire makes at rest beyond what the surface loses.
 */
export function draughtsOf(
  from: Sources,
  points: readonly PressurePoint[],
): (fromS: number, toS: number) => Draught {
  const { timeline, locomotive } = from;
  const underWay = underWayStretches(timeline, from.phases);
  const readUnderWay = points.filter(([atS]) =>
    underWay.some(([startS, endS]) => atS >= startS && atS <= endS),
  );
  const blown = stretchesOf(timeline, "blower", "on", Number.POSITIVE_INFINITY);
  const lifted = stretchesOf(timeline, "valve", "lifts", Number.POSITIVE_INFINITY);
  const within = (these: readonly Stretch[], atS: number) =>
    these.some(([startS, endS]) => atS >= startS && atS < endS);
  const flow = byFlow(from);
  const reseatsBarG = USUAL.reseat * locomotive.workingPressureBarG;
  const valve = madeAtRest(locomotive.fuel);
  const alone = isSolid(locomotive.fuel) ? 0 : LEFT_ALONE;
  const atValve = 1 / (1 - unnotedValve(locomotive).usual);
  const workedS = points.find(([, barG]) => barG >= locomotive.workingPressureBarG)?.[0] ?? Infinity;
  return (fromS, toS) =>
    weighed(fromS, toS, (atS) => {
      if (within(underWay, atS)) {
        const barG = pressureAt(readUnderWay.length > 0 ? readUnderWay : points, atS) ?? 0;
        const engine = alone * flow(barG) + 1 - alone;
        return { barG, leaves: barG >= reseatsBarG ? atValve * engine : engine };
      }
      const barG = pressureAt(points, atS) ?? 0;
      const open = within(lifted, atS) || (atS >= workedS && barG >= reseatsBarG);
      const parts = LEAKS.usual + (within(blown, atS) ? BLOWER : 0) + (open ? valve : 0);
      return { barG, leaves: parts * flow(barG) };
    });
}

function weighed(
  fromS: number,
  toS: number,
  look: (atS: number) => { barG: number; leaves: number },
): Draught {
  const seen = Array.from({ length: LOOKS }, (_, i) => look(fromS + ((i + 0.5) / LOOKS) * (toS - fromS)));
  const all = seen.reduce((sum, { leaves }) => sum + leaves, 0);
  const mean = (value: (barG: number) => number) =>
    seen.reduce((sum, { barG, leaves }) => sum + value(barG) * (all > 0 ? leaves / all : 1 / LOOKS), 0);
  const barG = mean((one) => one);
  return { barG, sdBar: Math.sqrt(mean((one) => (one - barG) ** 2)), usual: all / LOOKS };
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
