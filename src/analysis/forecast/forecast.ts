import { isInSight } from "../../logbook/glass-reading.ts";
import {
  absent,
  degreesOfFreedom,
  type Figure,
  gathered,
  interval,
  isMeasured,
  type Measured,
  measured,
  scaled,
  standardUncertainty,
  sum,
} from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { heldCold } from "../state/held-cold.ts";
import type { Phase } from "../state/phases.ts";
import type { MassReading } from "../water/mass-reading.ts";
import { heldAtLevel } from "../water/mass-readings.ts";
import { notTold, rateWithin, type Water } from "../water/water.ts";
import { type WaterBalance, waterBalance } from "../water/water-balance.ts";
import { type Draining, timeUntilNone } from "./time-until-none.ts";

/** What is left until the lowest level, as of the last entry, if all goes on as it does and nothing is fed. */
export interface Forecast {
  atS: number;
  /** water and steam above what the boiler holds at its lowest level, g */
  waterAboveLowest: Figure;
  minutesToLowest: Figure;
  lapsToLowest: Figure;
  /** the water above the lowest level as it goes, g and g a minute; null where no minutes are to be had */
  draining: Draining | null;
}

/** The rate is taken over so long before now, or since this way of going on began, s. */
const LOOKS_BACK_S = 600;
/** Less than this tells no rate. */
const TOO_SHORT_S = 60;
/**
 * Relative standard uncertainty of the coming rate against the one just seen: the driver's hand, the load, stops for
 * steam, the safety valve, which takes its steam by the minute however she runs (our choice, held to account by the
 * calibration). On simulated runs water a lap to come strayed from that just drawn by 0.15 of it.
 */
const ANOTHER_WAY = { aMinute: 0.17, aLap: 0.15 };
/** Where she set off, or the looking back begins, between two laps: standard uncertainty of the laps since (our estimate). */
const U_BEGUN = 0.2;
/** Cylinders that were cold are warm after so long, s (our estimate). */
const WARMS_S = 60;
/** What they condense until then, in mean rates over that time: standard uncertainty (our estimate). */
const WARMING = 1;
/** In a longer run what was drawn at its beginning weighs little, s. */
const YOUNG_S = 1200;

const OUT_OF_SIGHT = "the water was out of sight in the glass when it was last looked at";
const DRAINED = "she was drained";
const FORGOTTEN = "no fire was in her for long, and the glass was not read since";
const FIRE_OUT = "the fire is out, and she does not run";
const SO_LITTLE = "so little is drawn that the readings do not tell it from nothing";

/** Null where nothing was read that tells the water in the boiler, and where she is full and cold. */
export function forecastOf(from: Sources, water: Water): Forecast | null {
  if (heldCold(from.steaming, from.timeline)) return null;
  const atS = from.timeline.lastS ?? 0;
  const nothing = (waterAboveLowest: Figure, why: Figure): Forecast => ({
    atS,
    waterAboveLowest,
    minutesToLowest: why,
    lapsToLowest: why,
    draining: null,
  });
  const none = (why: string) => nothing(absent(why), absent(why));
  const level = from.timeline.of("level").at(-1);
  if (level !== undefined && !isInSight(level)) return none(OUT_OF_SIGHT);
  if (water.input.readings.every((reading) => reading.of !== "contents")) return null;
  if (isEmpty(from.timeline)) return none(DRAINED);
  if (isForgotten(from, water, atS)) return none(FORGOTTEN);
  if (from.pressure.points.length === 0)
    return none(water.balance === null ? water.why : "no pressure was read");
  const now = from.phases.at(-1);
  const lowest = heldAtLevel(from, atS, from.locomotive.boiler.lowestLevelMm);
  const balance = water.balance && (warmingApart(water, from.phases, now, atS) ?? water.balance);
  const inBoiler = balance?.estimate({ unit: "g", contents: [[atS, 1]] }) ?? null;
  if (balance === null || inBoiler === null) {
    const why = absent(balance === null ? water.why : notTold(water));
    const lone = justRead(water, atS);
    return nothing(lone === null ? why : above(lone, lowest), why);
  }
  const waterAboveLowest = above(inBoiler, lowest);
  if (waterAboveLowest.value <= 0)
    return nothing(
      waterAboveLowest,
      absent("the water stands at the lowest level, or below it, by the readings"),
    );
  if (now?.name !== "running" && from.timeline.of("fire").at(-1)?.state === "out")
    return nothing(waterAboveLowest, absent(FIRE_OUT));
  if (now === undefined || now.name === "raising")
    return nothing(waterAboveLowest, absent("steam is not being used yet"));
  const rate = rateOf({ ...water, balance }, now, atS);
  if (!isMeasured(rate)) return nothing(waterAboveLowest, rate);
  const until = (way: number) => minutesOf(balance, lowest, waterAboveLowest, rate, way, now, atS);
  const minutes = until(ANOTHER_WAY.aMinute);
  if (minutes === null) return nothing(waterAboveLowest, absent(SO_LITTLE));
  const { figure: minutesToLowest, draining } = minutes;
  const pace = lapsAMinute(from, now, atS);
  const byLaps = isMeasured(pace)
    ? until(Math.hypot(ANOTHER_WAY.aLap, standardUncertainty(pace) / pace.value))
    : null;
  return {
    atS,
    waterAboveLowest,
    minutesToLowest,
    lapsToLowest: !isMeasured(pace)
      ? pace
      : byLaps === null
        ? absent(SO_LITTLE)
        : scaled(byLaps.figure, pace.value, "1"),
    draining,
  };
}

