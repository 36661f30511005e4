import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { type Coverage, CoverageTally } from "./coverage.ts";
import { judgedFigures } from "./judged-figures.ts";
import { widthsAgainstToldTruth } from "./told-truth.ts";

/** Steamings of many engines, days and observers drawn by chance, each worked out and held against its truth. */
export function calibrate(seeds: Iterable<number>, progress: (done: number) => void = () => {}): Coverage[] {
  const tally = new CoverageTally();
  let done = 0;
  for (const seed of seeds) {
    const simulation = simulate(randomPlan(seed), seed);
    const analysis = analyse(simulation.locomotive, simulation.steaming);
    tally.add(seed, judgedFigures(simulation, analysis));
    tally.addWidths(widthsAgainstToldTruth(simulation, analysis));
    done += 1;
    progress(done);
  }
  return tally.table();
}

export const seedsFrom = (first: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => first + i);
