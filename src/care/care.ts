import type { Fitting, Locomotive } from "../logbook/locomotive.ts";
import type { Service } from "../logbook/service.ts";
import { evidenceOf, type FittingEvidence } from "./evidence.ts";
import { type IndicatorCourse, indicatorCourses } from "./indicator-course.ts";
import { type Job, jobsOf } from "./jobs.ts";
import { type LeakCourse, leakCourse } from "./leak-course.ts";
import { type Limit, limitOf } from "./limits.ts";
import { type LookCourse, lookCourse } from "./look-course.ts";
import { hoursAtMoment, type Outing, outingsOf, type SteamingRecord, usualOutingH } from "./outings.ts";
import { type ServiceEffect, serviceEffect } from "./service-effect.ts";
import { states, type Verdict, verdictOf } from "./state.ts";
import type { Sign } from "./suspect-table.ts";
import { type Suspect, signsOfEngine, suspectsOf } from "./suspects.ts";

export interface ServiceRecord {
  service: Service;
  /** hours in steam of the engine's life */
  atH: number;
  effect: ServiceEffect;
}

export interface FittingCare extends Verdict {
  fitting: Fitting;
  limit: Limit | null;
  /** catches and looks since the last service */
  readings: number;
  since: {
    hours: number;
    runningH: number;
    pistonM: number | null;
    outings: number;
    service: Service | null;
  };
  leak: LeakCourse | null;
  looks: LookCourse | null;
  evidence: FittingEvidence;
  /** hours in steam of the engine's life at the last service, 0 without one */
  startH: number;
  /** oldest first */
  services: readonly ServiceRecord[];
}

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

const NONE: FittingEvidence = { drips: [], looks: [] };

/** What needs packing, and when: from all steamings of an engine and what was done to it. */
export function careOf(
  locomotive: Locomotive,
  records: readonly SteamingRecord[],
  services: readonly Service[],
): Care {
  const outings = outingsOf(locomotive, records);
  const evidence = evidenceOf(outings);
  const inOrder = [...services].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  const outingH = usualOutingH(outings);
  const kindOf = new Map(locomotive.fittings.map((fitting) => [fitting.id, fitting.kind]));
  const courses = indicatorCourses(outings, (indicator) =>
    Math.max(
      Number.NEGATIVE_INFINITY,
      ...inOrder
        .filter(({ fittingId }) => indicator.of.includes(kindOf.get(fittingId) ?? "other"))
        .map(({ at }) => Date.parse(at)),
    ),
  );
  const fittings = locomotive.fittings.map((fitting) =>
    fittingCare(fitting, {
      outings,
      outingH,
      evidence: evidence.get(fitting.id) ?? NONE,
      services: inOrder.filter((service) => service.fittingId === fitting.id),
      signals: signalsFor(fitting, courses, outings),
    }),
  );
  const signs = signsOfEngine(outings);
  for (const [sign, sure] of signsOfFittings(fittings, outings)) signs.set(sign, sure);
  return {
    locomotive,
    hours: outings.reduce((sum, outing) => sum + outing.inSteamH, 0),
    outingH,
    fittings: fittings.sort(byNeed),
    indicators: courses,
    suspects: suspectsOf(signs),
    jobs: jobsOf(
      fittings.map(({ fitting, state, sure }) => ({ fitting, state, known: sure !== "nothing known" })),
    ),
  };
}

interface About {
  outings: readonly Outing[];
  outingH: number;
  evidence: FittingEvidence;
  services: readonly Service[];
  signals: readonly string[];
}

function fittingCare(fitting: Fitting, about: About): FittingCare {
  const { outings, outingH, evidence, services } = about;
  const limit = limitOf(fitting);
  const last = services.at(-1) ?? null;
  const startMs = last === null ? Number.NEGATIVE_INFINITY : Date.parse(last.at);
  const startH = last === null ? 0 : hoursAtMoment(outings, startMs);
  const nowH = outings.reduce((sum, outing) => sum + outing.inSteamH, 0);
  const since = { drips: after(evidence.drips, startMs), looks: after(evidence.looks, startMs) };
  const life = { ...since, startH, nowH, serviced: last !== null };
  const leak = limit === null ? null : leakCourse(life, limit.gPerMin);
  const looks = lookCourse(since.looks, startH, nowH, last !== null);
  const sinceOutings = outings.filter((outing) => outing.startMs >= startMs);
  const pistons = sinceOutings.map((outing) => outing.pistonM).filter((way) => way !== null);
  return {
    ...verdictOf({ fitting, limit, leak, looks, outingH, sinceH: nowH - startH, signals: about.signals }),
    fitting,
    limit,
    readings: since.drips.length + since.looks.length,
    since: {
      hours: nowH - startH,
      runningH: sinceOutings.reduce((sum, outing) => sum + outing.runningH, 0),
      pistonM: pistons.length === 0 ? null : pistons.reduce((a, b) => a + b, 0),
      outings: sinceOutings.length,
      service: last,
    },
    leak,
    looks,
    evidence,
    startH,
    services: services.map((service, place) => serviceRecord(service, place, about, limit)),
  };
}

const after = <T extends { atMs: number }>(
  readings: readonly T[],
  fromMs: number,
  toMs = Number.POSITIVE_INFINITY,
): T[] => readings.filter(({ atMs }) => atMs >= fromMs && atMs < toMs);

