import type { LogEntry } from "../../outbox/database.ts";

/** Readings of so long before the last one make the trend, s. */
const LOOKS_BACK_S = 300;
const FEWEST = 3;

/** Of readings of one pressure, one in twenty strays from the one before by more than so many standard uncertainties. */
const STRAY = 2 * Math.SQRT2;

const readingsOf = (entries: readonly LogEntry[]) =>
  (entries.filter((each) => each.kind === "pressure") as Extract<LogEntry, { kind: "pressure" }>[]).sort(
    (a, b) => a.atS - b.atS,
  );

/** Bar a minute by a line through the last readings; null where they are too few or too near together. */
export function pressureTrend(entries: readonly LogEntry[], nowS: number): number | null {
  const all = readingsOf(entries);
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

/**
 * How fast the pressure falls, bar a minute, 0 where it does not: by that line or by the last two readings, whichever is
 * steeper, of which a sudden fall shows in these alone. What two readings may stray is taken off.
 * @param readingBar standard uncertainty of one reading
 */
export function fallBarPerMin(entries: readonly LogEntry[], nowS: number, readingBar: number): number {
  const [before, last] = readingsOf(entries).slice(-2);
  if (before === undefined || last === undefined || last.atS <= before.atS) return 0;
  if (nowS - last.atS > LOOKS_BACK_S) return 0;
  const fellBar = before.barG - last.barG - STRAY * readingBar;
  return Math.max(0, (60 * fellBar) / (last.atS - before.atS), -(pressureTrend(entries, nowS) ?? 0));
}
