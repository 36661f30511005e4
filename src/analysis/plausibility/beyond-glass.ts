import { clock } from "../../quantity/clock.ts";
import { asRead } from "../../quantity/digits.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { levelsBeyondBoiler } from "../state/slips.ts";
import type { Question } from "./question.ts";

/** Levels that no glass on this boiler can show: below its lowest inside point, or above its top. */
export function beyondGlass({ asWritten, geometry, errors }: Sources) {
  const { below, above } = levelsBeyondBoiler(asWritten, errors, geometry);
  const wrong = [...below, ...above].sort((a, b) => a.atS - b.atS);
  const first = wrong[0];
  if (first === undefined) return [];
  const found: Question = { code: "level-beyond-boiler", entries: wrong.map((entry) => entry.id) };
  return [{ ...found, first, isBelow: below.includes(first) }];
}

export const beyondGlassWarnings = (from: Sources): Warning[] =>
  beyondGlass(from).map(({ code, entries, first, isBelow }) => ({
    code,
    text: `A level of ${asRead(first.mm)} mm at ${clock(first.atS)} is ${isBelow ? "below the bottom" : "above the top"} of the boiler as it is described${entries.length > 1 ? `, and so are ${entries.length - 1} more` : ""}: a slip, or the glass's zero is wrong. No figure goes by it.`,
    entries,
  }));
