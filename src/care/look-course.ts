import { type OrdinalBelief, type OrdinalModel, ordinalBelief } from "../statistics/ordinal-belief.ts";
import { grades, type LookReading } from "./evidence.ts";

/**
 * How looks are taken and how fittings go from grade to grade: our estimates of common practice. One look in four is a
 * grade out, to the neighbour; one in a hundred is further out.
 */
const LOOKS: Omit<OrdinalModel, "start"> = {
  grades: grades.length,
  seen: grades.map((_, there) => {
    const raw = grades.map((__, seen) => ({ 0: 0.76, 1: 0.12 })[Math.abs(seen - there)] ?? 0.005);
    const total = raw.reduce((sum, chance) => sum + chance, 0);
    return raw.map((chance) => chance / total);
  }),
  upPerHour: [
    { rate: 0.01, weight: 0.45 },
    { rate: 0.05, weight: 0.3 },
    { rate: 0.2, weight: 0.2 },
    { rate: 0.6, weight: 0.05 },
  ],
  downPerHour: 0.02,
};
const NEWLY_DONE = [0.6, 0.25, 0.1, 0.04, 0.01];
const NOT_KNOWN = [0.4, 0.25, 0.2, 0.1, 0.05];

export interface LookCourse {
  looks: readonly LookReading[];
  belief: OrdinalBelief;
  /** chance of this grade or a worse one, so many hours in steam from now */
  chanceOf(grade: (typeof grades)[number], hoursFromNow?: number): number;
}

/** What graded looks since the service say, as chances of each grade. Null without a look. */
export function lookCourse(
  looks: readonly LookReading[],
  startH: number,
  nowH: number,
  serviced: boolean,
): LookCourse | null {
  const last = looks.at(-1);
  if (last === undefined) return null;
  const belief = ordinalBelief(
    looks.map((look) => ({ hours: Math.max(0, look.hours - startH), grade: grades.indexOf(look.grade) })),
    { ...LOOKS, start: serviced ? NEWLY_DONE : NOT_KNOWN },
  );
  return {
    looks,
    belief,
    chanceOf: (grade, hoursFromNow = 0) =>
      belief
        .after(Math.max(0, nowH - last.hours) + hoursFromNow)
        .slice(grades.indexOf(grade))
        .reduce((sum, chance) => sum + chance, 0),
  };
}
