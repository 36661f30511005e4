import { dayOf } from "../../sample-data/simulator/day.ts";
import { randomOf } from "../../sample-data/simulator/random.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { forecastOf } from "../../src/analysis/forecast/forecast.ts";
import { chanceFirst, timeUntilNone } from "../../src/analysis/forecast/time-until-none.ts";
import { fuelLeft } from "../../src/analysis/fuel/fuel-end.ts";
import { sourcesOf } from "../../src/analysis/sources.ts";
import { waterOf } from "../../src/analysis/water/water.ts";
import {
  AFTER_START_S,
  type Answers,
  BEFORE_END_S,
  fedTillS,
  QUESTIONS,
  runningDry,
} from "./forecast-runs.ts";
import { fireEndsS, inOneStock, withLooks } from "./fuel-looks.ts";

/** Looks at the fuel begin so long after lighting up, s. */
const LOOKS_FROM_S = 120;

/** Minutes until the fuel is gone, where they lie 9 times in 10, and the truth. */
export interface FuelFuture {
  seed: number;
  within90: readonly [number, number];
  minutes: number;
}

/** Asked of engines that run, and are fed, as long as the fire burns. */
export function fuelFuture(seed: number): Answers<FuelFuture> {
  const none = { asked: 0, answers: [] };
  const drawn = randomPlan(seed);
  const { feed } = drawn.driver;
  if (drawn.track === null || feed === null) return none;
  const plan = inOneStock({
    ...drawn,
    stages: drawn.stages.map((stage) => (stage.kind === "run" ? { ...stage, forS: 15_000 } : stage)),
    driver: { ...drawn.driver, feed: { ...feed, mostMl: Number.POSITIVE_INFINITY } },
  });
  const simulation = simulate(plan, seed);
  const { truth, steaming, locomotive } = simulation;
  const endS = fireEndsS(plan, simulation);
  const run = truth.phases.find((phase) => phase.name === "running");
  if (endS === null || run === undefined || endS > run.toS || endS < run.fromS + 2 * AFTER_START_S)
    return none;
  const random = randomOf(seed, "fuel");
  const answers: FuelFuture[] = [];
  for (let i = 0; i < QUESTIONS; i++) {
    const untilS = random.between(run.fromS + AFTER_START_S, endS - BEFORE_END_S);
    const window = [truth.raising.litAtS + LOOKS_FROM_S, untilS] as const;
    const entries = withLooks(plan, simulation, seed, window, random);
    const sources = sourcesOf(locomotive, { ...steaming, entries }, untilS);
    const { draining } = fuelLeft(sources);
    if (draining === null) continue;
    const minutes = (endS - (sources.timeline.lastS ?? untilS)) / 60;
    answers.push({ seed, within90: timeUntilNone(draining, 0.9), minutes });
  }
  return { asked: QUESTIONS, answers };
}

/** With what chance the water was said to end first, and whether it did. */
export interface EndsFuture {
  seed: number;
  fuel: "spirit" | "gas" | "coal";
  chance: number;
  waterFirst: boolean;
}

/**
 * Asked of engines that nobody feeds from then on, with from half to twice the fuel that their water takes, any as likely:
 * a narrower choice would tell which ends first before anything is read.
 */
export function endsFuture(seed: number, fed: boolean): Answers<EndsFuture> {
  const none = { asked: 0, answers: [] };
  const dry = runningDry(seed, fed);
  if (dry === null) return none;
  const ample = inOneStock(dry);
  const before = simulate(ample, seed).truth;
  if (before.lowestLevelAtS === null) return none;
  const random = randomOf(seed, "which ends first");
  const asMuchG = (before.curves.burntG[before.lowestLevelAtS] ?? 0) * Math.exp(random.between(-0.7, 0.7));
  const first = Number((asMuchG / 1000 / dayOf(ample, seed).fuelKgPerUnit).toFixed(1));
  const plan = { ...ample, fuel: { ...ample.fuel, first } };
  const simulation = simulate(plan, seed);
  const { truth, steaming, locomotive } = simulation;
  const run = truth.phases.find((phase) => phase.name === "running");
  const waterS = truth.lowestLevelAtS ?? Number.POSITIVE_INFINITY;
  const fuelS = fireEndsS(plan, simulation) ?? Number.POSITIVE_INFINITY;
  const endS = Math.min(waterS, fuelS);
  if (run === undefined || endS > run.toS) return none;
  const fromS = Math.max(run.fromS + AFTER_START_S, fedTillS(truth.curves) + 1);
  if (endS < fromS + 2 * BEFORE_END_S) return none;
  const { kind } = locomotive.fuel;
  const answers: EndsFuture[] = [];
  for (let i = 0; i < QUESTIONS; i++) {
    const untilS = random.between(fromS, endS - BEFORE_END_S);
    const window = [truth.raising.litAtS + LOOKS_FROM_S, untilS] as const;
    const entries = withLooks(plan, simulation, seed, window, random);
    const sources = sourcesOf(locomotive, { ...steaming, entries }, untilS);
    const water = forecastOf(sources, waterOf(sources))?.draining;
    const fuel = fuelLeft(sources).draining;
    if (water == null || fuel === null) continue;
    answers.push({
      seed,
      fuel: kind === "spirit" || kind === "coal" ? kind : "gas",
      chance: chanceFirst(water, fuel),
      waterFirst: waterS < fuelS,
    });
  }
  return { asked: QUESTIONS, answers };
}
