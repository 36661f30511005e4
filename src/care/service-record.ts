import type { Fitting } from "../logbook/locomotive.ts";
import type { Service } from "../logbook/service.ts";
import { absent } from "../quantity/measured.ts";
import { type EngineEffect, engineEffects } from "./engine-effect.ts";
import type { FittingEvidence } from "./evidence.ts";
import type { IndicatorCourse } from "./indicator-course.ts";
import type { Limit } from "./limits.ts";
import { type Mending, mendingsOf, togetherInWords } from "./mendings.ts";
import { hoursAtMoment, type Outing } from "./outings.ts";
import { type ServiceEffect, serviceEffect } from "./service-effect.ts";

export interface ServiceRecord {
  service: Service;
  /** hours in steam of the engine's life */
  atH: number;
  /** dated later than today: not judged, and nothing starts afresh by it */
  yetToCome: boolean;
  /** of the whole mending where several services were judged together */
  effect: ServiceEffect;
  /** the same seen in the figures of the whole engine that speak of this fitting */
  engine: readonly EngineEffect[];
}

export interface ServicesOf {
  fitting: Fitting;
  limit: Limit | null;
  outings: readonly Outing[];
  evidence: FittingEvidence;
  /** of this fitting, in order of time */
  services: readonly Service[];
  courses: readonly IndicatorCourse[];
}

/** What was done to a fitting, oldest first, each with what it did. */
export function serviceRecords(about: ServicesOf): ServiceRecord[] {
  const { evidence, services, outings } = about;
  const readAtMs = [...evidence.drips, ...evidence.looks].map(({ atMs }) => atMs);
  const mendings = mendingsOf(services, readAtMs);
  return mendings.flatMap((mending, place) => {
    const span = {
      fromMs: mendings[place - 1]?.doneMs ?? Number.NEGATIVE_INFINITY,
      toMs: mendings[place + 1]?.fromMs ?? Number.POSITIVE_INFINITY,
      mending,
    };
    const effect = effectOf(about, span);
    const engine = engineEffects(about.courses, (indicator) => indicator.of.includes(about.fitting.kind), {
      fromMs: span.fromMs,
      atMs: mending.fromMs,
      doneMs: mending.doneMs,
      toMs: span.toMs,
    });
    return mending.services.map((service) => ({
      service,
      atH: hoursAtMoment(outings, Date.parse(service.at)),
      yetToCome: false,
      effect,
      engine,
    }));
  });
}

/** A service dated later than today, of which nothing can be said yet. */
export function recordYetToCome(service: Service, nowH: number): ServiceRecord {
  const words = "Dated later than today: nothing is reckoned from it until then.";
  return {
    service,
    atH: nowH,
    yetToCome: true,
    effect: {
      before: 0,
      after: 0,
      difference: absent("it is yet to come"),
      toldApart: null,
      moreSteamings: null,
      words,
    },
    engine: [],
  };
}

function effectOf(
  { evidence, outings, limit }: ServicesOf,
  { fromMs, toMs, mending }: { fromMs: number; toMs: number; mending: Mending },
): ServiceEffect {
  const within = <T extends { atMs: number }>(readings: readonly T[], from: number, to: number) =>
    readings.filter(({ atMs }) => atMs >= from && atMs < to);
  const serviced = Number.isFinite(fromMs);
  const before = {
    drips: within(evidence.drips, fromMs, mending.fromMs),
    looks: within(evidence.looks, fromMs, mending.fromMs),
    startH: serviced ? hoursAtMoment(outings, fromMs) : 0,
    serviced,
  };
  const since = {
    drips: within(evidence.drips, mending.doneMs, toMs),
    looks: within(evidence.looks, mending.doneMs, toMs),
  };
  const effect = serviceEffect(before, since, limit?.gPerMin ?? null);
  return { ...effect, words: `${togetherInWords(mending)}${effect.words}` };
}
