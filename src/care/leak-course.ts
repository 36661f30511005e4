import { absent, type Figure } from "../quantity/measured.ts";
import { firstReaching, fitGrowth, type GrowthFit, type GrowthPrior } from "../statistics/growth-fit.ts";
import { kendall } from "../statistics/kendall.ts";
import { meanOf } from "../statistics/mean-of.ts";
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
/** A trend wants readings of more than one outing: within one the cloth, the dial and the fire are the same. */
const OUTINGS_FOR_A_TREND = 2;
/** Catches of one outing within so many hours in steam are one level, caught again (our choice). */
const ONE_LEVEL_H = 0.5;
/** A limit above this says nothing of how much a fitting leaks, g/min (our choice: ten times the highest usual one). */
const LARGEST_SCALE = 5;
/** Levels are sought to so much of themselves. */
const NEAR = 2e-3;
/** Readings rise steadily where their order would do so by chance less often, one-sided. */
const STEADILY = 0.05;
/** One-sided 95 % of the normal: a slope clear of nothing by the errors of the readings alone. */
const CLEAR = 1.645;
/** The normal's 90 %: half of the 80 % interval, in standard deviations. */
const HALF_80 = 1.2816;

/** A catch, or the mean of several minutes apart. */
export interface LeakPoint {
  /** hours in steam since the service */
  x: number;
  y: number;
  sd: number;
  reading: DripReading;
}

export interface LeakCourse {
  points: readonly LeakPoint[];
  /** how many catches the points are of */
  catches: number;
  /** the last catch by itself */
  last: { y: number; sd: number };
  /** too few points, or all of one outing: no trend is told from them */
  few: boolean;
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
  const step = stepOf(points);
  const counted = step !== null ? points.filter((point) => point.x >= step.fromX) : points;
  const jump = jumpAt(counted, prior);
  const fit =
    step === null
      ? fitGrowth(counted, prior)
      : fitGrowth(counted, {
          ...prior,
          courses: [{ power: 1, weight: 1 }],
          start: { y: step.before, sd: scaleOf(limit) },
        });
  const nowH = Math.max(last.x, life.nowH - life.startH);
  const few = isFew(points);
  // one or two readings tell a level and no growth: it stands for now as it was then
  const levelH = few ? last.x : nowH;
  const chanceOver = (h: number) => fit.chanceAbove(few ? levelH : nowH + h, limit);
  const levelOf = (by: GrowthFit) => levelAt(by, levelH, Math.max(scaleOf(limit), last.y));
  const lastCatch = life.drips.at(-1) ?? last.reading;
  return {
    points,
    catches: life.drips.length,
    last: { y: lastCatch.gPerMin, sd: scatterOf(lastCatch.gPerMin, lastCatch.u, limit) },
    few,
    fit,
    nowH,
    levelNow: jump === null ? levelOf(fit) : eitherOf(levelOf(fit), levelOf(jump.before), last),
    slope: slopeOf(points, fit),
    ...timeToLimit(chanceOver, { few, jumped: jump !== null, stepped: step !== null }),
    rising: few ? null : risingOf(points),
    jump,
    step,
    chanceOver,
  };
}

/** What leaks are measured against: the limit, where it is not set out of all reach. */
const scaleOf = (limit: number): number => Math.min(limit, LARGEST_SCALE);

export function priorOf(limit: number, serviced: boolean): GrowthPrior {
  const scale = scaleOf(limit);
  return {
    courses: COURSES,
    trustInSd: TRUST_IN_SCATTER,
    // before anything was caught: newly done, little passes; else anything may
    start: serviced ? { y: 0.15 * scale, sd: 0.4 * scale } : { y: 0.3 * scale, sd: 0.8 * scale },
  };
}

const isFew = (points: readonly LeakPoint[]): boolean =>
  points.length < ENOUGH_FOR_A_TREND ||
  new Set(points.map(({ reading }) => reading.steamingId)).size < OUTINGS_FOR_A_TREND;

