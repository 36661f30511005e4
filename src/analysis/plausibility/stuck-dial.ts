import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { alike } from "./alike.ts";

/** The same figure so many times in a row, over so long, while the fire was out or being raised, is no pressure. */
const READINGS = 5;
export const FOR_S = 300;
export const STANDS_BAR = 0.1;
/** By then a fire that was lit has raised any boiler, s. */
const RAISED_WITHIN_S = 3600;

/** A dial that shows the same whatever the boiler does. */
export function stuckDialWarnings(
  from: Pick<Sources, "timeline"> & { fuel: Pick<Sources["fuel"], "fire"> },
): Warning[] {
  const { timeline, fuel } = from;
  const [litS, outS] = timeline.of("fire").length > 0 ? [fuel.fire[0]?.[0], fuel.fire.at(-1)?.[1]] : [];
  return alike(timeline.of("pressure"), ({ barG }) => barG).flatMap((same): Warning[] => {
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
        text: `The dial showed ${first.barG} bar ${same.length} times in a row, from ${Math.round(first.atS)} s to ${Math.round(last.atS)} s, while ${
          coolingS >= FOR_S ? "the fire was out" : "the fire was lit"
        }: is the pointer stuck?`,
        entries: same.map((entry) => entry.id),
      },
    ];
  });
}
