import type { DripReading, Grade, LookReading } from "../../../src/care/evidence.ts";
import { gradeOf } from "../observer-fittings.ts";
import { type Random, randomOf } from "../random.ts";

/** How a fitting's leak grows with hours in steam since it was done: fresh + (limit - fresh) (h / hoursToLimit)^power. */
export interface LeakLaw {
  limit: number;
  fresh: number;
  hoursToLimit: number;
  power: number;
}

export const leakAt = ({ limit, fresh, hoursToLimit, power }: LeakLaw, hours: number): number =>
  fresh + (limit - fresh) * (Math.max(0, hours) / hoursToLimit) ** power;

/** Hours in steam at which a law reaches a level. */
export const hoursAtLevel = ({ limit, fresh, hoursToLimit, power }: LeakLaw, level: number): number =>
  level <= fresh ? 0 : hoursToLimit * ((level - fresh) / (limit - fresh)) ** (1 / power);

/** The habits of who reads: how far catches stray, what a scale adds, how often one is forgotten. */
export interface Reader {
  scatter: number;
  weighingGPerMin: number;
  forgets: number;
  /** chance that a look is a grade out */
  misjudges: number;
}

export const readerOf = (random: Random): Reader => ({
  scatter: random.between(0.06, 0.18),
  weighingGPerMin: random.between(0.005, 0.03),
  forgets: random.between(0, 0.25),
  misjudges: random.between(0.05, 0.2),
});

/** Growing to its limit over ten to forty hours of steam, evenly or more and more. */
export function growingLaw(random: Random): LeakLaw {
  const limit = random.pick([0.2, 0.3, 0.4, 0.5, 0.8]);
  return {
    limit,
    fresh: limit * random.between(0.03, 0.25),
    hoursToLimit: 10 * 4 ** random.uniform(),
    power: random.pick([1, 1, 1, 1.2, 1.5]),
  };
}

/** A sound fitting: far below its limit, and growing so slowly that no season takes it there. */
export function soundLaw(random: Random): LeakLaw {
  const limit = random.pick([0.2, 0.3, 0.4, 0.5, 0.8]);
  return {
    limit,
    fresh: limit * random.between(0.03, 0.5),
    hoursToLimit: random.between(120, 1000),
    power: 1,
  };
}

/** One outing's end and what was read at it. */
export interface SeasonOuting {
  endH: number;
  drip: DripReading | null;
  look: LookReading;
}

const HOUR_MS = 3_600_000;

/**
 * Outings from `fromH` to `untilH` hours in steam, each of 24 minutes to an hour and a quarter.
 * @param levelAt what passes at so many hours, g/min at working pressure
 */
export function outingsOf(
  levelAt: (hours: number) => number,
  reader: Reader,
  [fromH, untilH]: readonly [number, number],
  random: Random,
): SeasonOuting[] {
  const outings: SeasonOuting[] = [];
  let hours = fromH;
  while (hours < untilH) {
    const lasts = random.between(0.4, 1.25);
    const atH = hours + lasts * random.between(0.3, 0.9);
    const level = levelAt(atH);
    const at = {
      steamingId: `outing-${outings.length + 1}`,
      atMs: outings.length * 168 * HOUR_MS,
      hours: atH,
    };
    hours += lasts;
    const caught = level * (1 + reader.scatter * random.normal()) + reader.weighingGPerMin * random.normal();
    outings.push({
      endH: hours,
      drip: random.chance(reader.forgets)
        ? null
        : { ...at, gPerMin: Math.max(0, caught), u: reader.weighingGPerMin },
      look: { ...at, grade: misjudged(gradeOf(level), reader.misjudges, random) },
    });
  }
  return outings;
}

const order: readonly [Grade, ...Grade[]] = ["dry", "damp", "weeping", "dripping", "blowing"];

function misjudged(grade: Grade, chance: number, random: Random): Grade {
  if (!random.chance(chance)) return grade;
  return order[order.indexOf(grade) + (random.chance(0.5) ? 1 : -1)] ?? grade;
}

export const seasonRandom = (seed: number, what: string): Random => randomOf(seed, `season ${what}`);
