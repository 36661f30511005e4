import type { PressureReading } from "../pressure/pressure-points.ts";
import type { Sources } from "../sources.ts";
import { heldCold } from "../state/held-cold.ts";
import { FURTHEST_S } from "../valve/valve-stretch.ts";
import { pressuresRead, readBeside } from "./pressures-read.ts";

/** Water put in by the hand pump in a cold hold; null where no pressure was read before the next. */
export interface PumpedIn {
  atS: number;
  ml: number;
  barG: number | null;
}

/** Strokes with the pressure they reached; and what was written as feed by the hand pump, with the pressure read next. */
export function pumpedIn(from: Sources): PumpedIn[] {
  const { timeline, steaming, locomotive } = from;
  const reached = new Map(pressuresRead(from).map(({ strokesId, barG }) => [strokesId, barG]));
  const strokes = timeline.of("strokes").map(
    ({ id, atS, count, barG }): PumpedIn => ({
      atS,
      ml: count * (locomotive.handPump?.mlPerStroke ?? Number.NaN),
      barG: reached.get(id) ?? barG,
    }),
  );
  const fed = heldCold(steaming, timeline) ? timeline.of("feed").filter(({ by }) => by === "hand-pump") : [];
  const all = [...strokes, ...fed.map(({ atS, ml }): PumpedIn => ({ atS, ml, barG: null }))];
  all.sort((a, b) => a.atS - b.atS);
  const { dial, logged } = readBeside(from);
  return all.map((one, i) => {
    if (one.barG !== null) return one;
    const nextS = all[i + 1]?.atS ?? Number.POSITIVE_INFINITY;
    const read = dial.find(({ atS }) => atS >= one.atS && atS <= nextS);
    return { ...one, barG: read?.barG ?? loggedSoonAfter(logged, one.atS, nextS) };
  });
}

/** The middle of what a logger showed soon after, before more was pumped; null where it did not stand there. */
function loggedSoonAfter(logged: readonly PressureReading[], fromS: number, nextS: number): number | null {
  const after = logged
    .filter(({ atS }) => atS >= fromS && atS < Math.min(nextS, fromS + FURTHEST_S))
    .map(({ barG }) => barG)
    .sort((a, b) => a - b);
  return after[after.length >> 1] ?? null;
}
