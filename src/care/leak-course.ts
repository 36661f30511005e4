import { absent, type Figure } from "../quantity/measured.ts";
import { firstReaching, fitGrowth, type GrowthFit, type GrowthPrior } from "../statistics/growth-fit.ts";
import { kendall } from "../statistics/kendall.ts";
import { slopeUncertainty, theilSen } from "../statistics/theil-sen.ts";
import type { DripReading } from "./evidence.ts";
import { type Step, stepIn } from "./leak-step.ts";
import { timeToLimit } from "./time-to-limit.ts";

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
/** Levels are sought to so much of themselves. */
const NEAR = 2e-3;
/** Readings rise steadily where their order would do so by chance less often, one-sided. */
const STEADILY = 0.05;
/** One-sided 95 % of the normal: a slope clear of nothing by the errors of the readings alone. */
const CLEAR = 1.645;

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
  /**
   * readings that rise steadily, both by their order, with the chance of that though nothing grows (Kendall,
   * one-sided), and by a slope that is more than the errors of the readings make; else null
   */
  rising: { byChance: number } | null;
  jump: { reading: DripReading; expected: number } | null;
  step: (Step & { steamingId: string }) | null;
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
  const prior = priorFor(points, limit, life.serviced);
  const jump = jumpAt(points, prior);
  const step = stepOf(points);
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
  const few = points.length < ENOUGH_FOR_A_TREND;
  // one or two readings tell a level and no growth: it stands for now as it was then
  const levelH = few ? last.x : nowH;
  const chanceOver = (h: number) => fit.chanceAbove(few ? levelH : nowH + h, limit);
  return {
    points,
    fit,
    nowH,
    levelNow: levelAt(fit, levelH, Math.max(limit, last.y)),
    slope: slopeOf(points, fit),
    ...timeToLimit(chanceOver, { few, jumped: jump !== null, stepped: step !== null }),
    rising: few ? null : risingOf(points),
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

/** A first catch of more than this many limits shows that what is thought of a fitting before does not fit this one. */
const NOT_AS_THOUGHT = 2;

function priorFor(points: readonly LeakPoint[], limit: number, serviced: boolean): GrowthPrior {
  const prior = priorOf(limit, serviced);
  const first = points[0]?.y ?? 0;
  return prior.start === null || first <= NOT_AS_THOUGHT * limit
    ? prior
    : { ...prior, start: { y: first, sd: first } };
}

function stepOf(points: readonly LeakPoint[]): LeakCourse["step"] {
  const step = stepIn(points);
  const first = points.find(({ x }) => step !== null && x >= step.fromX);
  return step === null || first === undefined ? null : { ...step, steamingId: first.reading.steamingId };
}

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

function levelAt(fit: GrowthFit, x: number, about: number): LeakCourse["levelNow"] {
  const below = (y: number) => 1 - fit.chanceAbove(x, y);
  const reaching = (chance: number) => {
    let top = about;
    // Student's tails are long, not endless: a hundred doublings are 1e30
    for (let i = 0; i < 100 && below(top) < chance; i++) top *= 2;
    return firstReaching(below, chance, 0, top, NEAR) ?? top;
  };
  return { value: reaching(0.5), low80: reaching(0.1), high80: reaching(0.9) };
}

const axes = (points: readonly LeakPoint[]) => ({
  xs: points.map(({ x }) => x),
  ys: points.map(({ y }) => y),
  us: points.map(({ reading }) => reading.u),
});

/** Theil-Sen's slope; its interval where the readings are enough for one, else that of the fitted course. */
function slopeOf(points: readonly LeakPoint[], fit: GrowthFit): Figure {
  const { xs, ys, us } = axes(points);
  if (new Set(xs).size < 2) return absent("one reading shows no trend");
  const { slope, interval } = theilSen(xs, ys, 0.95, us);
  const u = Math.max(fit.slope.u, slopeUncertainty(xs, us));
  const part = { name: "scatter and errors of the readings", u, df: fit.slope.degreesOfFreedom };
  const figure = { value: slope, unit: "g/min per h", parts: [part] };
  return interval === null ? figure : { ...figure, range95: interval };
}

function risingOf(points: readonly LeakPoint[]): LeakCourse["rising"] {
  const { xs, ys, us } = axes(points);
  if (new Set(xs).size < 2) return null;
  const { pUpper } = kendall(xs, ys);
  const clear = theilSen(xs, ys).slope > CLEAR * slopeUncertainty(xs, us);
  return pUpper < STEADILY && clear ? { byChance: pUpper } : null;
}
