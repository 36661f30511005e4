import { leaksOf } from "../analysis/leaks/leaks.ts";
import type { Sources } from "../analysis/sources.ts";
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
  const weighingG = weighingOf(outings);
  for (const outing of outings) {
    const at = (atS: number): At => ({
      steamingId: outing.steaming.id,
      atMs: outing.startMs + atS * 1000,
      hours: outing.hoursAt(atS),
    });
    const carried = leaksOf(weighedTo(outing.sources, weighingG)) ?? [];
    for (const [place, { fitting, atS, g, overS }] of outing.sources.timeline.of("drip").entries()) {
      const rate = carried[place]?.rate;
      if (rate === undefined) continue;
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

/** No kitchen's scale weighs a cup surer than this, g, and most as this (our estimates). */
const SUREST_G = 0.02;
const USUAL_G = 0.1;

/** Round grams are a scale's step once so many catches are all round: one or two are so by chance (our choice). */
const ROUND_BY_CHANCE = 2;

/**
 * Standard uncertainty of weighing a catch, g, where none is declared: one step of the scale, as the finest of the
 * written catches shows it; empty cups show none. Null where it is declared, or nothing was held under.
 */
function weighingOf(outings: readonly Outing[]): number | null {
  const declared = outings[0]?.sources.locomotive.instruments?.massReadingG;
  const caught = outings.flatMap(({ sources }) => sources.timeline.of("drip").map(({ g }) => g));
  if (declared !== undefined || caught.length === 0) return null;
  const full = caught.filter((g) => g > 0);
  const coarsest = full.length > ROUND_BY_CHANCE ? [1] : [];
  const step = [...coarsest, USUAL_G, 0.01].find((one) => full.every((g) => onStep(g, one)));
  return Math.max(SUREST_G, step ?? SUREST_G);
}

const onStep = (g: number, step: number): boolean => Math.abs(g / step - Math.round(g / step)) < 1e-6;

const weighedTo = (sources: Sources, massReadingG: number | null): Sources =>
  massReadingG === null ? sources : { ...sources, errors: { ...sources.errors, massReadingG } };
