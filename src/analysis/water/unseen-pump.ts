import { overlapS } from "../../logbook/timeline.ts";
import { interval, type Measured } from "../../quantity/measured.ts";
import { dryDemandOf } from "../engine/dry-demand.ts";
import type { Sources } from "../sources.ts";
import { underWayStretches } from "../state/phases.ts";
import type { BalanceInput, Combination } from "./balance-factors.ts";
import { fedUntil } from "./topping-up.ts";

/** What an axle pump may have fed of which nothing was written: anything between nothing and so much a second under way. */
export interface UnseenPump {
  mostGPerS: number;
  underWay: readonly (readonly [fromS: number, toS: number])[];
}

/** A rise of the water beyond so many of the readings' own errors is no error. */
const BEYOND = 4;
/** What was put in by other means is in doubt by so much of it (our choice). */
const FEED_RELATIVE = 0.05;

/** Of the steam so much condenses in the cylinders or leaks past at the least (common practice of small engines: a fifth to a half). */
const CONDENSES = 0.15;

/** Whether neither the axle pump's feed nor its by-pass was written, of an engine that has one. */
export const pumpUnwritten = ({ timeline, locomotive }: Sources): boolean =>
  locomotive.axlePump !== undefined &&
  timeline.of("bypass").length === 0 &&
  timeline.of("feed").every(({ by }) => by !== "axle-pump");

/**
 * Whether such a pump must have fed: while she ran the water fell by less than the cylinders take at the least, or rose,
 * with nothing else put in. And whether it may well have: over all that she ran it fell by less than the cylinders usually take,
 * were nothing to condense, or where they are not known by less than a usual pump feeds.
 * @param turnsPerS of the driving wheel under way
 */
export function fedUnseen(from: Sources, input: BalanceInput, turnsPerS: number): boolean {
  if (!pumpUnwritten(from)) return false;
  const underWay = underWayStretches(from.timeline, from.phases);
  const dry = dryDemandOf(from);
  const usualGPerS = dry.value === null ? 0 : (dry.value * turnsPerS) / (1 - CONDENSES);
  if (usualGPerS > 0 && fellBy(input, underWay, usualGPerS)) return true;
  const leastGPerTurn = dry.value === null ? 0 : interval(dry)[0];
  return underWay.some(([fromS, toS]) => {
    const read = input.readings
      .filter(({ atS, of, poured }) => of === "contents" && poured !== true && atS >= fromS && atS <= toS)
      .map((reading) => {
        const turns = from.counted.turnsIn([[fromS, reading.atS]])?.value ?? 0;
        return { ...fedUntil(input, reading), drawnAtLeast: leastGPerTurn * turns };
      });
    return read.some((before, i) =>
      read.slice(i + 1).some((now) => {
        const put = now.putInAtMost - before.putIn;
        const gained = now.reading.grams - before.reading.grams - put;
        const least = now.drawnAtLeast - before.drawnAtLeast;
        const doubt = Math.hypot(before.reading.uGrams, now.reading.uGrams, FEED_RELATIVE * put);
        return gained + least > BEYOND * doubt || (before === read[0] && now === read.at(-1) && hardlyFell());

        function hardlyFell(): boolean {
          const s = now.reading.atS - before.reading.atS;
          return from.locomotive.cylinders === undefined && s > 0 && -gained < input.pumpPrior.gPerS * s;
        }
      }),
    );
  });
}

/** Whether, from the last reading before she ran to the first after it, less was drawn than so much a second under way. */
function fellBy(input: BalanceInput, underWay: UnseenPump["underWay"], gPerS: number): boolean {
  const [startS, endS] = [underWay[0]?.[0] ?? 0, underWay.at(-1)?.[1] ?? 0];
  const told = input.readings.filter(({ of }) => of === "contents");
  const before = told.findLast(({ atS }) => atS <= startS) ?? told[0];
  const after = told.find(({ atS }) => atS >= endS) ?? told.at(-1);
  if (before === undefined || after === undefined) return false;
  const ranS = overlapS(underWay, before.atS, after.atS);
  const putIn = fedUntil(input, after).putInAtMost - fedUntil(input, before).putIn;
  return ranS > 0 && before.grams + putIn - after.grams < gPerS * ranS;
}

/** A figure of what was drawn with that added: it lies in the middle, and its range takes in nothing and all. */
export function withUnseen(
  figure: Measured,
  { mostGPerS, underWay }: UnseenPump,
  drawn: NonNullable<Combination["drawn"]>,
): Measured {
  const most = drawn.reduce(
    (sum, [atS, coefficient]) =>
      sum + coefficient * mostGPerS * overlapS(underWay, Number.NEGATIVE_INFINITY, atS),
    0,
  );
  if (most === 0) return figure;
  const [low, high] = interval(figure);
  return {
    ...figure,
    value: figure.value + most / 2,
    parts: [
      ...figure.parts,
      { name: "axle pump, of which nothing was written", u: Math.abs(most) / Math.sqrt(12) },
    ],
    range95: [low + Math.min(0, most), high + Math.max(0, most)],
  };
}
