import { caughtOf } from "../analysis/leaks/leaks.ts";
import { weighingG } from "../analysis/leaks/weighing.ts";
import { coldAt } from "../analysis/state/held-cold.ts";
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

/** A drip caught that is not in the course. */
export interface LeftOut extends At {
  /** as it was caught, at whatever pressure there was */
  gPerMin: number;
  why: string;
  /** cold water in a hydraulic test: no leak of steam at all, and no limit speaks of it */
  cold: boolean;
}

export interface FittingEvidence {
  drips: DripReading[];
  looks: LookReading[];
  leftOut: LeftOut[];
}

const COLD = "caught in a cold hydraulic test, which is water and no steam";

/** What was seen and caught of each fitting, in order of time. */
export function evidenceOf(outings: readonly Outing[]): Map<string, FittingEvidence> {
  const all = new Map<string, FittingEvidence>();
  const of = (fitting: string) => {
    const known = all.get(fitting) ?? { drips: [], looks: [], leftOut: [] };
    all.set(fitting, known);
    return known;
  };
  const caughtG = outings.flatMap(({ sources }) => sources.timeline.of("drip").map(({ g }) => g));
  for (const outing of outings) {
    const at = (atS: number): At => ({
      steamingId: outing.steaming.id,
      atMs: outing.startMs + atS * 1000,
      hours: outing.hoursAt(atS),
    });
    const uG = weighingG(outing.sources.locomotive, caughtG);
    for (const drip of outing.sources.timeline.of("drip")) {
      const { fitting, atS, g, overS } = drip;
      const rate = caughtOf(outing.sources, drip, uG);
      const cold = coldAt(outing.sources, atS);
      const gone = { ...at(atS), gPerMin: (60 * g) / overS, cold };
      if (cold) {
        of(fitting).leftOut.push({ ...gone, why: COLD });
      } else if (isMeasured(rate)) {
        of(fitting).drips.push({ ...at(atS), gPerMin: rate.value, u: standardUncertainty(rate) });
      } else {
        of(fitting).leftOut.push({ ...gone, why: rate.why });
      }
    }
    for (const { fitting, atS, grade } of outing.sources.timeline.of("look")) {
      of(fitting).looks.push({ ...at(atS), grade });
    }
  }
  for (const evidence of all.values()) {
    evidence.drips.sort((a, b) => a.atMs - b.atMs);
    evidence.looks.sort((a, b) => a.atMs - b.atMs);
    evidence.leftOut.sort((a, b) => a.atMs - b.atMs);
  }
  return all;
}
