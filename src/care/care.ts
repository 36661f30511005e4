import type { Locomotive } from "../logbook/locomotive.ts";
import type { Service } from "../logbook/service.ts";
import { engineSigns, type LastDone } from "./engine-signs.ts";
import { evidenceOf, type FittingEvidence } from "./evidence.ts";
import { type FittingCare, fittingCare } from "./fitting-care.ts";
import { fittingsThatSpeak, signsOfFittings } from "./fitting-signs.ts";
import { type IndicatorCourse, indicatorCourses } from "./indicator-course.ts";
import { type Job, jobsOf } from "./jobs.ts";
import { outingsOf, type SteamingRecord, usualOutingH } from "./outings.ts";
import { type Fault, faults } from "./suspect-table.ts";
import { type Suspect, suspectsOf } from "./suspects.ts";
import { states } from "./verdict.ts";
import { isYetToCome } from "./yet-to-come.ts";

/** The Fitter's book of one engine. */
export interface Care {
  locomotive: Locomotive;
  /** hours in steam of all that is logged, and of a usual outing */
  hours: number;
  outingH: number;
  /** those in need first */
  fittings: readonly FittingCare[];
  indicators: readonly IndicatorCourse[];
  suspects: readonly Suspect[];
  jobs: readonly Job[];
}

const NONE: FittingEvidence = { drips: [], looks: [], leftOut: [] };

/**
 * What needs packing, and when: from all steamings of an engine and what was done to it.
 * @param nowMs the calendar's now: a service dated later is spoken of and starts nothing afresh
 */
export function careOf(
  locomotive: Locomotive,
  records: readonly SteamingRecord[],
  services: readonly Service[],
  nowMs = Number.POSITIVE_INFINITY,
): Care {
  const outings = outingsOf(locomotive, records);
  const evidence = evidenceOf(outings);
  const inOrder = [...services].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const yetToCome = inOrder.filter((service) => isYetToCome(service, outings, nowMs));
  const done = inOrder.filter((service) => !yetToCome.includes(service));
  const outingH = usualOutingH(outings);
  const kindOf = new Map(locomotive.fittings.map((fitting) => [fitting.id, fitting.kind]));
  const lastDone: LastDone = (kinds) =>
    Math.max(
      Number.NEGATIVE_INFINITY,
      ...done
        .filter(({ fittingId }) => kinds.includes(kindOf.get(fittingId) ?? "other"))
        .map(({ at }) => Date.parse(at)),
    );
  const courses = indicatorCourses(outings, ({ of }) => lastDone(of));
  const fittings = locomotive.fittings.map((fitting) =>
    fittingCare(fitting, {
      outings,
      outingH,
      evidence: evidence.get(fitting.id) ?? NONE,
      services: done.filter((service) => service.fittingId === fitting.id),
      yetToCome: yetToCome.filter((service) => service.fittingId === fitting.id),
      courses,
    }),
  );
  const ofEngine = engineSigns(outings, lastDone);
  const ofFittings = signsOfFittings(fittings, outings, lastDone);
  return {
    locomotive,
    hours: outings.reduce((sum, outing) => sum + outing.inSteamH, 0),
    outingH,
    fittings: fittings.sort(byNeed),
    indicators: courses,
    suspects: suspectsOf(
      (fault) => new Map([...ofEngine(fault), ...ofFittings]),
      faults.filter((fault) => canHave(locomotive, fault)),
      fittingsThatSpeak(fittings, outings),
    ),
    jobs: jobsOf(
      fittings.map(({ fitting, state, sure }) => ({ fitting, state, known: sure !== "nothing known" })),
    ),
  };
}

/** An engine without a pump has no trouble with one. */
const canHave = ({ axlePump, fittings }: Locomotive, { kind }: Fault): boolean =>
  kind !== "pump" || axlePump !== undefined || fittings.some((fitting) => fitting.kind === "pump");

/** Attend before watch before sound; then what is nearest to its limit; what nothing is known of stands after watched. */
function byNeed(a: FittingCare, b: FittingCare): number {
  const rank = ({ state, sure }: FittingCare) => states.indexOf(state) - (sure === "nothing known" ? 0.5 : 0);
  const nearness = ({ leak, limit }: FittingCare) =>
    leak === null || limit === null ? 0 : leak.levelNow.value / limit.gPerMin;
  return rank(b) - rank(a) || nearness(b) - nearness(a);
}
