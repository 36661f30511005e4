import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { alike } from "./alike.ts";

/** The same figure so many times in a row, over so long, while the fire was out or being raised, is no pressure. */
const READINGS = 5;
const FOR_S = 300;
/** Samples of a trace that repeat each other to the last digit. */
const SAMPLES = 120;
const STANDS_BAR = 0.1;
/** By then a fire that was lit has raised any boiler, s. */
const RAISED_WITHIN_S = 3600;

/** A dial, or a logger, that shows the same whatever the boiler does. */
export function stuckDialWarnings(
  from: Pick<Sources, "timeline"> & { fuel: Pick<Sources["fuel"], "fire"> },
): Warning[] {
  const { timeline, fuel } = from;
  const [litS, outS] = timeline.of("fire").length > 0 ? [fuel.fire[0]?.[0], fuel.fire.at(-1)?.[1]] : [];
  const stuck = alike(timeline.of("pressure"), ({ barG }) => barG).flatMap((same): Warning[] => {
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
  return [...stuck, ...stuckTraces(from)];
}

function stuckTraces(from: Pick<Sources, "timeline">): Warning[] {
  return from.timeline.traces
    .filter((trace) => trace.channel === "pressureBarG")
    .flatMap((trace): Warning[] => {
      let run = 0;
      for (const [i, value] of trace.values.entries()) {
        run = value !== null && value === trace.values[i - 1] && value > STANDS_BAR ? run + 1 : 0;
        if (run < SAMPLES || run * trace.everyS < FOR_S) continue;
        return [
          {
            code: "dial-stuck",
            text: `The logged pressure repeats ${value} bar to the last digit for ${Math.round(run * trace.everyS)} s before ${Math.round(trace.startS + i * trace.everyS)} s: is the logger stuck?`,
            entries: [],
          },
        ];
      }
      return [];
    });
}
