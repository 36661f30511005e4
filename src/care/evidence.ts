import { leaksOf } from "../analysis/leaks.ts";
import type { EntryOf } from "../logbook/entry.ts";
import { isMeasured, standardUncertainty } from "../quantity/measured.ts";
import type { Outing } from "./outings.ts";

/** The grades of a look in their order. */
export const grades = ["dry", "damp", "weeping", "dripping", "blowing"] as const;
export type Grade = EntryOf<"look">["grade"];

interface At {
  steamingId: string;
  /** by the calendar, ms */
  atMs: number;
  /** hours in steam of the engine's life */
  hours: number;
}

/** A drip caught, carried to working pressure. */
export interface DripReading extends At {
  gPerMin: number;
  /** standard uncertainty from weighing and pressure; the catching itself is not in it */
  u: number;
}

export interface LookReading extends At {
  grade: Grade;
}

export interface FittingEvidence {
  drips: DripReading[];
  looks: LookReading[];
}

/** What was seen and caught of each fitting, in order of time. */
export function evidenceOf(outings: readonly Outing[]): Map<string, FittingEvidence> {
  const all = new Map<string, FittingEvidence>();
  const of = (fitting: string) => {
    const known = all.get(fitting) ?? { drips: [], looks: [] };
    all.set(fitting, known);
    return known;
  };
  for (const outing of outings) {
    const at = (atS: number): At => ({
      steamingId: outing.steaming.id,
      atMs: outing.startMs + atS * 1000,
      hours: outing.hoursAt(atS),
    });
    for (const { fitting, atS, rate } of leaksOf(outing.sources) ?? []) {
      if (!isMeasured(rate)) continue;
      of(fitting).drips.push({ ...at(atS), gPerMin: rate.value, u: standardUncertainty(rate) });
    }
    for (const { fitting, atS, grade } of outing.sources.timeline.of("look")) {
      of(fitting).looks.push({ ...at(atS), grade });
    }
  }
  for (const evidence of all.values()) {
    evidence.drips.sort((a, b) => a.atMs - b.atMs);
    evidence.looks.sort((a, b) => a.atMs - b.atMs);
  }
  return all;
}
