import { isInSight } from "../logbook/glass-reading.ts";
import {
  absent,
  type Figure,
  interval,
  type Measured,
  scaled,
  standardUncertainty,
} from "../quantity/measured.ts";
import type { Phase } from "./phases.ts";
import type { Sources } from "./sources.ts";
import { notTold, rateWithin, type Water } from "./water.ts";
import type { WaterBalance } from "./water-balance.ts";

/** What is left until the lowest level, as of the last entry, if all goes on as it does and nothing is fed. */
export interface Forecast {
  atS: number;
  /** water and steam above what the boiler holds at its lowest level, g */
  waterAboveLowest: Figure;
  minutesToLowest: Figure;
  lapsToLowest: Figure;
}

/** The rate is taken over so long before now, or since this way of going on began, s. */
const LOOKS_BACK_S = 600;
/** Less than this tells no rate. */
const TOO_SHORT_S = 60;
/**
 * Relative standard uncertainty of the coming rate against the one just seen: the driver's hand, the load and stops for
 * steam (our choice, held to account by the calibration).
 */
const ANOTHER_WAY = 0.2;

const OUT_OF_SIGHT = "the water was out of sight in the glass when it was last looked at";

/** Null where nothing was read that tells the water in the boiler. */
export function forecastOf(from: Sources, water: Water): Forecast | null {
  const atS = from.timeline.lastS ?? 0;
  const none = (why: string): Forecast => {
    const figure = absent(why);
    return { atS, waterAboveLowest: figure, minutesToLowest: figure, lapsToLowest: figure };
  };
  const level = from.timeline.of("level").at(-1);
  if (level !== undefined && !isInSight(level)) return none(OUT_OF_SIGHT);
  if (water.input.readings.every((reading) => reading.of !== "contents")) return null;
  if (water.balance === null) return none(water.why);
  if (from.pressure.points.length === 0) return none("no pressure was read");
  const inBoiler = water.balance.estimate({ unit: "g", contents: [[atS, 1]] });
  if (inBoiler === null) return none(notTold(water));
  const waterAboveLowest: Measured = { ...inBoiler, value: inBoiler.value - atLowestG(from, atS) };

  const now = from.phases.findLast((phase) => phase.fromS <= atS && phase.toS >= atS);
  if (waterAboveLowest.value <= 0) {
    const reached = absent("the water stands at the lowest level, or below it, by the readings");
    return { atS, waterAboveLowest, minutesToLowest: reached, lapsToLowest: reached };
  }
  const rate = rateOf(water, now, atS);
  if (rate.value === null || now === undefined) {
    const why = rate.value === null ? rate : absent(notTold(water));
    return { atS, waterAboveLowest, minutesToLowest: why, lapsToLowest: why };
  }
  const minutesToLowest = minutesOf(
    water.balance,
    waterAboveLowest.value,
    rate.value,
    lookBackS(now, atS),
    atS,
  );
  return { atS, waterAboveLowest, minutesToLowest, lapsToLowest: lapsIn(from, now, atS, minutesToLowest) };
}

/**
 * Water over rate. Both lean on the same last readings, so their error is that of the one combination water less
 * minutes x rate. The range is that of a ratio that cannot be negative: factors either way.
 */
function minutesOf(
  balance: WaterBalance,
  grams: number,
  gPerMin: number,
  fromS: number,
  atS: number,
): Measured {
  const minutes = grams / gPerMin;
  const perG = (60 * minutes) / (atS - fromS);
  const both = balance.estimate({
    unit: "g",
    contents: [[atS, 1]],
    drawn: [
      [atS, -perG],
      [fromS, perG],
    ],
  });
  const readings = both === null ? [] : scaled(both, 1 / gPerMin, "min").parts;
  const parts = [...readings, { name: "how the engine will go on", u: ANOTHER_WAY * minutes }];
  const even: Measured = { value: minutes, unit: "min", parts };
  const factor = Math.exp((1.96 * standardUncertainty(even)) / minutes);
  return { ...even, range95: [minutes / factor, minutes * factor] };
}

/** What the boiler holds with the glass at its lowest level, at the pressure of the moment, g. */
function atLowestG(from: Sources, atS: number): number {
  const { water, steam } = from.stateAt(atS);
  const waterM3 = from.geometry.waterM3AtLevelMm(from.locomotive.boiler.lowestLevelMm);
  const steamM3PerKg = steam?.volumeM3PerKg ?? Number.POSITIVE_INFINITY;
  return 1000 * (waterM3 / water.volumeM3PerKg + (from.geometry.totalM3 - waterM3) / steamM3PerKg);
}

const lookBackS = (now: Phase, atS: number): number => Math.max(now.fromS, atS - LOOKS_BACK_S);

function rateOf(water: Water, now: Phase | undefined, atS: number): Figure {
  if (now === undefined || now.name === "raising") return absent("steam is not being used yet");
  const fromS = lookBackS(now, atS);
  if (atS - fromS < TOO_SHORT_S) return absent("she has gone on like this for less than a minute");
  const rate = rateWithin(water, fromS, atS);
  return rate.value !== null && interval(rate)[0] <= 0
    ? absent("so little is drawn that the readings do not tell it from nothing")
    : rate;
}

/** Laps at the pace of the run so far. */
function lapsIn(from: Sources, now: Phase | undefined, atS: number, minutes: Measured): Figure {
  if (now?.name !== "running") return absent("the engine is not running");
  const laps = from.laps.countIn(now.fromS, atS);
  const lastS = from.timeline.of("lap").findLast((lap) => lap.atS > now.fromS && lap.atS <= atS)?.atS;
  if (laps < 2 || lastS === undefined) return absent("fewer than two laps of this run were recorded");
  return scaled(minutes, (60 * laps) / (lastS - now.fromS), "1");
}
