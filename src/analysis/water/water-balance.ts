import type { Measured, Part } from "../../quantity/measured.ts";
import { addTimes, dot, dotSquares, quadratic, vectorOf } from "../../statistics/vector.ts";
import {
  type BalanceInput,
  type Combination,
  errorFactors,
  type Factor,
  recordedMoves,
} from "./balance-factors.ts";
import { condensed } from "./condense.ts";
import { strayCovariance } from "./demand-wander.ts";
import type { MassReading } from "./mass-reading.ts";
import { settled } from "./settled.ts";
import { STRAYS, type Stray, strayGrid } from "./stray-grid.ts";

/**
 * The water of a boiler against time, all readings weighed by their errors (generalised least squares).
 *
 *   reading = start - drawn(t) + moved(t) + pumped(t) + errors
 *   drawn(t) = steady rate of each phase x time + stray of the demand
 *
 * Reading errors are as declared, never smaller. Feed errors accumulate, those of one scale together. Size and
 * memory of the stray are not known: the answer is averaged over a grid of both, each weighed by how well it
 * explains the readings, so that few readings do not make a bold answer.
 */
export interface WaterBalance {
  fromS: number;
  toS: number;
  /** null where the readings do not fix it */
  estimate(wanted: Combination): Measured | null;
  /** the same without its errors, at a fraction of the cost; not asked whether the readings fix it */
  value(wanted: Combination): number;
  /** the stray that the readings make likeliest */
  likeliest: { rateGPerS: number; memoryS: number };
  meanRateGPerS: number;
}

/**
 * A figure that is left open by more than this part of its usual size, and by more than twice what the reading errors
 * make of it, is not fixed by the readings.
 */
const NOT_FIXED = 0.7;

/** With so many degrees of freedom Student's t is near enough to the normal. */
const MANY = 40;

