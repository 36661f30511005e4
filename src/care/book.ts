import { absent } from "../quantity/measured.ts";
import { reported } from "../quantity/reported.ts";
import type { Book, FittingBook } from "./book-schema.ts";
import type { Care } from "./care.ts";
import type { FittingCare } from "./fitting-care.ts";
import { outingsToFalseAlarm } from "./indicator-course.ts";
import { whyNoCourse } from "./left-out.ts";

/** The Fitter's book as its pages read it. */
export function bookOf({ locomotive, hours, outingH, fittings, indicators, suspects, jobs }: Care): Book {
  return {
    locomotiveId: locomotive.id,
    name: locomotive.name,
    hours,
    outingH,
    fittings: fittings.map((care) => fittingBook(care, outingH)),
    indicators: indicators.map(({ indicator: { key, name, unit, worse }, points, alarmAt, sudden }) => ({
      key,
      name,
      unit,
      worse,
      alarmAt,
      sudden,
      points: points.map(({ conditions: _setRightFor, ...point }) => dated(point)),
    })),
    outingsToFalseAlarm,
    suspects: suspects.map((suspect) => ({ ...suspect })),
    jobs: jobs.map((job) => ({ ...job })),
  };
}

function dated<Reading extends { atMs: number }>({
  atMs,
  ...rest
}: Reading): Omit<Reading, "atMs"> & { at: string } {
  return { ...rest, at: new Date(atMs).toISOString() };
}

function fittingBook(care: FittingCare, outingH: number): FittingBook {
  const { fitting, limit, state, sure, why, measureNext, readings, since, startH, leak, evidence } = care;
  const none = absent(whyNoCourse(care));
  return {
    fitting,
    limit,
    state,
    sure,
    why,
    measureNext,
    readings,
    since,
    startH,
    levelNow: leak?.levelNow ?? null,
    slope: reported(leak?.slope ?? none),
    hoursToLimit: reported(leak?.hoursToLimit ?? none),
    hoursToLimit80: leak?.hoursToLimit80 === undefined ? null : pair(leak.hoursToLimit80),
    drips: evidence.drips.map(dated),
    looks: evidence.looks.map(dated),
    leftOut: evidence.leftOut.map(dated),
    course: courseOf(care, outingH),
    services: care.services.map(({ service, atH, yetToCome, effect, engine }) => ({
      service,
      atH,
      yetToCome,
      ...effect,
      difference: reported(effect.difference),
      engine: engine.map((one) => ({ ...one, difference: reported(one.difference) })),
    })),
  };
}

const pair = (ends: readonly [number, number] | null): [number, number] | null =>
  ends === null ? null : [ends[0], ends[1]];

const STEPS = 24;
/** The band runs on for so many outings at least, and to the limit where that is not far. */
const OUTINGS_AHEAD = 3;
const FAR = 1;
/** Half of the band that holds 80 in 100, in standard deviations. */
const HALF_80 = 1.2816;

function courseOf({ leak, startH, since }: FittingCare, outingH: number): FittingBook["course"] {
  if (leak === null || leak.points.length < 2) return [];
  const first = leak.step?.fromX ?? leak.points[0]?.x ?? 0;
  const toLimit = leak.hoursToLimit.value ?? 0;
  const ahead = Math.max(OUTINGS_AHEAD * outingH, Math.min(1.2 * toLimit, FAR * since.hours));
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const x = first + ((leak.nowH + ahead - first) * i) / STEPS;
    const middle = leak.fit.at(x);
    const half = HALF_80 * leak.fit.spreadAt(x);
    return {
      hours: startH + x,
      low: Math.max(0, middle - half),
      middle: Math.max(0, middle),
      high: Math.max(0, middle + half),
    };
  });
}
