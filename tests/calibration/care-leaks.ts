import type { Random } from "../../sample-data/simulator/random.ts";
import {
  growingLaw,
  hoursAtLevel,
  type LeakLaw,
  leakAt,
  outingsOf,
  readerOf,
  type SeasonOuting,
  seasonRandom,
  soundLaw,
} from "../../sample-data/simulator/seasons/leak-season.ts";
import { leakCourse } from "../../src/care/leak-course.ts";
import { lookCourse } from "../../src/care/look-course.ts";
import { serviceEffect } from "../../src/care/service-effect.ts";
import { verdictOf } from "../../src/care/state.ts";
import type { State } from "../../src/care/verdict.ts";

/** So many of so many seasons. */
export interface Share {
  name: string;
  hits: number;
  of: number;
}

/** A fitting's life: from a service on; or the first that is logged, begun at an age nobody knows. */
export type LifeBegun = "serviced" | "first";

const named = (name: string, begun: LifeBegun): string => (begun === "first" ? `${name}, first life` : name);

/** Hours in steam at which the log begins: with the service, or somewhere on the way to so many hours. */
const logBegins = (random: Random, begun: LifeBegun, beforeH: number): number =>
  begun === "serviced" ? 0 : random.between(0, beforeH);
/** A log that begins in a fitting's last tenths has no time to see it grow: it begins before this part of its way. */
const BEGINS_BEFORE = 0.6;

const dripsOf = (outings: readonly SeasonOuting[]) =>
  outings.map(({ drip }) => drip).filter((drip) => drip !== null);

/** The state that the Fitter's book gives after the last of these outings. */
function stateAfter(
  law: LeakLaw,
  outings: readonly SeasonOuting[],
  by: "catches" | "looks",
  { startH, begun }: { startH: number; begun: LifeBegun } = { startH: 0, begun: "serviced" },
): State {
  const nowH = outings.at(-1)?.endH ?? startH;
  const serviced = begun === "serviced";
  const life = { drips: dripsOf(outings), startH, nowH, serviced };
  return verdictOf({
    fitting: { id: "a", name: "A", kind: "gland" },
    limit: { gPerMin: law.limit, own: true },
    leak: by === "catches" ? leakCourse(life, law.limit) : null,
    looks: lookCourse(
      outings.map(({ look }) => look),
      startH,
      nowH,
      serviced,
    ),
    drips: life.drips,
    leftOut: [],
    outingH: 0.8,
    sinceH: nowH - startH,
    service: null,
    signals: [],
  }).state;
}

/** Seasons in which a gland that grows to its limit is attend before it passes 1.25 times the limit. */
export function attendedInTime(seeds: readonly number[], begun: LifeBegun = "serviced"): Share {
  const hits = seeds.filter((seed) => {
    const random = seasonRandom(seed, "growing");
    const law = growingLaw(random);
    const tooLateH = hoursAtLevel(law, 1.25 * law.limit);
    const startH = logBegins(random, begun, BEGINS_BEFORE * law.hoursToLimit);
    const outings = outingsOf((h) => leakAt(law, h), readerOf(random), [startH, tooLateH], random).filter(
      ({ endH }) => endH <= tooLateH,
    );
    // nothing but the last outings can be wrong: a fitting once attend is attended to
    return outings.some(
      (_, i) => stateAfter(law, outings.slice(0, i + 1), "catches", { startH, begun }) === "attend",
    );
  });
  return {
    name: named("growing gland attend before 1.25 of the limit", begun),
    hits: hits.length,
    of: seeds.length,
  };
}

/** A sound fitting is at most so many hours in steam old when its log begins, and still far below its limit. */
const OLDEST_H = 10;

/** Sound fittings that were attend at any outing of a season of sixteen hours. */
export function falselyAttended(
  seeds: readonly number[],
  by: "catches" | "looks",
  begun: LifeBegun = "serviced",
): Share {
  const hits = seeds.filter((seed) => {
    const random = seasonRandom(seed, "sound");
    const drawn = soundLaw(random);
    // by looks alone the grade counts, whatever the limit: sound is what no good eye calls dripping
    const law = by === "looks" ? { ...drawn, fresh: Math.min(drawn.fresh, 0.15), limit: 0.8 } : drawn;
    const startH = logBegins(random, begun, OLDEST_H);
    const outings = outingsOf((h) => leakAt(law, h), readerOf(random), [startH, startH + 16], random);
    return outings.some(
      (_, i) => stateAfter(law, outings.slice(0, i + 1), by, { startH, begun }) === "attend",
    );
  });
  return {
    name: named(`sound fitting attend in a season, by ${by}`, begun),
    hits: hits.length,
    of: seeds.length,
  };
}

