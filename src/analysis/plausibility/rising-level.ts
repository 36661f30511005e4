import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import type { MassReading } from "../water/mass-reading.ts";
import { fedUntil, grew } from "../water/topping-up.ts";
import type { Water } from "../water/water.ts";
import type { Question } from "./question.ts";

const MASS_KINDS = ["level", "weight", "fill", "drained"];

interface Rise extends Question {
  before: MassReading;
  now: MassReading;
}

/**
 * Water in the boiler that grew though nothing was put in. The readings are masses, with the swell of hot water taken
 * out of them already, so that a rise in them is beyond swell.
 */
export function levelsRisen(from: Sources, { input }: Pick<Water, "input">): Rise[] {
  if (input.pumpingS !== null) return [];
  const readings = input.readings.filter((reading) => reading.of === "contents");
  const letOutG = input.moves.reduce((sum, { grams }) => sum + Math.min(0, grams), 0);
  const grown = (before: MassReading, now: MassReading): boolean =>
    now.grams - before.grams > letOutG && grew(fedUntil(input, before), fedUntil(input, now));
  // of two readings either may be the one misread, and what stands in the boiler grew all the same; of more, both before
  // must lie lower, for one of them alone may be the one misread
  const found = readings.slice(1).flatMap((now, i): Rise[] => {
    const [before, last] = [readings[i - 1], readings[i] as MassReading];
    const alone = before === undefined ? readings.length > 2 : !grown(before, now);
    return alone || !grown(last, now) ? [] : [riseOf(from, last, now)];
  });
  const first = found[0];
  if (first === undefined) return [];
  return [{ ...first, entries: [...new Set(found.flatMap((one) => one.entries))] }];
}

const riseOf = (from: Sources, before: MassReading, now: MassReading): Rise => ({
  code: "level-rising",
  entries: entriesOf(from, [before, now]),
  before,
  now,
});

export const risingLevelWarnings = (from: Sources, water: Pick<Water, "input">): Warning[] =>
  levelsRisen(from, water).map(({ code, entries, before, now }) => ({
    code,
    text: `The water grew by about ${Math.round(now.grams - before.grams)} g between ${clock(before.atS)} and ${clock(now.atS)}, beyond the swell of hot water and what was fed: a feed is missing, or a reading is wrong.`,
    entries,
  }));

/** A filling that cannot be all that stood in the boiler: the glass is believed. */
export function filledOnTop(from: Sources, { input }: Pick<Water, "input">): Question[] {
  if (input.toppingUp === undefined) return [];
  const { filling, readings } = input.toppingUp;
  return [{ code: "filled-on-top", entries: entriesOf(from, [filling, ...readings]) }];
}

export function toppingUpWarnings(from: Sources, water: Pick<Water, "input">): Warning[] {
  if (water.input.toppingUp === undefined) return [];
  const { filling, readings } = water.input.toppingUp;
  const [first, second] = readings;
  return filledOnTop(from, water).map((found) => ({
    ...found,
    text: `By the readings at ${clock(first.atS)} and ${clock(second.atS)} about ${Math.round(first.grams - filling.grams)} g more stood in the boiler than was filled at ${clock(filling.atS)}: it is taken as filled on top of water that was in already. If she was empty, the filling or the readings are wrong.`,
  }));
}

/** The entries that readings were made of; a logger's samples have none. */
export const entriesOf = ({ timeline }: Sources, readings: readonly MassReading[]): string[] =>
  readings.flatMap(({ order, atS }) => {
    const entry = timeline.entries[order];
    return entry?.atS === atS && MASS_KINDS.includes(entry.kind) ? [entry.id] : [];
  });
