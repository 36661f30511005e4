import { type BalanceInput, recordedMoves } from "../balance-factors.ts";
import type { MassReading } from "../mass-readings.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import type { Water } from "../water.ts";

/** A rise beyond so many of its standard uncertainty is no error of reading. */
const BEYOND = 5;
/** A boiler that comes to the boil, or loses its fire, throws its level about: left out, as part of its contents. */
const SLACK_PART = 0.02;
const MASS_KINDS = ["level", "weight", "fill", "drained"];
/** A feed is written down when it is done: one within so many seconds after a reading may have been seen by it. */
const WRITTEN_LATE_S = 90;

/**
 * Water in the boiler that grew though nothing was put in. The readings are masses, with the swell of hot water taken
 * out of them already, so that a rise in them is beyond swell.
 */
export function risingLevelWarnings(from: Sources, { input }: Pick<Water, "input">): Warning[] {
  if (input.pumpingS !== null) return [];
  const readings = input.readings.filter((reading) => reading.of === "contents");
  // of two readings either may be the one misread, and what stands in the boiler grew all the same; of more, both before
  // must lie lower, for one of them alone may be the one misread
  const found = readings.slice(1).flatMap((now, i): Warning[] => {
    const before = readings.slice(Math.max(0, i - 1), i + 1);
    const enough = before.length === 2 || readings.length === 2;
    return enough && before.every((one) => risen(one, now, input))
      ? [warningOf(from, before.at(-1) as MassReading, now)]
      : [];
  });
  const first = found[0];
  if (first === undefined) return [];
  return [{ ...first, entries: [...new Set(found.flatMap((one) => one.entries))] }];
}

function risen(before: MassReading, now: MassReading, input: BalanceInput): boolean {
  const soon = { atS: now.atS + WRITTEN_LATE_S };
  // what was let out after a reading makes no rise of it
  const put = Math.max(recordedMoves(input, now), recordedMoves(input, soon)) - recordedMoves(input, before);
  const rise = now.grams - before.grams - put;
  const shared = now.shared.map(({ source, uGrams }) =>
    before.shared.reduce((left, other) => (other.source === source ? left - other.uGrams : left), uGrams),
  );
  const u = Math.hypot(before.uGrams, now.uGrams, ...shared, 0.03 * put);
  return rise > BEYOND * u + SLACK_PART * now.grams;
}

function warningOf(from: Sources, before: MassReading, now: MassReading): Warning {
  return {
    code: "level-rising",
    text: `The water grew by about ${Math.round(now.grams - before.grams)} g between ${Math.round(before.atS)} s and ${Math.round(now.atS)} s, beyond the swell of hot water and what was fed: a feed is missing, or a reading is wrong.`,
    entries: entriesOf(from, [before, now]),
  };
}

/** The entries that readings were made of; a logger's samples have none. */
export const entriesOf = ({ timeline }: Sources, readings: readonly MassReading[]): string[] =>
  readings.flatMap(({ order, atS }) => {
    const entry = timeline.entries[order];
    return entry?.atS === atS && MASS_KINDS.includes(entry.kind) ? [entry.id] : [];
  });
