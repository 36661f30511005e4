import { forecastOf } from "../../../src/analysis/forecast.ts";
import { fuelProperties } from "../../../src/analysis/fuel-table.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { rateWithin, waterOf } from "../../../src/analysis/water.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { type Figure, interval, isMeasured } from "../../../src/quantity/measured.ts";
import type { LogEntry } from "../../outbox/database.ts";

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
  /** of the phase that goes on */
  steamingRateGPerMin: Likely | null;
  /** until what was put in is burnt; null where it cannot be told */
  minutesToFuelEnd: Likely | null;
}

const NINE_IN_TEN = 0.9;

/** Works it out on the phone, from what stands in its own log. Null where there is nothing to reckon with, or the log cannot be worked out. */
export function reckon(
  engine: Locomotive,
  head: SteamingHead,
  entries: readonly LogEntry[],
): Reckoning | null {
  if (entries.length === 0) return null;
  try {
    const sources = sourcesOf(engine, { ...head, entries: [...entries] });
    const water = waterOf(sources);
    const forecast = forecastOf(sources, water);
    const now = sources.phases.at(-1);
    return {
      atS: sources.timeline.lastS ?? 0,
      waterAboveLowestG: likely(forecast?.waterAboveLowest),
      minutesToLowest: likely(forecast?.minutesToLowest),
      lapsToLowest: likely(forecast?.lapsToLowest),
      why: forecast === null ? "no water was read in the glass yet" : whyOf(forecast.minutesToLowest),
      steamingRateGPerMin:
        now === undefined || now.name === "raising" ? null : likely(rateWithin(water, now.fromS, now.toS)),
      minutesToFuelEnd: fuelEnd(engine, entries, sources),
    };
  } catch (error) {
    // the arithmetic names what it cannot take; recording goes on whatever it says
    const why = error instanceof Error ? error.message : String(error);
    return {
      atS: entries.at(-1)?.atS ?? 0,
      waterAboveLowestG: null,
      minutesToLowest: null,
      lapsToLowest: null,
      why,
      steamingRateGPerMin: null,
      minutesToFuelEnd: null,
    };
  }
}

function likely(figure: Figure | undefined): Likely | null {
  if (figure === undefined || !isMeasured(figure)) return null;
  const [low, high] = interval(figure, NINE_IN_TEN);
  return { value: figure.value, low, high };
}

const whyOf = (figure: Figure): string => (isMeasured(figure) ? "" : figure.why);

/** Relative doubt of how a fire goes on burning against how it burnt (our choice). */
const BURNS_ON = 0.3;
const FACTOR_90 = 1.645;

/**
 * What was put in, less what was burnt by the last reading of what remained, over the rate at which it went until
 * then. Without such a reading nothing is said: how hard a fire burns is not known from its lighting alone.
 */
function fuelEnd(
  engine: Locomotive,
  entries: readonly LogEntry[],
  sources: { timeline: { lastS: number | null }; fuel: { fire: readonly (readonly [number, number])[] } },
): Likely | null {
  const density = fuelProperties(engine.fuel)?.densityGPerMl ?? engine.fuel.densityGPerMl ?? null;
  const grams = (each: Extract<LogEntry, { kind: "fuel" }>) =>
    each.g ?? (density === null || each.ml === undefined ? null : each.ml * density);
  const fuel = entries.filter((each) => each.kind === "fuel") as Extract<LogEntry, { kind: "fuel" }>[];
  const [litS, outS] = [sources.fuel.fire[0]?.[0], sources.fuel.fire.at(-1)?.[1]];
  const nowS = sources.timeline.lastS;
  if (litS === undefined || nowS === null || outS === undefined || outS < nowS) return null;
  const looked = fuel.findLast((each) => each.action === "remaining" && each.atS > litS);
  if (looked === undefined) return null;
  const left = grams(looked);
  const putIn = fuel
    .filter((each) => each.action === "added" && each.atS <= looked.atS)
    .reduce((sum, each) => sum + (grams(each) ?? Number.NaN), 0);
  const since = fuel
    .filter((each) => each.action === "added" && each.atS > looked.atS)
    .reduce((sum, each) => sum + (grams(each) ?? Number.NaN), 0);
  if (left === null || !(putIn > left)) return null;
  const perMinute = (putIn - left) / ((looked.atS - litS) / 60);
  const minutes = (left + since) / perMinute - (nowS - looked.atS) / 60;
  if (!(minutes > 0) || !Number.isFinite(minutes)) return null;
  const factor = Math.exp(FACTOR_90 * BURNS_ON);
  return { value: minutes, low: minutes / factor, high: minutes * factor };
}