function serviceRecord(
  service: Service,
  place: number,
  { outings, evidence, services }: About,
  limit: Limit | null,
): ServiceRecord {
  const moment = (at: Service | undefined, none: number) => (at === undefined ? none : Date.parse(at.at));
  const fromMs = moment(services[place - 1], Number.NEGATIVE_INFINITY);
  const atMs = Date.parse(service.at);
  const toMs = moment(services[place + 1], Number.POSITIVE_INFINITY);
  const before = {
    drips: after(evidence.drips, fromMs, atMs),
    looks: after(evidence.looks, fromMs, atMs),
    startH: place === 0 ? 0 : hoursAtMoment(outings, fromMs),
    serviced: place > 0,
  };
  const since = { drips: after(evidence.drips, atMs, toMs), looks: after(evidence.looks, atMs, toMs) };
  return {
    service,
    atH: hoursAtMoment(outings, atMs),
    effect: serviceEffect(before, since, limit?.gPerMin ?? null),
  };
}

/** Alarms of the engine's own figures that point at a fitting of this kind, for those it alone answers for. */
function signalsFor(
  fitting: Fitting,
  courses: readonly IndicatorCourse[],
  outings: readonly Outing[],
): string[] {
  return courses.flatMap(({ indicator, alarmAt }) => {
    if (alarmAt === null || indicator.of[0] !== fitting.kind || fitting.kind === "gland") return [];
    const day = outings.find((outing) => outing.steaming.id === alarmAt)?.steaming.startedAt.slice(0, 10);
    return [
      `${indicator.name} has gone ${indicator.worse} since ${day} against this engine's own outings before`,
    ];
  });
}

const signOfKind: Partial<Record<Fitting["kind"], Sign>> = {
  gland: "gland-seen",
  clack: "clack-seen",
  regulator: "regulator-seen",
  "safety-valve": "valve-seen",
  pump: "pump-seen",
};
/** What was seen of a fitting before says nothing of a fault that has come since. */
const LATE_OUTINGS = 2;

/** How sure it is that a fitting is seen to leak: by its catches, else by its looks. */
function seen({ leak, looks, limit, state }: FittingCare, late: readonly string[]): number | null {
  const readings = [leak?.points.at(-1)?.reading, looks?.looks.at(-1)];
  if (!readings.some((reading) => reading !== undefined && late.includes(reading.steamingId))) return null;
  if (leak !== null && limit !== null) {
    if (state === "attend") return 0.97;
    return leak.levelNow.value > 0.6 * limit.gPerMin || leak.jump !== null || leak.step !== null ? 0.7 : 0.05;
  }
  return looks === null ? null : 0.04 + 0.93 * looks.chanceOf("weeping");
}
/** So much of three quarters of the glass and above counts as running with it high. */
const HIGH_GLASS = 0.75;

/** Signs from single fittings and from what was logged of late. */
function signsOfFittings(fittings: readonly FittingCare[], outings: readonly Outing[]): Map<Sign, number> {
  const signs = new Map<Sign, number>();
  const raise = (sign: Sign, sure: number) => signs.set(sign, Math.max(signs.get(sign) ?? 0, sure));
  const late = outings.slice(-LATE_OUTINGS).map(({ steaming }) => steaming.id);
  for (const care of fittings) {
    const sign = signOfKind[care.fitting.kind];
    const sure = seen(care, late);
    if (sign !== undefined && sure !== null) raise(sign, sure);
  }
  const last = outings.at(-1)?.sources;
  if (last === undefined) return signs;
  const { timeline, locomotive, phases, around } = last;
  const running = phases.filter((phase) => phase.name === "running");
  const { lowestLevelMm, highestLevelMm } = locomotive.boiler;
  const levels = timeline
    .of("level")
    .filter(({ atS }) => running.some((phase) => atS >= phase.fromS && atS <= phase.toS))
    .map(({ mm }) => (mm - lowestLevelMm) / (highestLevelMm - lowestLevelMm));
  if (levels.length > 0) {
    raise("glass-high", Math.max(...levels) > HIGH_GLASS ? 0.9 : 0.1);
    raise("level-low", Math.min(...levels) < 0 ? 0.9 : 0.05);
  }
  const shutIn = phases.filter((phase) => phase.name === "shut-in");
  const inShutIn = (atS: number) => shutIn.some((phase) => atS > phase.fromS + 60 && atS <= phase.toS);
  const feed = timeline.of("temperature").filter((entry) => entry.of === "feed" && inShutIn(entry.atS));
  if (feed.length > 0) {
    const hottest = Math.max(...feed.map((entry) => entry.celsius));
    raise("feed-pipe-hot", hottest > around.ambientC + 25 ? 0.95 : 0.05);
  }
  const turns = [...timeline.of("lap"), ...timeline.of("revolutions")];
  if (shutIn.length > 0)
    raise("creeps", turns.some(({ atS, count }) => count > 0 && inShutIn(atS)) ? 0.9 : 0.3);
  return signs;
}

/** Attend before watch before sound; then what is nearest to its limit; what nothing is known of stands after watched. */
function byNeed(a: FittingCare, b: FittingCare): number {
  const rank = ({ state, sure }: FittingCare) => states.indexOf(state) - (sure === "nothing known" ? 0.5 : 0);
  const nearness = ({ leak, limit }: FittingCare) =>
    leak === null || limit === null ? 0 : leak.levelNow.value / limit.gPerMin;
  return rank(b) - rank(a) || nearness(b) - nearness(a);
}
