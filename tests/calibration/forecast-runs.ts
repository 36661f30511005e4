import { dayOf } from "../../sample-data/simulator/day.ts";
import { type Curves, curveAt } from "../../sample-data/simulator/ledger.ts";
import type { SteamingPlan } from "../../sample-data/simulator/plan.ts";
import { randomOf } from "../../sample-data/simulator/random.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { aboveLowestG } from "../../sample-data/simulator/truth.ts";
import { watchOf } from "../../sample-data/simulator/watch.ts";
import { type Forecast, forecastOf } from "../../src/analysis/forecast/forecast.ts";
import { sourcesOf } from "../../src/analysis/sources.ts";
import { waterOf } from "../../src/analysis/water/water.ts";

/** What was answered at random moments of one run; each question that got no answer is counted all the same. */
export interface Answers<Answer> {
  asked: number;
  answers: Answer[];
}

/** One forecast at a random moment of a run that nobody feeds from then on, and the truth of it as of its last entry. */
export interface Foretold {
  seed: number;
  forecast: Forecast;
  truth: { aboveG: number; minutes: number; laps: number };
  /** minutes as one would say who knew the water, and what was drawn in the last ten minutes, without any error */
  seerMinutes: number;
}

/** At how many random moments each run is asked. */
export const QUESTIONS = 3;
/** So soon after the start of a run nothing is asked, nor so shortly before the end, s. */
export const [AFTER_START_S, BEFORE_END_S] = [120, 60];
const SEER_LOOKS_BACK_S = 600;

/**
 * A steaming of the simulator that runs on until the water is past the lowest level, with fuel enough for it.
 * @param fed whether the driver feeds at first, until a moment of chance; null for those without a glass or a feed
 */
export function runningDry(seed: number, fed: boolean): SteamingPlan | null {
  const plan = randomPlan(seed);
  const { fuel } = plan;
  if (plan.engine.nature.glass === null || plan.track === null) return null;
  if (fed && plan.driver.feed === null) return null;
  const mostMl = plan.fillMl * randomOf(seed, "fed until").between(0.1, 1);
  const feed = fed && plan.driver.feed !== null ? { ...plan.driver.feed, mostMl } : null;
  return {
    ...plan,
    fuel:
      fuel.portions === null
        ? { ...fuel, first: 5 * fuel.first }
        : { ...fuel, portions: { ...fuel.portions, most: 1000 } },
    stages: plan.stages.map((stage) =>
      stage.kind === "run" ? { ...stage, forS: 9000, stops: null } : stage,
    ),
    driver: { ...plan.driver, feed, marginMm: -1 },
  };
}

/** The last second in which anything was fed. */
export const fedTillS = ({ fedG }: Curves): number =>
  fedG.findLastIndex((g, s) => s > 0 && g > (fedG[s - 1] ?? 0));

export function foretold(seed: number, fed: boolean): Answers<Foretold> {
  const none = { asked: 0, answers: [] };
  const plan = runningDry(seed, fed);
  if (plan === null) return none;
  const { locomotive, steaming, truth } = simulate(plan, seed);
  const { curves, endS, lowestLevelAtS: lowestS } = truth;
  const run = truth.phases.find((phase) => phase.name === "running");
  if (run === undefined || lowestS === null || lowestS > run.toS) return none;
  const fromS = Math.max(run.fromS + AFTER_START_S, fedTillS(curves) + 1);
  if (lowestS < fromS + 2 * BEFORE_END_S) return none;
  const watch = watchOf(plan, dayOf(plan, seed), { curves, leakedG: {}, happenings: [], endS }, seed);
  const random = randomOf(seed, "forecast");
  const answers: Foretold[] = [];
  for (let i = 0; i < QUESTIONS; i++) {
    const sources = sourcesOf(locomotive, steaming, random.between(fromS, lowestS - BEFORE_END_S));
    const forecast = forecastOf(sources, waterOf(sources));
    if (forecast === null) continue;
    const { atS } = forecast;
    const between = (curve: readonly number[], a: number, b: number) => curveAt(curve, b) - curveAt(curve, a);
    const aboveG = aboveLowestG(watch, atS);
    const backS = Math.max(run.fromS, atS - SEER_LOOKS_BACK_S);
    answers.push({
      seed,
      forecast,
      truth: {
        aboveG,
        minutes: (lowestS - atS) / 60,
        laps: between(curves.distanceM, atS, lowestS) / (plan.track?.lapM ?? Number.NaN),
      },
      seerMinutes: (aboveG * (atS - backS)) / 60 / between(curves.drawnG, backS, atS),
    });
  }
  return { asked: QUESTIONS, answers };
}
