import { overlapS } from "../../logbook/timeline.ts";
import { waterState } from "../../steam/region1.ts";
import type { Sources } from "../sources.ts";
import { type Circumstances, ICE_POINT_K } from "../state/circumstances.ts";
import { sharedSource } from "../state/instruments.ts";
import { common, lengthS, type Stretch } from "../state/phases.ts";
import { bypassShut, pumpingStretches } from "./demand-effects.ts";
import type { MassReading } from "./mass-reading.ts";

/** One quantity of water put in (positive) or let out (negative), by the hand of the driver. */
export interface WaterMove {
  atS: number;
  /** place in the log, to tell what came first within one second */
  order: number;
  grams: number;
  /** when it flowed, evenly; null where it went in at once, at atS */
  over: readonly Stretch[] | null;
  /** counts as feed in the totals (a filling and a blow-down do not) */
  isFeed: boolean;
  /** not from the engine's own tank, or let out of her: a weighing of the engine sees it */
  fromOutside: boolean;
  /** relative standard uncertainty of its scale, and the name under which that error is shared */
  scaleRelative: number;
  source: string;
  sourceName: string;
  /** standard uncertainty of this one measure alone */
  uGrams: number;
  /** standard uncertainty, with half of it made, of how much had flowed by then */
  uTimingG: number;
  /** by hand: it went in during the seconds before it was written down */
  byHand: boolean;
}

/** Where it is not known when she ran with the by-pass shut, a pump's feed may have flowed early or late by this part of it (our estimate). */
const TIMING_UNKNOWN = 0.25;

/** In so much of what by her laps is a stop she may have run, before the first lap of a run or after the last (our estimate). */
const PERHAPS_RAN = 1 / 3;

/**
 * First filling of an empty boiler fixes the mass; later ones are water moves, as all are to an engine weighed before.
 * @param unmeasuredGPerS of a pump nobody measured: in what by her laps was a stop, with the by-pass shut, it may have fed so much
 */
export function waterMoves(from: Sources, massKnownFromOrder: number, unmeasuredGPerS = 0): WaterMove[] {
  const { timeline, locomotive, around, errors, phases } = from;
  const gramsPerMl = densityGPerMl(around.feedC, around);
  const uVolumeG = errors.volumeReadingMl * gramsPerMl;
  const pump = locomotive.handPump;
  const lastDrainOrder = timeline.entries.findLastIndex((entry) => entry.kind === "drained");

  const recorded = pumpingStretches(timeline, phases);
  const running = phases
    .filter((phase) => phase.name === "running")
    .map((phase): Stretch => [phase.fromS, phase.toS]);
  const byLaps =
    timeline.of("regulator").length === 0 && phases.some((one) => one.name === "running" && one.inferred);
  const shut = bypassShut(timeline) ?? [];
  /**
   * An axle pump's feed is written down when it is read, and flowed since it was read before: under way as far as that is
   * known, else at any time between, for she ran though nothing says when. By laps alone she may have run on in all the time
   * that the by-pass was shut.
   */
  const pumpedOver = (atS: number): Pick<WaterMove, "over"> & { doubt: number } => {
    const sinceS = timeline.of("feed").findLast((feed) => feed.by === "axle-pump" && feed.atS < atS)?.atS;
    const within = (list: readonly Stretch[]) =>
      list.map(([a, b]): Stretch => [Math.max(a, sinceS ?? a), Math.min(b, atS)]).filter(([a, b]) => b > a);
    const [pumping, ran] = [within(recorded ?? []), within(running)];
    const unsure = byLaps ? 1 - lengthS(pumping) / lengthS(within(shut)) : 0;
    if (pumping.length > 0) return { over: pumping, doubt: Math.min(TIMING_UNKNOWN, unsure) };
    return { over: ran.length > 0 ? ran : [[sinceS ?? atS - 60, atS]], doubt: TIMING_UNKNOWN };
  };

  const byMeasure = {
    scaleRelative: errors.feedRelative,
    source: sharedSource.feedScale(locomotive),
    sourceName: "scale of the feed measure",
  };
  const scaleOf = (by: string) =>
    by === "hand-pump" && pump?.uMlPerStroke !== undefined
      ? {
          scaleRelative: pump.uMlPerStroke / pump.mlPerStroke,
          source: sharedSource.handPump(locomotive),
          sourceName: "hand pump's ml a stroke",
        }
      : byMeasure;
  const poured = (atS: number, order: number, ml: number): WaterMove => ({
    atS,
    order,
    grams: ml * gramsPerMl,
    over: null,
    isFeed: false,
    fromOutside: true,
    ...byMeasure,
    uGrams: uVolumeG,
    uTimingG: 0,
    byHand: true,
  });

  const weighedFromOrder = timeline.entries.findIndex((entry) => entry.kind === "weight");
  const isMove = (order: number) =>
    order > massKnownFromOrder || (weighedFromOrder >= 0 && order > weighedFromOrder);

  const moves: WaterMove[] = [];
  timeline.entries.forEach((entry, order) => {
    if (entry.kind === "blowdown") moves.push(poured(entry.atS, order, -entry.ml));
    if (entry.kind === "fill" && isMove(order)) moves.push(poured(entry.atS, order, entry.ml));
    if (entry.kind === "drained" && order < lastDrainOrder) moves.push(poured(entry.atS, order, -entry.ml));
    if (entry.kind !== "feed") return;
    const byAxlePump = entry.by === "axle-pump";
    const byHand = entry.by === "bottle" || entry.by === "hand-pump";
    const pumped = byAxlePump ? pumpedOver(entry.atS) : null;
    const uTiming = byHand ? 0.5 : (pumped?.doubt ?? 0);
    moves.push({
      ...poured(entry.atS, order, entry.ml),
      ...scaleOf(entry.by),
      over: pumped === null ? null : pumped.over,
      isFeed: true,
      fromOutside: entry.by === "bottle" || locomotive.waterTankMl === undefined,
      uGrams: entry.by === "hand-pump" ? 0 : uVolumeG,
      uTimingG: uTiming * entry.ml * gramsPerMl,
      byHand,
    });
  });
  if (unmeasuredGPerS > 0 && byLaps) {
    const stood = phases.filter(({ name, inferred }) => name === "standing" && inferred);
    for (const [fromS, toS] of common(
      shut,
      stood.map(({ fromS, toS }): Stretch => [fromS, toS]),
    ))
      moves.push({
        ...poured(toS, Number.POSITIVE_INFINITY, 0),
        over: [[fromS, toS]],
        isFeed: true,
        fromOutside: false,
        uGrams: PERHAPS_RAN * unmeasuredGPerS * (toS - fromS),
        byHand: false,
      });
  }
  return moves;
}