/** Fittings that pass a steady part of their limit, all season, and were attend at any outing of sixteen hours. */
export function steadyAttended(seeds: readonly number[], partOfLimit: number): Share {
  const hits = seeds.filter((seed) => {
    const random = seasonRandom(seed, "steady");
    const { limit } = soundLaw(random);
    const law: LeakLaw = {
      limit,
      fresh: partOfLimit * limit,
      hoursToLimit: Number.POSITIVE_INFINITY,
      power: 1,
    };
    const outings = outingsOf((h) => leakAt(law, h), readerOf(random), [0, 16], random);
    return outings.some((_, i) => stateAfter(law, outings.slice(0, i + 1), "catches") === "attend");
  });
  return {
    name: `steady at ${partOfLimit} of the limit, attend in a season`,
    hits: hits.length,
    of: seeds.length,
  };
}

export interface ForecastShares {
  held80: Share;
  held95: Share;
  /** forecasts that could be given, of those asked for */
  given: Share;
}

/** One moment of each season with five readings or more and the limit still ahead: does the interval hold the truth? */
export function forecastsHeld(
  seeds: readonly number[],
  which: (law: LeakLaw) => boolean = () => true,
  begun: LifeBegun = "serviced",
): ForecastShares {
  let [asked, given, held80, held95] = [0, 0, 0, 0];
  for (const seed of seeds) {
    const random = seasonRandom(seed, "forecast");
    const law = growingLaw(random);
    const startH = logBegins(random, begun, BEGINS_BEFORE * law.hoursToLimit);
    const outings = outingsOf((h) => leakAt(law, h), readerOf(random), [startH, law.hoursToLimit], random);
    const places = outings
      .map((_, i) => i + 1)
      .filter((count) => {
        const some = outings.slice(0, count);
        return dripsOf(some).length >= 5 && (some.at(-1)?.endH ?? 0) < law.hoursToLimit;
      });
    const count = places[random.whole(0, places.length - 1)];
    if (count === undefined || !which(law)) continue;
    asked += 1;
    const some = outings.slice(0, count);
    const nowH = some.at(-1)?.endH ?? 0;
    const life = { drips: dripsOf(some), startH, nowH, serviced: begun === "serviced" };
    const course = leakCourse(life, law.limit);
    const truth = law.hoursToLimit - nowH;
    const { hoursToLimit, hoursToLimit80 } = course ?? {};
    if (hoursToLimit80 === null || hoursToLimit80 === undefined) continue;
    given += 1;
    if (truth >= hoursToLimit80[0] && truth <= hoursToLimit80[1]) held80 += 1;
    const [low, high] = (hoursToLimit?.value !== null && hoursToLimit?.range95) || hoursToLimit80;
    if (truth >= low && truth <= high) held95 += 1;
  }
  return {
    held80: {
      name: named("80 % interval for hours to limit holds the truth", begun),
      hits: held80,
      of: given,
    },
    held95: { name: "95 % interval for hours to limit holds the truth", hits: held95, of: given },
    given: { name: "hours to limit could be told", hits: given, of: asked },
  };
}

/** Services told apart at any of the four steamings after: true ones, and mock ones that changed nothing. */
export function toldApart(seeds: readonly number[], repack: "true" | "mock"): Share {
  const hits = seeds.filter((seed) => {
    const random = seasonRandom(seed, "repack");
    const law = growingLaw(random);
    const reader = readerOf(random);
    const doneH = hoursAtLevel(law, law.limit * random.between(0.6, 1.2));
    const before = outingsOf((h) => leakAt(law, h), reader, [0, doneH], random);
    const startH = before.at(-1)?.endH ?? 0;
    const fresh: LeakLaw = { ...law, fresh: law.limit * random.between(0.03, 0.25) };
    const level = (h: number) => (repack === "true" ? leakAt(fresh, h - startH) : leakAt(law, h));
    const after = outingsOf(level, reader, [startH, startH + 8], random).slice(0, 4);
    return after.some((_, i) => {
      const drips = dripsOf(after.slice(0, i + 1));
      const life = { drips: dripsOf(before), looks: [], startH: 0, serviced: true };
      return serviceEffect(life, { drips, looks: [] }, law.limit).toldApart === true;
    });
  });
  return { name: `${repack} repack told apart within four steamings`, hits: hits.length, of: seeds.length };
}

export const percentOf = ({ hits, of }: Share): number => (100 * hits) / of;
