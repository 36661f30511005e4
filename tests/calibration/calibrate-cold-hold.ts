import { simulateColdHold } from "../../sample-data/simulator/cold-hold.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { absent } from "../../src/quantity/measured.ts";
import { type Coverage, CoverageTally } from "./coverage.ts";

/** Hydraulic holds drawn by chance, each worked out and held against its truth. */
export function calibrateColdHolds(seeds: Iterable<number>): Coverage[] {
  const tally = new CoverageTally();
  for (const seed of seeds) {
    const { locomotive, steaming, truth } = simulateColdHold(seed);
    const { coldHold } = analyse(locomotive, steaming);
    const none = absent("section is null");
    tally.add(seed, [
      { name: "compliance", figure: coldHold?.compliance ?? none, truth: truth.complianceMlPerBar },
      { name: "leak, cold hold", figure: coldHold?.leak ?? none, truth: truth.leakMlPerMin },
    ]);
  }
  return tally.table();
}