/** Nothing was put in or read after she was drained. */
function isEmpty({ entries }: Sources["timeline"]): boolean {
  const touching = ["drained", "fill", "feed", "level", "weight"];
  return entries.findLast(({ kind }) => touching.includes(kind))?.kind === "drained";
}

/** Without a fire for so long, s, and no water read since, nobody knows what she lost as she cooled (our choice). */
const FORGOTTEN_S = 1200;

function isForgotten({ pressure }: Sources, { input }: Water, atS: number): boolean {
  const aloneS = pressure.away[0]?.[0] ?? Number.POSITIVE_INFINITY;
  return atS - aloneS > FORGOTTEN_S && input.readings.every((reading) => reading.atS <= aloneS);
}

/** A glass read so lately tells what she holds by itself, s; meanwhile she may have used this part of it a second (our estimate). */
const JUST_READ = { withinS: 60, usedAS: 0.02 / 60 };

/** The one reading of the glass there is, if it was read just now; null otherwise. */
function justRead({ input }: Water, atS: number): Measured | null {
  const held = input.readings.filter(({ of }) => of === "contents");
  const [only] = held;
  if (only === undefined || held.length > 1 || only.poured || atS - only.atS > JUST_READ.withinS) return null;
  const used = JUST_READ.usedAS * (atS - only.atS) * only.grams;
  // signed as the balance has them: see above()
  const shared = only.shared.map(({ uGrams, ...part }) => ({ ...part, u: -uGrams }));
  const parts = [
    { name: "readings", u: only.uGrams },
    { name: "used since the reading", u: used },
    ...shared,
  ];
  return { value: only.grams, unit: "g", parts: gathered(parts) };
}

/**
 * Cold cylinders condense steam when she sets off. Taken for her usual draught it would make her seem thirstier than
 * she goes on, so what the first minute of a run took is left open for a while; null where she did not set off lately.
 */
function warmingApart(
  { input }: Water,
  phases: readonly Phase[],
  now: Phase | undefined,
  atS: number,
): WaterBalance | null {
  if (now?.name !== "running" || atS - now.fromS > YOUNG_S || input.pumpingS !== null) return null;
  const within = phases
    .filter((phase) => phase.name === "running")
    .map(({ fromS, toS }) => [fromS, Math.min(toS, fromS + WARMS_S)] as const);
  const warming = { name: "warming of the cylinders", within, prior: WARMING };
  const others = input.effects.filter(({ isError }) => !isError);
  return waterBalance({ ...input, effects: [...others, warming] });
}

/**
 * A figure of the water in the boiler, less the water at the lowest level. Boiler volume and dial are wrong at both
 * alike: a part says how the figure moves with the error, which makes a reading of so many grams wrong the other way.
 */
