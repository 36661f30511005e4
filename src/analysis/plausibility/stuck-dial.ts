import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** The same figure so many times in a row, over so long, while the fire was out or being raised, is no pressure. */
const READINGS = 5;
const FOR_S = 300;
/** Samples of a trace that repeat each other to the last digit. */
const SAMPLES = 120;
const STANDS_BAR = 0.1;

/** A dial, or a logger, that shows the same whatever the boiler does. */
export function stuckDialWarnings(
  from: Pick<Sources, "timeline"> & { fuel: Pick<Sources["fuel"], "fire"> },
): Warning[] {
  const { timeline, fuel } = from;
  const readings = timeline.of("pressure");
  const recorded = timeline.of("fire").length > 0;
  const [litS, outS] = [fuel.fire[0]?.[0], fuel.fire.at(-1)?.[1]];
  const found: Warning[] = [];
  for (let start = 0; start < readings.length; ) {
    const first = readings[start];
    let end = start + 1;
    while (end < readings.length && readings[end]?.barG === first?.barG) end += 1;
    const same = readings.slice(start, end);
    const last = same.at(-1);
    start = end;
    if (first === undefined || last === undefined || first.barG < STANDS_BAR || same.length < READINGS)
      continue;
    const coolingS = recorded && outS !== undefined ? last.atS - Math.max(outS, first.atS) : 0;
    const raisingS =
      recorded && litS !== undefined && first.atS < litS && last.atS - litS < 3600 ? last.atS - litS : 0;
    if (Math.max(coolingS, raisingS) < FOR_S) continue;
    found.push({
      code: "dial-stuck",
      text: `The dial showed ${first.barG} bar ${same.length} times in a row, from ${Math.round(first.atS)} s to ${Math.round(last.atS)} s, while ${
        coolingS >= FOR_S ? "the fire was out" : "the fire was lit"
      }: is the pointer stuck?`,
      entries: same.map((entry) => entry.id),
    });
  }
  return [...found, ...stuckTraces(from)];
}

function stuckTraces(from: Pick<Sources, "timeline">): Warning[] {
  return from.timeline.traces
    .filter((trace) => trace.channel === "pressureBarG")
    .flatMap((trace): Warning[] => {
      let run = 0;
      for (let i = 1; i < trace.values.length; i++) {
        const value = trace.values[i] ?? null;
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
