import type { Fitting } from "../logbook/locomotive.ts";
import type { Service } from "../logbook/service.ts";
import { answeredInWords, engineSignals } from "./engine-signals.ts";
import type { DripReading, FittingEvidence, LeftOut } from "./evidence.ts";
import type { IndicatorCourse } from "./indicator-course.ts";
import { type LeakCourse, leakCourse } from "./leak-course.ts";
import { withLeftOut } from "./left-out.ts";
import { type Limit, limitOf } from "./limits.ts";
import { type LookCourse, lookCourse } from "./look-course.ts";
import { hoursAtMoment, type Outing } from "./outings.ts";
import { recordYetToCome, type ServiceRecord, serviceRecords } from "./service-record.ts";
import { verdictOf } from "./state.ts";
import { liftSince, withLift } from "./valve-lift.ts";
import { sentenceOf, type Verdict } from "./verdict.ts";
import { yetToComeInWords } from "./yet-to-come.ts";

export interface FittingCare extends Omit<Verdict, "reason"> {
  /** one sentence: the evidence, and how sure */
  why: string;
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
  /** catches since the last service that could be carried to working pressure */
  drips: readonly DripReading[];
  leak: LeakCourse | null;
  looks: LookCourse | null;
  /** catches since the last service that are not in the course */
  leftOut: readonly LeftOut[];
  evidence: FittingEvidence;
  /** hours in steam of the engine's life at the last service, 0 without one */
  startH: number;
  /** oldest first */
  services: readonly ServiceRecord[];
}

/** What of the engine's life is told of one fitting. */
export interface About {
  outings: readonly Outing[];
  outingH: number;
  evidence: FittingEvidence;
  /** done, in order of time */
  services: readonly Service[];
  /** dated later than today */
  yetToCome: readonly Service[];
  courses: readonly IndicatorCourse[];
}

/** One fitting: since its last service, its state, and whether each service helped. */
export function fittingCare(fitting: Fitting, about: About): FittingCare {
  const { outings, outingH, evidence, services } = about;
  const limit = limitOf(fitting);
  const last = services.at(-1) ?? null;
  const startMs = last === null ? Number.NEGATIVE_INFINITY : Date.parse(last.at);
  const startH = last === null ? 0 : hoursAtMoment(outings, startMs);
  const nowH = outings.reduce((sum, outing) => sum + outing.inSteamH, 0);
  const since = { drips: after(evidence.drips, startMs), looks: after(evidence.looks, startMs) };
  const leftOut = after(evidence.leftOut, startMs);
  const life = { ...since, startH, nowH, serviced: last !== null };
  const leak = limit === null ? null : leakCourse(life, limit.gPerMin);
  const looks = lookCourse(since.looks, startH, nowH, last !== null);
  const sinceOutings = outings.filter((outing) => outing.startMs >= startMs);
  const pistons = sinceOutings.map((outing) => outing.pistonM).filter((way) => way !== null);
  const lastReadMs = Math.max(...[...since.drips, ...since.looks].map(({ atMs }) => atMs));
  const signals = engineSignals(fitting, about.courses, outings, lastReadMs);
  const verdict = verdictOf({
    fitting,
    limit,
    leak,
    looks,
    drips: since.drips,
    leftOut,
    outingH,
    sinceH: nowH - startH,
    service: last,
    signals: signals.open,
  });
  const lastDripMs = since.drips.at(-1)?.atMs ?? null;
  const { reason, ...told } = withLift(
    withLeftOut(verdict, leftOut, { limit, lastDripMs }),
    fitting.kind === "safety-valve" ? liftSince(sinceOutings) : "no valve",
  );
  const also = `${answeredInWords(signals)}${yetToComeInWords(about.yetToCome)}`;
  return {
    ...told,
    why: sentenceOf({ ...told, reason: `${reason}${also}` }),
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
    drips: since.drips,
    leak,
    looks,
    leftOut,
    evidence,
    startH,
    services: [
      ...serviceRecords({ ...about, fitting, limit }),
      ...about.yetToCome.map((service) => recordYetToCome(service, nowH)),
    ],
  };
}

const after = <T extends { atMs: number }>(readings: readonly T[], fromMs: number): T[] =>
  readings.filter(({ atMs }) => atMs >= fromMs);
