import type { Fitting } from "../logbook/locomotive.ts";
import { checkOfIndicator } from "./engine-signs.ts";
import type { IndicatorCourse } from "./indicator-course.ts";
import type { Indicator } from "./indicators.ts";
import type { Outing } from "./outings.ts";
import { lower } from "./words.ts";

/** An alarm of one of the engine's own figures that points at a fitting. */
export interface EngineSignal {
  /** a sentence without its stop */
  words: string;
  /** the reading that would tell whether it is still so; null where the fitting's own readings would tell more */
  readAgain: string | null;
}

export interface EngineSignals {
  /** nothing read of the fitting answers them: they make it one to watch */
  open: EngineSignal[];
  /** it was read since the alarm, and what was read decides */
  answered: EngineSignal[];
}

/**
 * Alarms that point at this fitting: of figures that its kind answers for before all others. A gland is only one of
 * several that draw on the water a lap, so once it was caught or looked at since the alarm, its own readings decide.
 * @param lastReadMs when it was last caught or looked at
 */
export function engineSignals(
  fitting: Fitting,
  courses: readonly IndicatorCourse[],
  outings: readonly Outing[],
  lastReadMs: number,
): EngineSignals {
  const signals: EngineSignals = { open: [], answered: [] };
  for (const { indicator, alarmAt } of courses) {
    if (alarmAt === null || indicator.of[0] !== fitting.kind) continue;
    const outing = outings.find(({ steaming }) => steaming.id === alarmAt);
    if (outing === undefined) continue;
    const day = outing.steaming.startedAt.slice(0, 10);
    const standard = indicator.ownBest === true ? "own best" : "own outings before";
    const words = `${indicator.name} has gone ${indicator.worse} since ${day} against this engine's ${standard}`;
    const isAnswered = fitting.kind === "gland" && lastReadMs >= outing.startMs;
    (isAnswered ? signals.answered : signals.open).push({ words, readAgain: checkOf(indicator) });
  }
  return signals;
}

function checkOf({ key }: Indicator): string | null {
  const check = checkOfIndicator(key);
  return check === null ? null : `At the next steaming ${check}.`;
}

/** "; also, water a lap has gone up since 2026-05-09 against ..." for alarms that its readings answer. */
export const answeredInWords = ({ answered }: EngineSignals): string =>
  answered.map(({ words }) => `; also, ${lower(words)}`).join("");
