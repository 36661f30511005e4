import { overlapS } from "../../logbook/timeline.ts";
import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { underWayStretches } from "../state/phases.ts";
import { alike } from "./alike.ts";

/** The same figure so many times in a row, over so long under way, is a pointer that does not move (our choice). */
const READINGS = 6;
const FOR_S = 480;
/** A dial of so fine a division, in working pressures, cannot but show steam being drawn; a coarser one needs longer. */
const FINE = 0.05;
/** Where all readings are alike nothing tells the division: it is taken as this coarse. */
const UNKNOWN = 2 * FINE;
const STANDS_BAR = 0.1;

/**
 * A dial that shows the same all through a run, longer than its division and steam being drawn allow.
 * @param named what was found stuck already
 */
export function stuckRunningWarnings(from: Sources, named: readonly Warning[]): Warning[] {
  const readings = from.timeline.of("pressure");
  const underWay = underWayStretches(from.timeline, from.phases);
  const forS =
    FOR_S *
    Math.max(
      1,
      divisionOf(
        readings.map(({ barG }) => barG),
        from,
      ) / FINE,
    );
  return alike(readings, ({ barG }) => barG).flatMap((same): Warning[] => {
    const [first] = same;
    const last = same.at(-1) ?? first;
    const ranS = overlapS(underWay, first.atS, last.atS);
    if (first.barG < STANDS_BAR || same.length < READINGS || ranS < forS) return [];
    if (named.some(({ entries }) => entries.includes(first.id))) return [];
    return [
      {
        code: "dial-stuck",
        text: `The dial showed ${first.barG} bar ${same.length} times in a row, from ${clock(first.atS)} to ${clock(last.atS)}, through ${Math.round(ranS / 60)} minutes of running and drawing steam: is the pointer stuck?`,
        entries: same.map(({ id }) => id),
      },
    ];
  });
}

/** Smallest step between readings, as a part of working pressure. */
function divisionOf(bars: readonly number[], { locomotive }: Sources): number {
  const sorted = [...new Set(bars)].sort((a, b) => a - b);
  if (sorted.length < 2) return UNKNOWN;
  const steps = sorted.slice(1).map((barG, i) => barG - (sorted[i] as number));
  return Math.min(...steps) / locomotive.workingPressureBarG;
}
