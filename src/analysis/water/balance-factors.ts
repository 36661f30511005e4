import { addTimes, vectorOf } from "../../statistics/vector.ts";
import type { DemandEffect } from "./demand-effects.ts";
import { madeBy, strayOfTiming, timingName, type WaterMove } from "./feed-course.ts";
import type { MassReading } from "./mass-reading.ts";

/** A linear combination of what stands in the boiler, at moments, and of what was drawn until then. */
export interface Combination {
  unit: string;
  /** coefficient x water and steam in the boiler at the moment, g */
  contents?: readonly (readonly [atS: number, coefficient: number])[];
  /** coefficient x drawn up to the moment, g */
  drawn?: readonly (readonly [atS: number, coefficient: number])[];
  /** coefficient x delivery of the unmeasured pump, g/s of its working */
  pumpRate?: number;
}

/** The filling that comes first, and two readings after it by which there was water in the boiler before. */
export interface ToppingUp {
  filling: MassReading;
  readings: readonly [MassReading, MassReading];
}

export interface BalanceInput {
  readings: readonly MassReading[];
  moves: readonly WaterMove[];
  effects: readonly DemandEffect[];
  /** seconds on a clock that runs as fast as the demand is lively (1 while running), by which its stray grows */
  livelyS: (atS: number) => number;
  /** seconds until a moment in which a pump delivered that nobody measured; null where there was none */
  pumpingS: ((atS: number) => number) | null;
  /** what that pump may deliver: expected, and standard uncertainty, g/s */
  pumpPrior: { gPerS: number; uGPerS: number };
  /** the first filling, where it went on top of water that was not written down: it is none of the readings */
  toppingUp?: ToppingUp;
}

/** One independent cause of error, of unit variance: what it does to each reading and to the figure wanted. */
export interface Factor {
  /** prior: not an error but a thing unknown beforehand, which the readings must fix */
  kind: "random" | "shared" | "prior";
  name: string;
  source: string;
  ofReadings: Float64Array;
  ofWanted(wanted: Combination): number;
  /** what it is thought to be beforehand, in its own standard deviations; 0 if absent */
  usual?: number;
  /** for a prior: how many times a usual size it was taken, so as to say little */
  timesUsual: number;
}

/** A moment of the log: within one second, the place in the log tells what came first. */
interface Moment {
  atS: number;
  order?: number;
  of?: MassReading["of"];
  poured?: true;
}

/** The part of a move that tells at a moment; a weighing does not see what only changes its place on the engine. */
const toldAt = (move: WaterMove, moment: Moment): number =>
  moment.of === "whole engine" && !move.fromOutside ? 0 : madeBy(move, moment);

function summed(
  input: Pick<BalanceInput, "moves">,
  moment: Moment,
  measure: (move: WaterMove) => number,
): number {
  let total = 0;
  for (const move of input.moves) total += measure(move) * toldAt(move, moment);
  return total;
}

const pumpingS = (input: Pick<BalanceInput, "pumpingS">, moment: Moment): number =>
  moment.of === "whole engine" ? 0 : (input.pumpingS?.(moment.atS) ?? 0);

/** Water moved until a moment as it was recorded, with what an unmeasured pump is expected to have delivered, g. */
export const recordedMoves = (
  input: Pick<BalanceInput, "moves" | "pumpingS" | "pumpPrior">,
  moment: Moment,
): number => summed(input, moment, (move) => move.grams) + pumpingS(input, moment) * input.pumpPrior.gPerS;

const byTime = (atS: number): number => atS;

/** How long an effect has held until a moment by its own clock, s. */
function goneOn({ within, clock = byTime }: DemandEffect, untilS: number): number {
  let total = 0;
  for (const [fromS, toS] of within) if (untilS > fromS) total += clock(Math.min(toS, untilS)) - clock(fromS);
  return total;
}

/**
 * All causes of error but the reading errors and the stray of the demand.
 * @param meanRateGPerS, rangeG the size of what is drawn, to scale what "unknown beforehand" means
 */
