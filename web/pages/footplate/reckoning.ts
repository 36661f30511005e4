import { forecastOf } from "../../../src/analysis/forecast.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { rateWithin, waterOf } from "../../../src/analysis/water.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { type Figure, interval, isMeasured } from "../../../src/quantity/measured.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { type FuelEnd, fuelEnd, type Likely } from "./fuel-end.ts";

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
  fuelEnd: FuelEnd;
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
      fuelEnd: fuelEnd(engine, entries, sources),
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
      fuelEnd: { minutes: null, why },
    };
  }
}

function likely(figure: Figure | undefined): Likely | null {
  if (figure === undefined || !isMeasured(figure)) return null;
  const [low, high] = interval(figure, NINE_IN_TEN);
  return { value: figure.value, low, high };
}

const whyOf = (figure: Figure): string => (isMeasured(figure) ? "" : figure.why);
