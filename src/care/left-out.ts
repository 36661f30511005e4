import type { DripReading, LeftOut } from "./evidence.ts";
import type { Limit } from "./limits.ts";
import type { Verdict } from "./verdict.ts";
import { counted, shown } from "./words.ts";

/** What left catches out of the course, each reason with its count: "2 catches could not be carried to ...: ...". */
export function leftOutInWords(leftOut: readonly LeftOut[]): string[] {
  return [...new Set(leftOut.map(({ why }) => why))].map((why) => {
    const alike = leftOut.filter((one) => one.why === why);
    const count = catches(alike.length);
    return alike.every(({ cold }) => cold)
      ? `${count} left out: ${why}`
      : `${count} could not be carried to working pressure: ${why}`;
  });
}

export const catches = (count: number): string => counted(count, "catch");

/**
 * A verdict that says which catches are not in it. One that passes more than the limit as it was caught is watched at
 * least, whatever the pressure was, until a later catch could be carried and answers it.
 */
export function withLeftOut(
  verdict: Verdict,
  leftOut: readonly LeftOut[],
  { limit, lastDripMs }: { limit: Limit | null; lastDripMs: number | null },
): Verdict {
  if (leftOut.length === 0) return verdict;
  const lastUnread = leftOut.findLast(({ cold }) => !cold);
  const isAnswered = ({ atMs }: LeftOut) => lastDripMs !== null && lastDripMs > atMs;
  const over =
    limit === null ? undefined : leftOut.findLast(({ gPerMin, cold }) => !cold && gPerMin > limit.gPerMin);
  const overWords =
    over === undefined || limit === null
      ? []
      : [
          `as caught one passed ${shown(over.gPerMin)} g/min, over the limit of ${shown(limit.gPerMin)}${isAnswered(over) ? ", which is answered by catches since" : ""}`,
        ];
  const said = [...leftOutInWords(leftOut), ...overWords].join("; ");
  const raised =
    over !== undefined &&
    !isAnswered(over) &&
    (verdict.state === "sound" || verdict.sure === "nothing known");
  return {
    state: raised ? "watch" : verdict.state,
    sure: raised ? "hardly sure" : verdict.sure,
    reason: `${verdict.reason}; ${said}`,
    // where a later catch could be carried the dial is being read
    measureNext:
      verdict.state === "attend" || lastUnread === undefined || isAnswered(lastUnread)
        ? verdict.measureNext
        : "Catch a drip at working pressure, and read the dial while you catch.",
  };
}

/** Why a fitting has no course: it has no limit, what was caught could not be carried, or nothing was caught. */
export function whyNoCourse({
  limit,
  leftOut,
  drips,
}: {
  limit: Limit | null;
  leftOut: readonly LeftOut[];
  drips: readonly DripReading[];
}): string {
  if (limit === null && drips.length > 0) return "no limit is set: its catches are told and not judged";
  return leftOut.length === 0
    ? "no drip has been caught since the last service"
    : leftOutInWords(leftOut).join("; ");
}
