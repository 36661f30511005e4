import type { SteamingPlan } from "../../sample-data/simulator/plan.ts";
import { randomOf } from "../../sample-data/simulator/random.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { interval, isMeasured } from "../../src/quantity/measured.ts";

/** Forecasts of the minutes to the lowest level, asked for at random moments of runs in which nothing was fed. */
export interface ForecastTally {
  asked: number;
  given: number;
  /** truth within the 90 % interval */
  held: number;
  /** median of (upper - lower)/truth of the 90 % interval */
  relativeWidth: number;
}

/** A steaming of the simulator in which the driver feeds nothing and runs on until the level is past the lowest. */
function runningDry(seed: number): SteamingPlan | null {
  const plan = randomPlan(seed);
  if (plan.engine.nature.glass === null || plan.track === null) return null;
  const stages = plan.stages.map((stage) =>
    stage.kind === "run" ? { ...stage, forS: 7200, stops: null } : stage,
  );
  return { ...plan, stages, driver: { ...plan.driver, feed: null, marginMm: -1 } };
}

/** @param level of the interval judged */
export function forecastFutures(seeds: Iterable<number>, level = 0.9): ForecastTally {
  const widths: number[] = [];
  let [asked, given, held] = [0, 0, 0];
  for (const seed of seeds) {
    const plan = runningDry(seed);
    if (plan === null) continue;
    const { locomotive, steaming, truth } = simulate(plan, seed);
    const run = truth.phases.find((phase) => phase.name === "running");
    const lowestS = truth.lowestLevelAtS;
    if (run === undefined || lowestS === null || lowestS > run.toS || lowestS < run.fromS + 240) continue;
    const random = randomOf(seed, "forecast");
    const askedS = random.between(run.fromS + 120, lowestS - 60);
    asked += 1;
    const minutes = analyse(locomotive, steaming, { untilS: askedS }).forecast?.minutesToLowest;
    if (minutes === undefined || !isMeasured(minutes)) continue;
    given += 1;
    const fromS = analyse(locomotive, steaming, { untilS: askedS }).forecast?.atS ?? askedS;
    const trueMinutes = (lowestS - fromS) / 60;
    const [low, high] = interval(minutes, level);
    if (trueMinutes >= low && trueMinutes <= high) held += 1;
    widths.push((high - low) / trueMinutes);
  }
  widths.sort((a, b) => a - b);
  return { asked, given, held, relativeWidth: widths[widths.length >> 1] ?? 0 };
}
