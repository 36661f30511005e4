import { asRead } from "../../quantity/digits.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { levelsBeyondBoiler } from "../state/slips.ts";

/** Levels that no glass on this boiler can show: below its lowest inside point, or above its top. */
export function beyondGlassWarnings({ asWritten, geometry, errors }: Sources): Warning[] {
  const { below, above } = levelsBeyondBoiler(asWritten, errors, geometry);
  const wrong = [...below, ...above].sort((a, b) => a.atS - b.atS);
  const first = wrong[0];
  if (first === undefined) return [];
  return [
    {
      code: "level-beyond-boiler",
      text: `A level of ${asRead(first.mm)} mm at ${Math.round(first.atS)} s is ${below.includes(first) ? "below the bottom" : "above the top"} of the boiler as it is described${wrong.length > 1 ? `, and so are ${wrong.length - 1} more` : ""}: a slip, or the glass's zero is wrong. No figure goes by it.`,
      entries: wrong.map((entry) => entry.id),
    },
  ];
}
