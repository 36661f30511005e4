import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { clockGrainS } from "../state/clock-grain.ts";
import type { Question } from "./question.ts";

/** No small engine turns faster than this, 1/s (our choice: more than twice what they usually do). */
export const FASTEST_TURNS = 25;
/** Nor goes faster than this where the wheel is not known, m/s. */
const FASTEST_M_PER_S = 6;
/** A lap in less than this part of the usual lap was tapped twice. */
const TOO_SHORT = 0.3;
/** Two laps together are as long as usual where one tap came late. */
const MADE_UP = 1.7;
const LEAST_LAPS = 5;
/** No track is so short that a lap takes less, s. */
const SHORTEST_S = 1;

interface TooFast extends Question {
  /** of the first of them: when, how long after the one before or the setting off, and whether it was that */
  atS: number;
  afterS: number;
  opening: boolean;
  usualS: number;
}

/** Laps that no engine runs, and laps written down twice. */
export function lapsTooFast(from: Pick<Sources, "timeline" | "steaming" | "locomotive">): TooFast[] {
  const { timeline, steaming, locomotive } = from;
  const laps = timeline.of("lap").filter(({ count }) => count > 0);
  const lapM = steaming.track?.lapM ?? 0;
  const wheelMm = locomotive.drivingWheelMm;
  const fastest = wheelMm === undefined ? FASTEST_M_PER_S : (FASTEST_TURNS * Math.PI * wheelMm) / 1000;
  const began = setOffS(timeline) ?? Number.POSITIVE_INFINITY;
  // two laps of one written minute may be a minute apart
  const grainS = clockGrainS(timeline.entries);
  const gaps = laps.map((lap, i) => {
    const sinceS = laps[i - 1]?.atS ?? (began < lap.atS ? began : Number.NEGATIVE_INFINITY);
    return { lap, each: Math.max(lap.atS - sinceS + grainS, Number.EPSILON) / lap.count };
  });
  const fast = gaps.filter(({ each }) => each < SHORTEST_S || lapM / each > fastest);
  const known = gaps.map((gap) => gap.each).filter(Number.isFinite);
  const usual = known.sort((a, b) => a - b)[Math.floor(gaps.length / 2)] as number;
  const twice =
    gaps.length < LEAST_LAPS
      ? []
      : gaps.filter(({ each }, i) => {
          const before = gaps[i - 1]?.each ?? usual;
          const after = gaps[i + 1]?.each ?? usual;
          const madeUp = before + each > MADE_UP * usual || after + each > MADE_UP * usual;
          return i > 0 && each < TOO_SHORT * usual && !madeUp;
        });
  const named = gaps.filter((gap) => fast.includes(gap) || twice.includes(gap));
  if (named[0] === undefined) return [];
  const { lap: first, each } = named[0];
  return [
    {
      code: "laps-too-fast",
      entries: named.map(({ lap }) => lap.id),
      atS: first.atS,
      afterS: each,
      opening: first === laps[0],
      usualS: usual,
    },
  ];
}

export const lapPaceWarnings = (from: Parameters<typeof lapsTooFast>[0]): Warning[] =>
  lapsTooFast(from).map(({ code, entries, atS, afterS, opening, usualS }) => ({
    code,
    text: `${entries.length === 1 ? "A lap came sooner than she can run it:" : `${entries.length} laps came sooner than she can run them: the first`} at ${clock(atS)}, ${Math.round(afterS)} s after ${
      opening ? "the regulator was opened" : "the one before"
    }${!(usualS >= 2 * afterS) ? "" : ` (${Math.round(usualS)} s is usual)`}. ${
      opening ? "Opened before that?" : "Tapped twice?"
    }`,
    entries,
  }));

/** When she set off, where she had not run before: the first lap, or count of turns, is told from there. */
export function setOffS(timeline: Sources["timeline"]): number | undefined {
  const [first] = timeline.of("regulator");
  return first?.state === "open" ? first.atS : undefined;
}
