import type { Timeline } from "../../logbook/timeline.ts";
import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { alike } from "./alike.ts";
import type { Question } from "./question.ts";

/** The same figure so many times in a row, over so long, while the fire was out or being raised, is no pressure. */
const READINGS = 5;
export const FOR_S = 300;
export const STANDS_BAR = 0.1;
/** By then a fire that was lit has raised any boiler, s. */
const RAISED_WITHIN_S = 3600;

interface Stuck extends Question {
  barG: number;
  fromS: number;
  toS: number;
  isOut: boolean;
}

/** A dial that shows the same whatever the boiler does. */
export function stuckDial(timeline: Timeline, fire: Sources["fuel"]["fire"]): Stuck[] {
  const [litS, outS] = timeline.of("fire").length > 0 ? [fire[0]?.[0], fire.at(-1)?.[1]] : [];
  return alike(timeline.of("pressure"), ({ barG }) => barG).flatMap((same): Stuck[] => {
    const [first] = same;
    const last = same.at(-1) ?? first;
    if (first.barG < STANDS_BAR || same.length < READINGS) return [];
    const coolingS = outS === undefined ? 0 : last.atS - Math.max(outS, first.atS);
    const lit = litS !== undefined && first.atS < litS && last.atS - litS < RAISED_WITHIN_S;
    const raisingS = lit ? last.atS - litS : 0;
    if (Math.max(coolingS, raisingS) < FOR_S) return [];
    return [
      {
        code: "dial-stuck",
        entries: same.map((entry) => entry.id),
        barG: first.barG,
        fromS: first.atS,
        toS: last.atS,
        isOut: coolingS >= FOR_S,
      },
    ];
  });
}

export const stuckDialWarnings = ({ timeline, fuel }: Sources): Warning[] =>
  stuckDial(timeline, fuel.fire).map(({ code, entries, barG, fromS, toS, isOut }) => ({
    code,
    text: `The dial showed ${barG} bar ${entries.length} times in a row, from ${clock(fromS)} to ${clock(toS)}, while ${
      isOut ? "the fire was out" : "the fire was lit"
    }: is the pointer stuck?`,
    entries,
  }));
