import type { Sources } from "../sources.ts";
import { heldCold } from "../state/held-cold.ts";

/** Water put in by the hand pump in a cold hold; null where no pressure was read before the next. */
export interface PumpedIn {
  atS: number;
  ml: number;
  barG: number | null;
}

/** Strokes with the pressure they reached; and what was written as feed by the hand pump, with the pressure read next. */
export function pumpedIn({ timeline, steaming, locomotive }: Sources): PumpedIn[] {
  const strokes = timeline.of("strokes").map(
    ({ atS, count, barG }): PumpedIn => ({
      atS,
      ml: count * (locomotive.handPump?.mlPerStroke ?? Number.NaN),
      barG,
    }),
  );
  const fed = heldCold(steaming, timeline) ? timeline.of("feed").filter(({ by }) => by === "hand-pump") : [];
  const all = [...strokes, ...fed.map(({ atS, ml }): PumpedIn => ({ atS, ml, barG: null }))];
  all.sort((a, b) => a.atS - b.atS);
  return all.map((one, i) => {
    if (one.barG !== null) return one;
    const read = timeline.of("pressure").find(({ atS }) => atS >= one.atS);
    const nextS = all[i + 1]?.atS ?? Number.POSITIVE_INFINITY;
    return { ...one, barG: read !== undefined && read.atS <= nextS ? read.barG : null };
  });
}
