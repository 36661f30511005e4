import type { LogEntry } from "../../outbox/database.ts";

/** Readings of so long before the last one make the trend, s. */
const LOOKS_BACK_S = 300;
const FEWEST = 3;

/** Bar a minute by a line through the last readings; null where they are too few or too near together. */
export function pressureTrend(entries: readonly LogEntry[], nowS: number): number | null {
  const all = entries.filter((each) => each.kind === "pressure") as Extract<LogEntry, { kind: "pressure" }>[];
  const last = all.at(-1);
  if (last === undefined || nowS - last.atS > LOOKS_BACK_S) return null;
  const near = all.filter((each) => each.atS > last.atS - LOOKS_BACK_S);
  const first = near[0];
  if (near.length < FEWEST || first === undefined || last.atS - first.atS < 30) return null;
  const meanS = near.reduce((sum, each) => sum + each.atS, 0) / near.length;
  const meanBar = near.reduce((sum, each) => sum + each.barG, 0) / near.length;
  const over = near.reduce((sum, each) => sum + (each.atS - meanS) ** 2, 0);
  return (60 * near.reduce((sum, each) => sum + (each.atS - meanS) * (each.barG - meanBar), 0)) / over;
}
