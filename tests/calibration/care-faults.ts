import { faultSeason } from "../../sample-data/simulator/seasons/fault-season.ts";
import { type PlantedFault, plantedFaults } from "../../sample-data/simulator/seasons/planted-faults.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { careOf } from "../../src/care/care.ts";
import type { Suspect } from "../../src/care/suspects.ts";

export interface FaultRow {
  fault: PlantedFault;
  cases: number;
  first: number;
  firstTwo: number;
  /** what stood first instead, most often first */
  instead: string[];
}

/** Where the Fitter's book would have its owner look first, for one engine with a fault planted. */
export function suspectsFor(fault: PlantedFault | null, seed: number): readonly Suspect[] {
  const { locomotive, steamings } = faultSeason(fault, seed);
  const records = steamings.map((steaming) => ({
    steaming,
    report: reportOf(analyse(locomotive, steaming)),
  }));
  return careOf(locomotive, records, []).suspects;
}

/** For each fault, how often it stands first and among the first two. */
export function faultsFound(
  seeds: readonly number[],
  progress: (done: number) => void = () => {},
): FaultRow[] {
  let done = 0;
  return plantedFaults.map((fault) => {
    const firsts: string[] = [];
    let [first, firstTwo] = [0, 0];
    for (const seed of seeds) {
      const names = suspectsFor(fault, seed).map(({ name }) => name);
      if (names[0] === fault) first += 1;
      else firsts.push(names[0] ?? "none");
      if (names.slice(0, 2).includes(fault)) firstTwo += 1;
      done += 1;
      progress(done);
    }
    return { fault, cases: seeds.length, first, firstTwo, instead: firsts };
  });
}
