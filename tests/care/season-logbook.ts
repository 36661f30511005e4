import {
  type LeakLaw,
  leakAt,
  readerOf,
  seasonRandom,
} from "../../sample-data/simulator/seasons/leak-season.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Fitting, Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { smallEngine } from "../support/small-logbook.ts";

export const engineWith = (fittings: Fitting[]): Locomotive => ({ ...smallEngine(), fittings });

const HOUR_S = 3600;

/** One hour in steam at a steady pressure, with the given entries; the nth week of the season. */
export function outing(week: number, entries: Entry[], barG = 3): Steaming {
  return {
    id: `week-${week}`,
    locomotiveId: "small",
    purpose: "trial",
    startedAt: new Date(Date.UTC(2026, 3, 4, 10) + week * 7 * 24 * HOUR_S * 1000).toISOString(),
    entries: [
      { kind: "pressure", barG, atS: 0 },
      { kind: "pressure", barG, atS: HOUR_S / 2 },
      ...entries,
      { kind: "pressure", barG, atS: HOUR_S },
    ],
  };
}

/** A drip of so many g/min, caught for two minutes half an hour on. */
export const drip = (fitting: string, gPerMin: number): Entry => ({
  kind: "drip",
  fitting,
  g: 2 * gPerMin,
  overS: 120,
  atS: 2000,
});

export const recordsOf = (engine: Locomotive, steamings: readonly Steaming[]) =>
  steamings.map((steaming) => ({ steaming, report: reportOf(analyse(engine, steaming)) }));

/** Weeks of one gland's life by a law, caught each time with the strays of a reader. */
export function glandSeason(law: LeakLaw, weeks: number, seed: number): Steaming[] {
  const random = seasonRandom(seed, "logbook");
  const reader = readerOf(random);
  return Array.from({ length: weeks }, (_, week) => {
    const level = leakAt(law, week + 2000 / HOUR_S);
    return outing(week, [drip("gland", Math.max(0, level * (1 + reader.scatter * random.normal())))]);
  });
}
