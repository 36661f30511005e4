import { absent, type Figure } from "../quantity/measured.ts";
import { firstReaching, fitGrowth, type GrowthFit, type GrowthPrior } from "../statistics/growth-fit.ts";
import { kendall } from "../statistics/kendall.ts";
import { theilSen } from "../statistics/theil-sen.ts";
import type { DripReading } from "./evidence.ts";
import { type Step, stepIn } from "./leak-step.ts";

/** Of what really passes, one catch strays from another by about so much: steam escapes the cloth (our estimate). */
const CATCH_SCATTER = 0.1;
/** The least level, as a part of the limit, that scatter is reckoned from. */
const LEAST_LEVEL = 0.1;
/** As if so many readings had shown the scatter above to be just. */
const TRUST_IN_SCATTER = 4;
/** How leaks grow (our estimate): evenly, or more and more. */
const COURSES: GrowthPrior["courses"] = [
  { power: 1, weight: 0.55 },
  { power: 1.3, weight: 0.25 },
  { power: 1.6, weight: 0.2 },
];
/** A reading so unlikely by those before it counts as a sudden change. */
const JUMP_CHANCE = 0.005;
const READINGS_BEFORE_A_JUMP = 3;
export const ENOUGH_FOR_A_TREND = 3;
/** Levels and times are sought to so much of themselves. */
const NEAR = 2e-3;
/** No forecast reaches further, hours in steam: longer than any packing lasts. */
export const HORIZON_H = 1000;

export interface LeakPoint {
  /** hours in steam since the service */
  x: number;
  y: number;
  sd: number;
  reading: DripReading;
}

export interface LeakCourse {
  points: readonly LeakPoint[];
  fit: GrowthFit;
  /** hours since the service, now */
  nowH: number;
  levelNow: { value: number; low80: number; high80: number };
  slope: Figure;
  hoursToLimit: Figure;
  /** ends of the interval that holds the truth 80 times in 100; null where it cannot be told */
  hoursToLimit80: readonly [number, number] | null;
  /** chance that readings rise so steadily though nothing grows (Kendall, one-sided) */
  pRising: number | null;
  jump: { reading: DripReading; expected: number } | null;
  step: Step | null;
  chanceOver(hoursFromNow: number): number;
}

export interface LifeSoFar {
  drips: readonly DripReading[];
  /** hours of the engine's life at the service, and now */
  startH: number;
  nowH: number;
  /** a service began it; else what came before is not known */
  serviced: boolean;
}

/** How one fitting's leak has gone since its service, and where it goes. Null without a drip caught. */
export function leakCourse(life: LifeSoFar, limit: number): LeakCourse | null {
  const points = pointsOf(life, limit);
  const last = points.at(-1);
  if (last === undefined) return null;
  const prior = priorOf(limit, life.serviced);
  const jump = jumpAt(points, prior);
  const step = stepIn(points);
  const counted = step !== null ? points.filter((point) => point.x >= step.fromX) : points;
  const fit =
    step === null
      ? fitGrowth(counted, prior)
      : fitGrowth(counted, {
          ...prior,
          courses: [{ power: 1, weight: 1 }],
          start: { y: step.before, sd: limit },
        });
  const nowH = Math.max(last.x, life.nowH - life.startH);
  const steady = step !== null && counted.length < ENOUGH_FOR_A_TREND;
  // one or two readings tell a level and no growth: it stands for now as it was then
  const levelH = points.length < ENOUGH_FOR_A_TREND ? last.x : nowH;
  const later = (h: number) => (points.length < ENOUGH_FOR_A_TREND ? levelH : nowH + h);
  const chanceOver = (h: number) =>
    steady ? (step.after >= limit ? 1 : 0) : fit.chanceAbove(later(h), limit);
  const [hoursToLimit, hoursToLimit80] = timeToLimit(chanceOver, points.length, jump !== null, step !== null);
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  return {
    points,
    fit,
    nowH,
    levelNow: steady
      ? { value: step.after, low80: step.after - last.sd, high80: step.after + last.sd }
      : levelAt(fit, levelH, limit),
    slope: slopeOf(xs, ys, fit),
    hoursToLimit,
    hoursToLimit80,
    pRising: points.length >= ENOUGH_FOR_A_TREND ? kendall(xs, ys).pUpper : null,
    jump,
    step,
    chanceOver,
  };
}

