import type { Grade, LookReading } from "./evidence.ts";
import type { LeakCourse } from "./leak-course.ts";
import type { LookCourse } from "./look-course.ts";
import type { State } from "./verdict.ts";
import { dayOf } from "./words.ts";

/** What an eye that says otherwise calls it, by what the catches say. */
const OTHERWISE: Readonly<Record<State, readonly Grade[]>> = {
  sound: ["dripping", "blowing"],
  watch: ["dry", "blowing"],
  attend: ["dry", "damp"],
};
const NAMED = 3;

export interface LooksAgainst {
  /** "; but by eye, since the last catch, blowing on 2026-05-02"; empty where none says otherwise */
  words: string;
  /** more than one such look, or one that blows: one look in four is a grade out */
  weighty: boolean;
}

/** Looks since the last catch that do not go with what the catches say, nor with looks while they were taken. */
export function looksAgainst(looks: LookCourse | null, leak: LeakCourse, byCatches: State): LooksAgainst {
  const lastMs = leak.points.at(-1)?.reading.atMs ?? Number.POSITIVE_INFINITY;
  const all = looks?.looks ?? [];
  const before = new Set(all.filter(({ atMs }) => atMs <= lastMs).map(({ grade }) => grade));
  const against = all.filter(
    ({ atMs, grade }) => atMs > lastMs && OTHERWISE[byCatches].includes(grade) && !before.has(grade),
  );
  if (against.length === 0) return { words: "", weighty: false };
  const named = against.slice(-NAMED).map(({ grade, atMs }: LookReading) => `${grade} on ${dayOf(atMs)}`);
  return {
    words: `; but by eye, since the last catch, ${named.join(", ")}`,
    weighty: against.length > 1 || against.some(({ grade }) => grade === "blowing"),
  };
}
