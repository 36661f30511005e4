import { clock } from "../../quantity/clock.ts";
import { turnsTooFew } from "../laps/way-counted.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { FASTEST_TURNS, setOffS } from "./lap-pace.ts";

/** Turns of the driving wheel that no small engine makes in the time since they were last counted. */
export function turnsPaceWarnings({ timeline }: Pick<Sources, "timeline">): Warning[] {
  const counted = timeline.of("revolutions");
  const began = setOffS(timeline);
  const fast = counted.flatMap((entry, i) => {
    const sinceS = counted[i - 1]?.atS ?? (began !== undefined && began < entry.atS ? began : undefined);
    if (sinceS === undefined || entry.count <= FASTEST_TURNS * (entry.atS - sinceS)) return [];
    return [{ entry, overS: entry.atS - sinceS }];
  });
  const [first] = fast;
  if (first === undefined) return [];
  const { entry, overS } = first;
  return [
    {
      code: "turns-too-fast",
      text: `${entry.count} turns of the wheel in the ${Math.round(overS)} s before ${clock(entry.atS)} are more than ${FASTEST_TURNS} a second, faster than she can run${
        fast.length > 1 ? `, and so are ${fast.length - 1} more counts` : ""
      }: a digit too many, or not counted from the entry before?`,
      entries: fast.map((one) => one.entry.id),
    },
  ];
}

/** Turns of the driving wheel that do not carry her round the laps that were counted. */
export function turnsTooFewWarnings(from: Pick<Sources, "timeline" | "steaming" | "locomotive">): Warning[] {
  const few = turnsTooFew(from.timeline, from.steaming, from.locomotive);
  if (few === null) return [];
  return [
    {
      code: "turns-too-few",
      text: `${few.counted} turns of the wheel were counted where the laps take about ${Math.round(few.taken)}: a digit left out, or not counted over the whole run?`,
      entries: from.timeline.of("revolutions").map(({ id }) => id),
    },
  ];
}