export const priorOf = (limit: number, serviced: boolean): GrowthPrior => ({
  courses: COURSES,
  trustInSd: TRUST_IN_SCATTER,
  // before anything was caught: newly done, little passes; else anything may
  start: serviced ? { y: 0.15 * limit, sd: 0.4 * limit } : { y: 0.3 * limit, sd: 0.8 * limit },
});

export function pointsOf({ drips, startH }: LifeSoFar, limit: number): LeakPoint[] {
  const xs = drips.map((drip) => Math.max(0.01, drip.hours - startH));
  const ys = drips.map((drip) => drip.gPerMin);
  const spread = new Set(xs).size > 1 && xs.length >= ENOUGH_FOR_A_TREND;
  const line = spread ? theilSen(xs, ys) : null;
  return drips.map((reading, i) => {
    const [x, y] = [xs[i] ?? 0.01, ys[i] ?? 0];
    const level = line === null ? y : line.intercept + line.slope * x;
    return { x, y, sd: scatterOf(level, reading.u, limit), reading };
  });
}

/** Standard deviation of one catch at a level. */
export const scatterOf = (level: number, u: number, limit: number): number =>
  Math.hypot(u, CATCH_SCATTER * Math.max(level, LEAST_LEVEL * limit));

/** The last reading against what those before it foretell: a prediction interval's upper end. */
function jumpAt(points: readonly LeakPoint[], prior: GrowthPrior): LeakCourse["jump"] {
  const last = points.at(-1);
  const before = points.slice(0, -1);
  if (last === undefined || before.length < READINGS_BEFORE_A_JUMP) return null;
  const fit = fitGrowth(before, prior);
  return fit.chanceAbove(last.x, last.y, last.sd) < JUMP_CHANCE
    ? { reading: last.reading, expected: fit.at(last.x) }
    : null;
}

function levelAt(fit: GrowthFit, x: number, limit: number): LeakCourse["levelNow"] {
  const below = (chance: number) =>
    firstReaching((y) => 1 - fit.chanceAbove(x, y), chance, 0, 100 * limit, NEAR) ?? 100 * limit;
  return { value: below(0.5), low80: below(0.1), high80: below(0.9) };
}

/** Theil-Sen's slope; its interval where the readings are enough for one, else that of the fitted course. */
function slopeOf(xs: readonly number[], ys: readonly number[], fit: GrowthFit): Figure {
  if (new Set(xs).size < 2) return absent("one reading shows no trend");
  const { slope, interval } = theilSen(xs, ys);
  const { u, degreesOfFreedom } = fit.slope;
  const part = { name: "scatter of the readings", u, df: degreesOfFreedom };
  const figure = { value: slope, unit: "g/min per h", parts: [part] };
  return interval === null ? figure : { ...figure, range95: interval };
}

function timeToLimit(
  chanceOver: (h: number) => number,
  readings: number,
  jumped: boolean,
  stepped: boolean,
): [Figure, readonly [number, number] | null] {
  const at = (chance: number) => firstReaching(chanceOver, chance, 0, HORIZON_H, NEAR);
  const none = (why: string): [Figure, null] => [absent(why), null];
  if (chanceOver(0) >= 0.9) return [{ value: 0, unit: "h", parts: [] }, [0, 0]];
  if (readings < ENOUGH_FOR_A_TREND) return none("three readings or more are wanted for a forecast");
  if (stepped)
    return none("it rose at once and has not been seen to grow since: no time to the limit can be told");
  const [low, middle, high] = [at(0.1), at(0.5), at(0.9)];
  if (jumped && middle !== 0)
    return none("the last reading jumped: no time to the limit can be told before the next");
  if (low === null || middle === null || high === null) {
    return none("cannot tell: the readings leave it open whether it grows at all");
  }
  const u = (high - low) / (2 * 1.2816);
  return [
    {
      value: middle,
      unit: "h",
      parts: u === 0 ? [] : [{ name: "scatter and course of the readings", u }],
      range95: [at(0.025) ?? 0, at(0.975) ?? HORIZON_H],
    },
    [low, high],
  ];
}
