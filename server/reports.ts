import { type Analysis, analyse } from "../src/analysis/analyse.ts";
import { reportOf } from "../src/analysis/report.ts";
import type { Report } from "../src/analysis/report-schema.ts";
import type { Reported } from "../src/quantity/reported.ts";
import { ApiError } from "./errors.ts";
import type { SteamingSummary } from "./routes/shapes.ts";
import type { KeptSteaming } from "./store/steamings.ts";
import type { Store } from "./store/store.ts";

const reportsRemembered = 500;

/** Analyses of what the store keeps; a report is remembered until its steaming or its engine changes. */
export function reportsOf(store: Store) {
  const remembered = new Map<string, Report>();

  function analysisOf(steamingId: string, untilS?: number): Analysis {
    const steaming = store.wholeSteaming(steamingId);
    const engine = steaming && store.locomotives.get(steaming.locomotiveId);
    if (steaming === undefined || engine === undefined) throw noSuchSteaming(steamingId);
    return analyse(engine.locomotive, steaming, untilS === undefined ? {} : { untilS });
  }

  function report(steamingId: string, untilS?: number): Report {
    const kept = store.steamings.get(steamingId);
    if (kept === undefined) throw noSuchSteaming(steamingId);
    const engine = store.locomotives.get(kept.head.locomotiveId);
    const key = [steamingId, kept.revision, engine?.revision, untilS ?? "whole"].join("\n");
    const before = remembered.get(key);
    const now = before ?? reportOf(analysisOf(steamingId, untilS));
    remembered.delete(key);
    remembered.set(key, now);
    const oldest = remembered.keys().next().value;
    if (remembered.size > reportsRemembered && oldest !== undefined) remembered.delete(oldest);
    return now;
  }

  return { analysisOf, report, summary: (kept: KeptSteaming) => summaryOf(kept, report) };
}
export type Reports = ReturnType<typeof reportsOf>;

export const noSuchSteaming = (id: string): ApiError =>
  new ApiError("no-such-steaming", `there is no steaming ${id}`);

/** The same for who sends entries and must know whether the steaming was taken out or was never heard of. */
export const steamingMissing = (store: Store, id: string): ApiError =>
  store.changes.wasRemoved(id)
    ? new ApiError("steaming-removed", `steaming ${id} was taken out`)
    : noSuchSteaming(id);

function summaryOf(kept: KeptSteaming, report: (steamingId: string) => Report): SteamingSummary {
  const { id, locomotiveId, title, purpose, startedAt } = kept.head;
  const head = { id, locomotiveId, purpose, startedAt, entries: kept.entries };
  const { laps, figures } = shedFigures(() => report(id));
  return { ...head, ...(title === undefined ? {} : { title }), laps, figures };
}

/** The figures of a steaming in the shed; one that cannot be reckoned must not shut the shed. */
function shedFigures(report: () => Report): Pick<SteamingSummary, "laps" | "figures"> {
  try {
    const { phases, totals, perLap, perMinuteRunning, heat } = report();
    const without = (what: string): Reported => ({ value: null, why: `nothing logged gives ${what}` });
    return {
      laps: totals?.laps ?? 0,
      figures: {
        steamingRate:
          asRate(perMinuteRunning?.water) ?? longest(phases)?.steamingRate ?? without("a steaming rate"),
        waterPerLap: perLap?.water ?? without("the water of a lap"),
        fuelPerLap: perLap?.fuel ?? without("the fuel of a lap"),
        efficiency: heat?.efficiency ?? without("an efficiency"),
      },
    };
  } catch (error) {
    const why = `could not be reckoned: ${error instanceof Error ? error.message : String(error)}`;
    const none: Reported = { value: null, why };
    return {
      laps: 0,
      figures: { steamingRate: none, waterPerLap: none, fuelPerLap: none, efficiency: none },
    };
  }
}

/** The water of a minute's running, as the rate that it is. */
const asRate = (figure: Reported | undefined): Reported | undefined =>
  figure === undefined || figure.value === null ? figure : { ...figure, unit: "g/min" };

/** Where nothing was run, the steaming rate of the longest phase stands for the steaming. */
const longest = (phases: Report["phases"]): Report["phases"][number] | undefined =>
  phases.toSorted((a, b) => b.toS - b.fromS - (a.toS - a.fromS))[0];