/** Feeding by hand takes about so long, and is written down when done, s. */
const HANDLING_S = 40;

/**
 * A reading written down so shortly before a feeding by hand, s (our choice), is taken as read with half of it in, or none,
 * or all: what feeds for half a minute is written down when done, and two things so near are written in either order.
 */
export const HURRY_S = 5;

/**
 * Readings taken while a hand was feeding may have seen part of it: their own error grows by half of what was under way.
 * Of a feed written down in the next few seconds the doubt is the feed's own, in common to all readings in it.
 */
export function blurredByFeeding(
  readings: readonly MassReading[],
  moves: readonly WaterMove[],
): MassReading[] {
  const byHand = moves.filter((move) => move.byHand);
  return readings.map((reading) => {
    const underWay = byHand
      .filter(({ atS }) => atS > reading.atS && atS - reading.atS < HANDLING_S)
      .filter((move) => madeBy(move, reading) === 0)
      .map(({ atS, grams }) => 0.5 * grams * (1 - (atS - reading.atS) / HANDLING_S));
    return underWay.length === 0 ? reading : { ...reading, uGrams: Math.hypot(reading.uGrams, ...underWay) };
  });
}

/**
 * The part of a move that had been made by a moment: 0 to 1. Within one second the place in the log tells, but half of a
 * feeding by hand is taken as made by a reading of the glass or a weighing just before it.
 */
export function madeBy(move: WaterMove, moment: { atS: number; order?: number; poured?: true }): number {
  if (move.over !== null) {
    const all = overlapS(move.over, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
    return overlapS(move.over, Number.NEGATIVE_INFINITY, moment.atS) / all;
  }
  if (moment.order === undefined) return move.atS <= moment.atS ? 1 : 0;
  if (move.order <= moment.order) return 1;
  const hurried = move.byHand && move.isFeed && moment.poured === undefined;
  return hurried && move.atS - moment.atS <= HURRY_S ? 0.5 : 0;
}

/** What a doubt of how much had flowed by a reading is called. */
export const timingName = ({ over }: WaterMove): string =>
  over === null ? "whether the water was read before the feed or after" : "when the pump fed";

/** How far more or less than the part made may have flowed by then, g: most with half of it made, nothing at the ends. */
export const strayOfTiming = (move: WaterMove, made: number): number => 4 * move.uTimingG * made * (1 - made);

/** Density of cold water at the given temperature and the pressure of the air, g/ml. */
export const densityGPerMl = (celsius: number, around: Circumstances): number =>
  1e-3 / waterState(Math.min(celsius + ICE_POINT_K, around.boilingK(0)), around.atmospherePa).volumeM3PerKg;
