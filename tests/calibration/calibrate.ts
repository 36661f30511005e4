import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { furtherKeys } from "../sample-data/judged-keys.ts";
import { type Coverage, CoverageTally } from "./coverage.ts";
import { judgedFigures } from "./judged-figures.ts";
import { widthsAgainstToldTruth } from "./told-truth.ts";

/** Figures judged by their place in the report, by the names they go by here. */
const FURTHER = new Map([
  ["perMinuteRunning.water", "water a minute"],
  ["per100m.water", "water for 100 m"],
  ["heat.factorOfEvaporation", "factor of evaporation"],
  ["heat.equivalentEvaporation", "equivalent evaporation"],
  ["totals.feed", "fed in all"],
  ["safetyValve.rise", "above working pressure"],
  ["forecast.waterAboveLowest", "water above lowest"],
  ["leaks[].equivalentHole", "hole of a drip"],
]);

/** Steamings of many engines, days and observers drawn by chance, each worked out and held against its truth. */
export function calibrate(seeds: Iterable<number>, progress: (done: number) => void = () => {}): Coverage[] {
  const tally = new CoverageTally();
  let done = 0;
  for (const seed of seeds) {
    const simulation = simulate(randomPlan(seed), seed);
    const analysis = analyse(simulation.locomotive, simulation.steaming);
    tally.add(seed, judgedFigures(simulation, analysis));
    const left = analysis.sources.fuel.leftUnread ? ", left unread" : "";
    const further = furtherKeys(simulation, analysis).flatMap(({ key, figure, truth }) => {
      const name = FURTHER.get(key);
      // that nothing was fed is known without a doubt
      if (name === undefined || (key === "totals.feed" && truth === 0)) return [];
      return [{ name: key === "heat.equivalentEvaporation" ? `${name}${left}` : name, figure, truth }];
    });
    tally.add(seed, further);
    tally.addWidths(widthsAgainstToldTruth(simulation, analysis));
    done += 1;
    progress(done);
  }
  return tally.table();
}

export const seedsFrom = (first: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => first + i);
