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
  const letOut = input.moves.some((move) => move.grams < 0);
  const readings = input.readings.filter((reading) => reading.of === "contents");
  const found: Warning[] = [];
  const [only, second] = readings;
  // of two readings either may be the one misread, and what stands in the boiler grew all the same
  if (readings.length === 2 && only !== undefined && second !== undefined && risen(only, second, input))
    return [warningOf(from, only, second)];
  for (let i = 2; i < readings.length; i++) {
    const now = readings[i];
    const [a, b] = [readings[i - 2], readings[i - 1]];
    if (now === undefined || a === undefined || b === undefined) continue;
    // without a blow-down nothing rises more than the readings themselves
    if (!letOut && now.grams - Math.max(a.grams, b.grams) <= SLACK_PART * now.grams) continue;
    // both readings before must lie lower: one of them alone may be the one misread
    if (risen(a, now, input) && risen(b, now, input)) found.push(warningOf(from, b, now));
  }
  const first = found[0];
  if (first === undefined) return [];
  return [{ ...first, entries: [...new Set(found.flatMap((one) => one.entries))] }];
}

function risen(before: MassReading, now: MassReading, input: BalanceInput): boolean {
  const soon = { atS: now.atS + WRITTEN_LATE_S };
  const put = recordedMoves(input, soon) - recordedMoves(input, before);
  const rise = now.grams - before.grams - put;
  const shared = now.shared.map((part) => {
    const same = before.shared.find((other) => other.source === part.source);
    return part.uGrams - (same?.uGrams ?? 0);
  });
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
    return entry !== undefined && entry.atS === atS && MASS_KINDS.includes(entry.kind) ? [entry.id] : [];
  });
