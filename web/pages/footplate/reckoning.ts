import { forecastOf } from "../../../src/analysis/forecast/forecast.ts";
import { chanceFirst, timeUntilNone } from "../../../src/analysis/forecast/time-until-none.ts";
import { type FuelLeft, fuelLeft } from "../../../src/analysis/fuel/fuel-end.ts";
import { sourcesByHand } from "../../../src/analysis/sources-by-hand.ts";
import type { Phase } from "../../../src/analysis/state/phases.ts";
import { rateWithin, type Water, waterOf } from "../../../src/analysis/water/water.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { type Figure, interval, isMeasured } from "../../../src/quantity/measured.ts";
import type { LogEntry } from "../../outbox/database.ts";
import type { WaterLeft } from "./standing.ts";

/** A figure and where it lies, 9 times in 10. */
export interface Likely {
  value: number;
  low: number;
  high: number;
}

/** What can be reckoned of a steaming that goes on, as of its last entry. */
export interface Reckoning {
  atS: number;
  waterAboveLowestG: Likely | null;
  minutesToLowest: Likely | null;
  lapsToLowest: Likely | null;
  /** why there are no minutes */
  why: string;
  /** when the glass was last looked at, if that was long ago */
  unreadSinceS: number | null;
  /** of the phase that goes on */
  steamingRateGPerMin: Likely | null;
  /** of the last run that tells one: she may go on like that at any moment */
  runningGPerMin: number | null;
  fuelMinutes: Likely | null;
  /** why there are none */
  fuelWhy: string;
  /** chance that the water is at the lowest level before the fuel is gone; null where one of them is not told */
  waterFirst: number | null;
}

const NINE_IN_TEN = 0.9;
/** A run that was shorter, or looked back on no further, tells no rate, s. */
const SHORTEST_S = 60;
const LOOKS_BACK_S = 600;
/** What was read in the glass longer ago may tell no time any more, s (our choice). */
const UNREAD_S = 300;
/** When she goes on she may draw so many times what she drew on the last run (our choice). */
const QUICKER = 1.5;

const NOTHING = {
  waterAboveLowestG: null,
  minutesToLowest: null,
  lapsToLowest: null,
  steamingRateGPerMin: null,
  runningGPerMin: null,
  fuelMinutes: null,
  waterFirst: null,
};

/** Works it out on the phone, from what stands in its own log. Null where there is nothing to reckon with, or the log cannot be worked out. */
export function reckon(
  engine: Locomotive,
  head: SteamingHead,
  entries: readonly LogEntry[],
): Reckoning | null {
  const lastS = entries.at(-1)?.atS;
  if (lastS === undefined) return null;
  const levels = entries.filter(({ kind }) => kind === "level");
  const readS = levels.at(-1)?.atS ?? lastS;
  const unreadSinceS = levels.length > 1 && lastS - readS > UNREAD_S ? readS : null;
  try {
    const sources = sourcesByHand(engine, { ...head, entries: [...entries] });
    const water = waterOf(sources);
    const forecast = forecastOf(sources, water);
    const fuel = fuelLeft(sources);
    const now = sources.phases.at(-1);
    return {
      atS: sources.timeline.lastS ?? 0,
      waterAboveLowestG: likely(forecast?.waterAboveLowest),
      minutesToLowest: likely(forecast?.minutesToLowest),
      lapsToLowest: likely(forecast?.lapsToLowest),
      why: forecast === null ? "no water was read in the glass yet" : whyOf(forecast.minutesToLowest),
      unreadSinceS,
      steamingRateGPerMin:
        now === undefined || now.name === "raising" ? null : likely(rateWithin(water, now.fromS, now.toS)),
      runningGPerMin: runningGPerMin(sources.phases, water),
      ...fuelReckoned(fuel),
      waterFirst: forecast?.draining && fuel.draining ? chanceFirst(forecast.draining, fuel.draining) : null,
    };
  } catch (error) {
    // the arithmetic names what it cannot take; recording goes on whatever it says
    const why = error instanceof Error ? error.message : String(error);
    return { ...NOTHING, atS: lastS, unreadSinceS, why, fuelWhy: why };
  }
}

function fuelReckoned({ draining, why }: FuelLeft): Pick<Reckoning, "fuelMinutes" | "fuelWhy"> {
  if (draining === null) return { fuelMinutes: null, fuelWhy: why };
  const [low, high] = timeUntilNone(draining, NINE_IN_TEN);
  return { fuelMinutes: { value: draining.left / draining.rate, low, high }, fuelWhy: "" };
}

function runningGPerMin(phases: readonly Phase[], water: Water): number | null {
  for (const { name, fromS, toS } of [...phases].reverse()) {
    if (name !== "running" || toS - fromS < SHORTEST_S) continue;
    const rate = rateWithin(water, Math.max(fromS, toS - LOOKS_BACK_S), toS);
    if (isMeasured(rate) && interval(rate)[0] > 0) return rate.value;
  }
  return null;
}

/**
 * What is left by now. A stop, or another way of going on, puts no water in: what was soon low stays so, by what she
 * last drew on the run.
 */
export function waterLeft(reckoning: Reckoning | null, nowS: number): WaterLeft {
  const {
    waterAboveLowestG: above,
    minutesToLowest,
    runningGPerMin,
    unreadSinceS = null,
    atS,
  } = reckoning ?? { atS: 0 };
  if (above == null) return { likelyMin: null, leastMin: null, unreadSinceS };
  const agoMin = Math.max(0, nowS - atS) / 60;
  const least = [
    minutesToLowest != null && minutesToLowest.low - agoMin,
    runningGPerMin != null && above.value / (QUICKER * runningGPerMin),
  ].filter((each) => each !== false);
  return {
    likelyMin: above.value <= 0 ? 0 : minutesToLowest == null ? null : minutesToLowest.value - agoMin,
    leastMin: least.length === 0 ? null : Math.min(...least),
    unreadSinceS,
  };
}

function likely(figure: Figure | undefined): Likely | null {
  if (figure === undefined || !isMeasured(figure)) return null;
  const [low, high] = interval(figure, NINE_IN_TEN);
  return { value: figure.value, low, high };
}

const whyOf = (figure: Figure): string => (isMeasured(figure) ? "" : figure.why);
