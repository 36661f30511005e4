import { type FaultEngine, faultEngines } from "../../sample-data/simulator/seasons/fault-engines.ts";
import { faultSeason } from "../../sample-data/simulator/seasons/fault-season.ts";
import type { PlantedFault } from "../../sample-data/simulator/seasons/planted-faults.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import type { Report } from "../../src/analysis/report-schema.ts";
import { careOf } from "../../src/care/care.ts";
import type { Suspect } from "../../src/care/suspects.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import type { Share } from "./care-leaks.ts";

export interface FaultRow {
  engine: string;
  fault: PlantedFault;
  cases: number;
  first: number;
  firstTwo: number;
  /** what stood first instead */
  instead: string[];
  /** suspects named altogether */
  listed: number;
}

const reports = new WeakMap<Steaming, Report>();

/** The sound outings of a season serve all its faults: each is analysed once. */
function reportFor(locomotive: Locomotive, steaming: Steaming): Report {
  const report = reports.get(steaming) ?? reportOf(analyse(locomotive, steaming));
  reports.set(steaming, report);
  return report;
}

/** Where the Fitter's book would have its owner look first, for one engine with a fault planted. */
export function suspectsFor(fault: PlantedFault | null, seed: number, bed: FaultEngine): readonly Suspect[] {
  const { locomotive, steamings } = faultSeason(fault, seed, bed);
  const records = steamings.map((steaming) => ({
    steaming,
    report: reportFor(locomotive, steaming),
  }));
  return careOf(locomotive, records, []).suspects;
}

/** For each engine and fault, how often it stands first and among the first two. */
export function faultsFound(
  seeds: readonly number[],
  progress: (done: number) => void = () => {},
): FaultRow[] {
  let done = 0;
  return faultEngines.flatMap((bed) =>
    bed.faults.map((fault) => {
      const row: FaultRow = {
        engine: bed.engine.locomotive.name,
        fault,
        cases: seeds.length,
        first: 0,
        firstTwo: 0,
        instead: [],
        listed: 0,
      };
      for (const seed of seeds) {
        const names = suspectsFor(fault, seed, bed).map(({ name }) => name);
        if (names[0] === fault) row.first += 1;
        else row.instead.push(names[0] ?? "none");
        if (names.slice(0, 2).includes(fault)) row.firstTwo += 1;
        row.listed += names.length;
        done += 1;
        progress(done);
      }
      return row;
    }),
  );
}

/** Seasons of engines with nothing the matter, both engines alike, that name no suspect at the end. */
export function soundUnaccused(seeds: readonly number[]): Share {
  const seasons = faultEngines.flatMap((bed) => seeds.map((seed) => suspectsFor(null, seed, bed)));
  return {
    name: "sound engine names no suspect",
    hits: seasons.filter((suspects) => suspects.length === 0).length,
    of: seasons.length,
  };
}

/** All rows together. */
export const together = (rows: readonly FaultRow[], of: "first" | "firstTwo"): Share => ({
  name: of === "first" ? "planted fault stands first" : "planted fault among the first two",
  hits: rows.reduce((sum, row) => sum + row[of], 0),
  of: rows.reduce((sum, row) => sum + row.cases, 0),
});