export function pointsOf({ drips, startH }: LifeSoFar, limit: number): LeakPoint[] {
  const levels = levelsOf(drips);
  const xs = levels.map(({ reading }) => Math.max(0.01, reading.hours - startH));
  const ys = levels.map(({ reading }) => reading.gPerMin);
  const spread = new Set(xs).size > 1 && xs.length >= ENOUGH_FOR_A_TREND;
  const line = spread ? theilSen(xs, ys) : null;
  return levels.map(({ reading, meanSd }, i) => {
    const [x, y] = [xs[i] ?? 0.01, ys[i] ?? 0];
    const level = line === null ? y : line.intercept + line.slope * x;
    return { x, y, sd: Math.max(meanSd, scatterOf(level, reading.u, limit)), reading };
  });
}

/** Standard deviation of one catch at a level. */
export const scatterOf = (level: number, u: number, limit: number): number =>
  Math.hypot(u, CATCH_SCATTER * Math.max(level, LEAST_LEVEL * scaleOf(limit)));

interface Level {
  reading: DripReading;
  /** standard deviation of the mean as the catches differ among themselves; 0 for a single one */
  meanSd: number;
}

/**
 * Catches of one outing minutes apart, put together. Of their doubt only the weighing becomes less with their number:
 * how the cloth lay that day is in all of them.
 */
function levelsOf(drips: readonly DripReading[]): Level[] {
  const groups: [DripReading, ...DripReading[]][] = [];
  for (const drip of drips) {
    const group = groups.at(-1);
    const isAgain = group?.[0].steamingId === drip.steamingId && drip.hours - group[0].hours <= ONE_LEVEL_H;
    if (group !== undefined && isAgain) group.push(drip);
    else groups.push([drip]);
  }
  return groups.map((group) => {
    const count = group.length;
    if (count === 1) return { reading: group[0], meanSd: 0 };
    const gPerMin = meanOf(group, (drip) => drip.gPerMin);
    const squares = group.reduce((sum, drip) => sum + (drip.gPerMin - gPerMin) ** 2, 0);
    const u = Math.hypot(...group.map((drip) => drip.u)) / count;
    const reading = { ...(group.at(-1) ?? group[0]), hours: meanOf(group, ({ hours }) => hours), gPerMin, u };
    return { reading, meanSd: Math.sqrt(squares / (count - 1) / count) };
  });
}

/** A first catch of more than this many limits shows that what is thought of a fitting before does not fit this one. */
const NOT_AS_THOUGHT = 2;

function priorFor(points: readonly LeakPoint[], limit: number, serviced: boolean): GrowthPrior {
  const prior = priorOf(limit, serviced);
  const first = points[0]?.y ?? 0;
  return prior.start === null || first <= NOT_AS_THOUGHT * scaleOf(limit)
    ? prior
    : { ...prior, start: { y: first, sd: first } };
}

function stepOf(points: readonly LeakPoint[]): LeakCourse["step"] {
  const step = stepIn(points);
  const first = points.find(({ x }) => step !== null && x >= step.fromX);
  return step === null || first === undefined ? null : { ...step, steamingId: first.reading.steamingId };
}

/** The last reading against what those before it foretell: a prediction interval's upper end. */
function jumpAt(
  points: readonly LeakPoint[],
  prior: GrowthPrior,
): (NonNullable<LeakCourse["jump"]> & { before: GrowthFit }) | null {
  const last = points.at(-1);
  const before = points.slice(0, -1);
  if (last === undefined || before.length < READINGS_BEFORE_A_JUMP) return null;
  const fit = fitGrowth(before, prior);
  return fit.chanceAbove(last.x, last.y, last.sd) < JUMP_CHANCE
    ? { reading: last.reading, expected: fit.at(last.x), before: fit }
    : null;
}

/** One or the other: what was expected before the last reading jumped, or what it jumped to. */
const eitherOf = (
  { value, low80, high80 }: LeakCourse["levelNow"],
  before: LeakCourse["levelNow"],
  { y, sd }: LeakPoint,
): LeakCourse["levelNow"] => ({
  value,
  low80: Math.min(low80, before.low80),
  high80: Math.max(high80, y + HALF_80 * sd),
});

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
  if (new Set(points.map(({ reading }) => reading.steamingId)).size < OUTINGS_FOR_A_TREND)
    return absent("catches of one outing show no trend");
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
