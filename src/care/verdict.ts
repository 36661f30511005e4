import type { Fitting } from "../logbook/locomotive.ts";
import type { Service } from "../logbook/service.ts";
import type { EngineSignal } from "./engine-signals.ts";
import type { DripReading, LeftOut } from "./evidence.ts";
import type { LeakCourse } from "./leak-course.ts";
import type { Limit } from "./limits.ts";
import type { LookCourse } from "./look-course.ts";

export const states = ["sound", "watch", "attend"] as const;
export type State = (typeof states)[number];

/** How sure a state is. */
export const assurances = ["nothing known", "hardly sure", "fairly sure", "sure"] as const;
export type Assurance = (typeof assurances)[number];

export interface Verdict {
  state: State;
  /** the evidence: a sentence without how sure it is and without its stop */
  reason: string;
  sure: Assurance;
  /** the reading that would tell most; null where the state is sure without */
  measureNext: string | null;
}

export interface Case {
  fitting: Fitting;
  limit: Limit | null;
  leak: LeakCourse | null;
  looks: LookCourse | null;
  /** catches since the service that could be carried to working pressure */
  drips: readonly DripReading[];
  /** catches that are not in the course */
  leftOut: readonly LeftOut[];
  /** hours in steam of a usual outing */
  outingH: number;
  /** hours in steam since the service */
  sinceH: number;
  /** the service that began this course */
  service: Service | null;
  /** changes of the engine's own figures that point at this fitting */
  signals: readonly EngineSignal[];
}

/** One sentence: the evidence, and how sure. */
export const sentenceOf = ({ reason, sure }: Verdict): string =>
  sure === "nothing known" ? `${reason}, so nothing is known of its state.` : `${reason}, ${sure}.`;