export function errorFactors(input: BalanceInput, meanRateGPerS: number, rangeG: number): Factor[] {
  const { readings, effects } = input;
  const startS = readings[0]?.atS ?? 0;
  const overReadings = (value: (reading: MassReading) => number) => vectorOf(readings, value);
  const overContents = (wanted: Combination, value: (moment: Moment) => number) =>
    (wanted.contents ?? []).reduce((sum, [atS, coefficient]) => sum + coefficient * value({ atS }), 0);
  const drawnOf = (wanted: Combination, value: (atS: number) => number) =>
    (wanted.drawn ?? []).reduce((sum, [atS, coefficient]) => sum + coefficient * value(atS), 0) -
    overContents(wanted, ({ atS }) => value(atS));

  const factors: Factor[] = [];
  for (const of of ["contents", "whole engine"] as const) {
    const uStart = 10 * Math.max(...readings.map((reading) => reading.uGrams)) + rangeG;
    factors.push({
      kind: "prior",
      timesUsual: 1,
      name: "few readings",
      source: "",
      ofReadings: overReadings((reading) => (reading.of === of ? uStart : 0)),
      ofWanted: (wanted) => (of === "contents" ? overContents(wanted, () => uStart) : 0),
    });
  }
  for (const effect of effects) {
    const uRate = effect.prior * meanRateGPerS;
    const before = goneOn(effect, startS);
    const drawnBy = (atS: number) => uRate * (goneOn(effect, atS) - before);
    factors.push({
      kind: effect.isError ? "random" : "prior",
      timesUsual: effect.prior,
      usual: (effect.usual ?? 0) / effect.prior,
      name: effect.isError ? effect.name : "few readings",
      source: "",
      ofReadings: overReadings((reading) => -drawnBy(reading.atS)),
      ofWanted: (wanted) => drawnOf(wanted, drawnBy),
    });
  }
  if (input.pumpingS !== null) {
    const u = input.pumpPrior.uGPerS;
    factors.push({
      kind: "random",
      timesUsual: 1,
      name: "delivery of the axle pump",
      source: "",
      ofReadings: overReadings((reading) => u * pumpingS(input, reading)),
      ofWanted: (wanted) =>
        u * (overContents(wanted, (moment) => pumpingS(input, moment)) + (wanted.pumpRate ?? 0)),
    });
  }
  const told = new Map(
    input.moves.map((move) => [move, overReadings((reading) => toldAt(move, reading))] as const),
  );
  for (const source of new Set(input.moves.map((move) => move.source))) {
    const scale = (move: WaterMove) => (move.source === source ? move.grams * move.scaleRelative : 0);
    const ofReadings = new Float64Array(readings.length);
    for (const [move, parts] of told) addTimes(ofReadings, scale(move), parts);
    factors.push({
      kind: "shared",
      timesUsual: 1,
      name: input.moves.find((move) => move.source === source)?.sourceName ?? source,
      source,
      ofReadings,
      ofWanted: (wanted) => overContents(wanted, (moment) => summed(input, moment, scale)),
    });
  }
  const ofMove = (name: string, move: WaterMove, error: (made: number) => number): Factor => ({
    kind: "random",
    timesUsual: 1,
    name,
    source: "",
    ofReadings: vectorOf(told.get(move) ?? [], error),
    ofWanted: (wanted) => overContents(wanted, (moment) => error(toldAt(move, moment))),
  });
  for (const move of input.moves) {
    if (move.uGrams !== 0) factors.push(ofMove("each measure of feed", move, (made) => move.uGrams * made));
  }
  for (const [move, parts] of told) {
    if (move.uTimingG !== 0 && parts.some((made) => made > 0 && made < 1))
      factors.push(ofMove(timingName(move), move, (made) => strayOfTiming(move, made)));
  }
  const sharedByReadings = new Map(
    readings.flatMap((reading) => reading.shared.map((part) => [part.source, part.name] as const)),
  );
  for (const [source, name] of sharedByReadings) {
    factors.push({
      kind: "shared",
      timesUsual: 1,
      name,
      source,
      ofReadings: overReadings(
        (reading) => reading.shared.find((part) => part.source === source)?.uGrams ?? 0,
      ),
      ofWanted: () => 0,
    });
  }
  return factors;
}
