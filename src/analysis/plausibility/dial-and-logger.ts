import { coverageFactor } from "../../statistics/student-t.ts";
import type { Offset } from "../pressure/offset.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** Fewer pairs than this may be one slip. */
const FEWEST = 3;
/** A difference is only spoken of where chance alone would make it in fewer than one of a hundred steamings. */
const SURE = 0.99;

/** Hand readings and a logger that differ by more than their errors let them: the difference, with its 95 % range. */
export function dialAndLoggerWarnings(from: Sources): Warning[] {
  const found: Warning[] = [];
  const judge = (offset: Offset | null, code: string, [read, logger]: [string, string], unit: string) => {
    if (offset === null || offset.entries.length < FEWEST) return;
    if (Math.abs(offset.value) <= coverageFactor(SURE, offset.df) * offset.u) return;
    const half = coverageFactor(0.95, offset.df) * offset.u;
    const by = Math.abs(offset.value);
    const side = offset.value > 0 ? "above" : "below";
    found.push({
      code,
      text: `${read} stood ${by.toFixed(2)} ${unit} ${side} ${logger} (${Math.max(0, by - half).toFixed(2)} to ${(by + half).toFixed(2)}, from ${offset.entries.length} readings). Which of them is off is not known, so each was brought half way to the other: try both against one you trust.`,
      entries: [...offset.entries],
    });
  };
  judge(from.pressures.offset, "dial-and-logger-differ", ["The dial", "the logger"], "bar");
  judge(from.logged.glassOffset, "glass-and-logger-differ", ["The glass", "the level logger"], "mm");
  return found;
}