/** @param strays the strays thought possible; a caller who knows better may say so */
export function waterBalance(input: BalanceInput, strays: readonly Stray[] = STRAYS): WaterBalance | null {
  const { readings } = input;
  if (readings.length < 2) return null;
  const [first, last] = [readings[0], readings.at(-1)] as [MassReading, MassReading];

  const baseline = (of: string) => {
    const reading = readings.find((one) => one.of === of);
    return reading === undefined ? 0 : reading.grams - recordedMoves(input, reading);
  };
  const base = { contents: baseline("contents"), "whole engine": baseline("whole engine") };
  const readY = vectorOf(
    readings,
    (reading) => reading.grams - recordedMoves(input, reading) - base[reading.of],
  );
  const rangeG = Math.max(...readY) - Math.min(...readY);
  const livelyS = (atS: number) => input.livelyS(atS) - input.livelyS(first.atS);
  const meanRateGPerS =
    Math.max(rangeG, 2 * Math.max(first.uGrams, last.uGrams)) / Math.max(1, livelyS(last.atS));
  const readNoise = vectorOf(readings, (reading) => Math.hypot(reading.uGrams, 1e-5 * rangeG, 1e-9) ** 2);
  const together = condensed(input, readNoise);
  const { noise } = together;
  const n = noise.length;
  const y = together.mean(readY);
  const lively = together.mean(vectorOf(readings, (reading) => livelyS(reading.atS)));
  const factors = errorFactors({ ...input, readings: settled(readings, readY) }, meanRateGPerS, rangeG).map(
    (factor) => ({
      ...factor,
      ofReadings: together.mean(factor.ofReadings),
    }),
  );
  for (const { usual = 0, ofReadings } of factors) addTimes(y, -usual, ofReadings);
  const unknowns = 1 + input.effects.filter(({ isError }) => !isError).length;
  // the size of the stray is itself told by no more than the readings beyond the unknowns
  const free = Math.max(3, readings.length - unknowns);
  const strayFreedom = free < MANY ? { df: free } : {};
  const { weighed, errorFactor } = strayGrid({ y, noise, factors, lively, meanRateGPerS, unknowns }, strays);
  const memories = [...new Set(weighed.map(({ memoryS }) => memoryS))];
  const likeliest = weighed.reduce((a, b) => (b.weight > a.weight ? b : a));

  return {
    fromS: first.atS,
    toS: last.atS,
    estimate,
    value: (wanted) => {
      const { known, strays, inCommon } = termsOf(wanted);
      const mean = weighed.reduce((sum, { weight, rateGPerS, memoryS, explained }) => {
        const strayed = rateGPerS ** 2 * dot((strays.get(memoryS) as UnitStray).withReadings, explained);
        return sum + weight * (strayed + dot(inCommon, explained));
      }, 0);
      return known + mean;
    },
    likeliest: { rateGPerS: likeliest.rateGPerS, memoryS: likeliest.memoryS },
    meanRateGPerS,
  };

  /** What a wanted figure is made of: each cause's share, what is known of it, the drawn, and its covariance with the readings. */
  function termsOf(wanted: Combination) {
    const own = factors.map((factor) => factor.ofWanted(wanted));
    const contents = wanted.contents ?? [];
    const thought = factors.reduce((total, { usual = 0 }, f) => total + usual * (own[f] ?? 0), 0);
    const known = contents.reduce(
      (total, [atS, coefficient]) => total + coefficient * (base.contents + recordedMoves(input, { atS })),
      thought + (wanted.pumpRate ?? 0) * input.pumpPrior.gPerS,
    );
    // moments of the drawn on the lively clock; what stands in the boiler lacks what was drawn
    const drawn = new Map<number, number>();
    for (const [atS, coefficient] of [...(wanted.drawn ?? []), ...contents.map(negated)]) {
      const moment = livelyS(atS);
      drawn.set(moment, (drawn.get(moment) ?? 0) + coefficient);
    }
    const inCommon = new Float64Array(n);
    factors.forEach((factor, f) => {
      addTimes(inCommon, own[f] ?? 0, factor.ofReadings);
    });
    const strays = new Map(memories.map((memoryS) => [memoryS, unitStrayOf([...drawn], lively, memoryS)]));
    return { own, known, inCommon, strays };
  }

  function estimate(wanted: Combination): Measured | null {
    const { own, known, inCommon, strays } = termsOf(wanted);
    const leftVariance = factors.map(() => 0);
    const leftSigned = factors.map(() => 0);
    let [mean, meanSquare, readingVariance, strayVariance] = [0, 0, 0, 0];
    for (const stray of weighed) {
      const variance = stray.rateGPerS ** 2;
      const { withReadings, own: ownStray } = strays.get(stray.memoryS) as UnitStray;
      const together = inCommon.slice();
      addTimes(together, variance, withReadings);
      const weights = stray.covariance.solve(together);
      const value = dot(weights, y);
      mean += stray.weight * value;
      meanSquare += stray.weight * value ** 2;
      readingVariance += stray.weight * dotSquares(weights, noise);
      factors.forEach((factor, f) => {
        const left = (own[f] ?? 0) - dot(weights, factor.ofReadings);
        leftVariance[f] = (leftVariance[f] ?? 0) + stray.weight * left ** 2;
        leftSigned[f] = (leftSigned[f] ?? 0) + stray.weight * left;
      });
      const explained = 2 * dot(weights, withReadings) - quadratic(stray.unitStray, weights);
      strayVariance += stray.weight * variance * (ownStray - explained);
    }
    // that the strays disagree is a doubt about the stray
    strayVariance = Math.max(0, strayVariance) + Math.max(0, meanSquare - mean ** 2);

    // what a pump may deliver is known beforehand, so a figure of nothing else is never left open
    const mayBeOpen = wanted.contents !== undefined || wanted.drawn !== undefined;
    let [left, usual] = [0, 0];
    factors.forEach(({ kind, timesUsual }, f) => {
      if (kind !== "prior") return;
      left += leftVariance[f] ?? 0;
      usual += ((own[f] ?? 0) / timesUsual) ** 2;
    });
    if (mayBeOpen && left > NOT_FIXED ** 2 * usual && left > 4 * readingVariance) return null;

    const parts: Part[] = [
      { name: "readings", u: Math.sqrt(readingVariance) * errorFactor },
      { name: "demand that was not steady", u: Math.sqrt(strayVariance) * errorFactor, ...strayFreedom },
      ...factors.map((factor, f) => partOf(factor, Math.sqrt(leftVariance[f] ?? 0), leftSigned[f] ?? 0)),
    ];
    return { value: known + mean, unit: wanted.unit, parts: parts.filter((part) => part.u !== 0) };
  }
}

type Moment = readonly [atS: number, coefficient: number];
type Moments = readonly Moment[];
const negated = ([atS, coefficient]: Moment): Moment => [atS, -coefficient];

/** Stray counted from the first reading; before it the other way round, and independent of what came after. */
function strayBetween(x: number, y: number, memoryS: number): number {
  return x < 0 !== y < 0 ? 0 : strayCovariance(Math.abs(x), Math.abs(y), memoryS);
}

/** For a rate of unit variance: the wanted figure's stray, and its covariance with each reading's, which lacks what was drawn. */
interface UnitStray {
  own: number;
  withReadings: Float64Array;
}

function unitStrayOf(drawn: Moments, lively: Float64Array, memoryS: number): UnitStray {
  const own = drawn.reduce((sum, [moment, times]) => sum + times * strayWith(drawn, moment, memoryS), 0);
  return { own, withReadings: vectorOf(lively, (x) => -strayWith(drawn, x, memoryS)) };
}

function strayWith(drawn: Moments, x: number, memoryS: number): number {
  let sum = 0;
  for (const one of drawn) sum += one[1] * strayBetween(one[0], x, memoryS);
  return sum;
}

function partOf(factor: Factor, u: number, signed: number): Part {
  if (factor.kind === "shared") return { name: factor.name, u: signed < 0 ? -u : u, source: factor.source };
  return { name: factor.name, u };
}
