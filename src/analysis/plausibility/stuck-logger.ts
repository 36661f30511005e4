import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { FOR_S, STANDS_BAR } from "./stuck-dial.ts";

/** Samples that repeat each other to the last digit. */
const SAMPLES = 120;

/** A logger that shows the same to the last digit whatever the boiler does. */
export function stuckLoggerWarnings({ timeline }: Pick<Sources, "timeline">): Warning[] {
  return timeline.traces
    .filter((trace) => trace.channel === "pressureBarG")
    .flatMap((trace): Warning[] => {
      let run = 0;
      for (const [i, value] of trace.values.entries()) {
        run = value === trace.values[i - 1] && (value ?? 0) > STANDS_BAR ? run + 1 : 0;
        if (run < SAMPLES || run * trace.everyS < FOR_S) continue;
        return [
          {
            code: "dial-stuck",
            text: `The logged pressure repeats ${value} bar to the last digit for ${Math.round(run * trace.everyS)} s before ${clock(trace.startS + i * trace.everyS)}: is the logger stuck?`,
            entries: [],
          },
        ];
      }
      return [];
    });
}