function above(figure: Measured, lowest: MassReading): Measured {
  const shared = lowest.shared.map(({ source, name, uGrams }) => ({ source, name, u: uGrams }));
  return {
    ...figure,
    value: figure.value - lowest.grams,
    parts: gathered([...figure.parts, ...shared]),
  };
}

/**
 * Water over rate. Both lean on the same last readings, so their error is that of the one combination water less
 * minutes x rate. Null where the range has no upper end.
 */
function minutesOf(
  balance: WaterBalance,
  lowest: MassReading,
  water: Measured,
  rate: Measured,
  way: number,
  now: Phase,
  atS: number,
): { figure: Measured; draining: Draining } | null {
  const gPerMin = rate.value;
  const minutes = water.value / gPerMin;
  const fromS = lookBackS(now, atS);
  const perG = (60 * minutes) / (atS - fromS);
  const both = balance.estimate({
    unit: "g",
    contents: [[atS, 1]],
    drawn: [
      [atS, -perG],
      [fromS, perG],
    ],
  });
  if (both === null) return null;
  const { parts } = scaled(above(both, lowest), 1 / gPerMin, "min");
  const figure: Measured = {
    value: minutes,
    unit: "min",
    parts: [...parts, { name: "how the engine will go on", u: way * minutes }],
  };
  const leftVariance = standardUncertainty(water) ** 2;
  const rateVariance = standardUncertainty(rate) ** 2 + (way * gPerMin) ** 2;
  const variance = (standardUncertainty(figure) * gPerMin) ** 2;
  const draining = {
    left: water.value,
    rate: gPerMin,
    leftVariance,
    rateVariance,
    covariance: (leftVariance + minutes ** 2 * rateVariance - variance) / (2 * minutes),
    degreesOfFreedom: degreesOfFreedom(figure),
  };
  const range95 = timeUntilNone(draining, 0.95);
  const range90 = timeUntilNone(draining, 0.9);
  return Number.isFinite(range95[1]) ? { figure: { ...figure, range95, range90 }, draining } : null;
}

/** When the rate begins to be taken: once the cylinders are warm, if that leaves enough. */
function lookBackS({ name, fromS }: Phase, atS: number): number {
  const warmS = name === "running" && atS - fromS > WARMS_S + TOO_SHORT_S ? fromS + WARMS_S : fromS;
  return Math.max(warmS, atS - LOOKS_BACK_S);
}

function rateOf(water: Water, now: Phase, atS: number): Figure {
  const fromS = lookBackS(now, atS);
  if (atS - fromS < TOO_SHORT_S) return absent("she has gone on like this for less than a minute");
  const rate = rateWithin(water, fromS, atS);
  return isMeasured(rate) && interval(rate)[0] <= 0 ? absent(SO_LITTLE) : rate;
}

/**
 * Laps a minute over the time that the rate is taken over, for a stop in it slows both; of the whole run where fewer than
 * two laps fall in it. What is thought to be forgotten counts with what was written.
 */
function lapsAMinute(from: Sources, now: Phase, atS: number): Figure {
  if (now.name !== "running") return absent("the engine is not running");
  const entries = from.timeline.of("lap").filter((lap) => lap.atS > now.fromS);
  const last = entries.at(-1);
  if (last === undefined || from.laps.countIn(now.fromS, atS) < 2)
    return absent("fewer than two laps of this run were recorded");
  const marks = [now.fromS, ...entries.map((lap) => lap.atS)];
  const since = marks.findLast((markS) => markS <= lookBackS(now, atS)) ?? now.fromS;
  const fromS = from.laps.countIn(since, atS) < 2 ? now.fromS : since;
  const run = from.laps.runIn(fromS, last.atS);
  const { unseen } = from.laps;
  const part = run.value / from.timeline.of("lap").reduce((sum, { count }) => sum + count, 0);
  const begun = measured(0, U_BEGUN, "1", "a lap begun");
  return scaled(sum(sum(run, scaled(unseen, part, "1")), begun), 60 / (last.atS - fromS), "1/min");
}
