import type { SteamingPlan } from "../../sample-data/simulator/plan.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { type Simulation, simulate } from "../../sample-data/simulator/simulate.ts";
import { coolingOf } from "../../src/analysis/cooling/cooling.ts";
import { sourcesOf } from "../../src/analysis/sources.ts";
import { safetyValveOf } from "../../src/analysis/valve/safety-valve.ts";
import { waterOf } from "../../src/analysis/water/water.ts";
import { absent } from "../../src/quantity/measured.ts";
import { type Coverage, CoverageTally } from "./coverage.ts";

const none = absent("section is null");
/** Heat of evaporation about working pressure, J/g: enough to sort plans by. */
const LATENT_J_PER_G = 2150;
/** From this part of the heat lost through the surface on, a leak is a large one. */
const LARGE = 0.3;

/** What leaks with all shut, in the heat of as much steam, against the loss through the surface. */
const leakShare = ({ engine: { nature } }: SteamingPlan): number =>
  (nature.leaks
    .filter((leak) => leak.side !== "chest")
    .reduce((sum, leak) => sum + leak.gPerMinAtWorkingPressure, 0) *
    LATENT_J_PER_G) /
  60 /
  nature.lossW;

/** Null for a boiler that leaked itself dry, of which the simulator has no truth: nothing is counted of it, and the next takes its place. */
function simulatedOrDry(plan: SteamingPlan, seed: number): Simulation | null {
  try {
    return simulate(plan, seed);
  } catch (error) {
    if (error instanceof RangeError && error.message.endsWith("boiled dry")) return null;
    throw error;
  }
}

/**
 * Boilers shut in with a logger of its own bias beside the dial: the cooling, and what the dial stood above the logger,
 * held against their truth. First as many as come by a row of seeds, whatever they leak, then from the next seeds, by their
 * plans alone, only those that leak much. Loss and leak lean on what is thought of leaks beforehand, and so err one way
 * among large leaks and the other way among small ones: over all together their misses are to be even, among large leaks
 * the range alone is promised.
 */
export function calibrateLoggers(firstSeed: number, count: { any: number; leaking: number }): Coverage[] {
  const tally = new CoverageTally();
  const left = { ...count };
  for (let seed = firstSeed; left.any + left.leaking > 0; seed++) {
    const plan = randomPlan(seed);
    if (plan.stages.at(-1)?.kind !== "shut-in") continue;
    const leaking = left.any === 0;
    if (leaking && leakShare(plan) <= LARGE) continue;
    plan.observer.traces = [
      {
        channel: "pressureBarG",
        everyS: [1, 2, 5][seed % 3] ?? 1,
        division: 0.01,
        readingU: 0.02,
        biasU: plan.instruments.pressureBiasBar,
      },
    ];
    const simulation = simulatedOrDry(plan, seed);
    if (simulation === null) continue;
    left[leaking ? "leaking" : "any"] -= 1;
    const { locomotive, steaming, truth } = simulation;
    const sources = sourcesOf(locomotive, steaming);
    const cooling = coolingOf(sources, waterOf(sources));
    const { offset } = sources.pressures;
    const logger = truth.loggerBias?.pressureBarG ?? Number.NaN;
    tally.add(seed, [
      {
        name: leaking ? "loss, logger, large leak" : "loss, logger",
        figure: cooling?.lossAtWorkingPressure ?? none,
        truth: truth.lossAtWorkingPressureW,
      },
      {
        name: leaking ? "leak, logger, large leak" : "leak, logger",
        figure: cooling?.leak ?? none,
        truth: truth.shutInLeakGPerMin,
      },
      {
        name: "dial less logger",
        figure:
          offset === null
            ? none
            : {
                value: offset.value,
                unit: "bar",
                parts: [
                  {
                    name: "pressure readings",
                    u: offset.u,
                    ...(Number.isFinite(offset.df) ? { df: offset.df } : {}),
                  },
                ],
              },
        truth: truth.dialBiasBar - logger,
      },
    ]);
  }
  return tally.table();
}

/** Pressure lost in so many seconds after a reseat, as a part of its own, that is a plunge. */
const PLUNGE = { s: 10, part: 0.05 };

/** Whether the pressure went on sinking fast after each reseat: cold feed or the regulator shut the valve. */
function allPlunge({ curves, safetyValve }: Simulation["truth"]): boolean {
  const { reseatBarG, liftBarG } = safetyValve;
  let blowing = false;
  const reseatsS: number[] = [];
  curves.pressureBarG.forEach((barG, s) => {
    if (blowing && barG <= reseatBarG) reseatsS.push(s);
    blowing = blowing ? barG > reseatBarG : barG >= liftBarG;
  });
  const left = (s: number) => curves.pressureBarG[s + PLUNGE.s] ?? Number.POSITIVE_INFINITY;
  return reseatsS.length > 0 && reseatsS.every((s) => left(s) < (1 - PLUNGE.part) * reseatBarG);
}

/** A valve's lift, its reseat and the highest pressure, each as the report gives it and in truth. */
const VALVE = [
  ["lift", "liftBarG"],
  ["reseat", "reseatBarG"],
  ["highest", "highestBarG"],
] as const;

/**
 * A safety valve beside a logger of a sample or more each two seconds, its bias next to none so that the moment and the
 * samples are what is judged, held against its truth in boilers whose valve was seen to act.
 */
export function calibrateValves(firstSeed: number, count: number): Coverage[] {
  const tally = new CoverageTally();
  for (let seed = firstSeed, tried = 0; tried < count; seed++) {
    const plan = randomPlan(seed);
    plan.observer.writesValve = true;
    plan.observer.pressureEveryS = 600;
    plan.instruments.pressureBiasBar = 0.004;
    plan.observer.traces = [
      {
        channel: "pressureBarG",
        everyS: [0.5, 1, 2][seed % 3] ?? 1,
        division: 0.001,
        readingU: 0.01,
        biasU: 0.004,
      },
    ];
    const { locomotive, steaming, truth } = simulate(plan, seed);
    if (!steaming.entries.some(({ kind }) => kind === "valve")) continue;
    tried += 1;
    const valve = safetyValveOf(sourcesOf(locomotive, steaming));
    const judged = VALVE.map(([figure, true_]) => ({
      name: `valve ${figure}, logger`,
      figure: valve?.[figure] ?? none,
      truth: truth.safetyValve[true_] ?? Number.NaN,
    }));
    const plunging = judged.filter(({ name }) => name.includes("reseat") && allPlunge(truth));
    tally.add(seed, [...judged, ...plunging.map((one) => ({ ...one, name: `${one.name}, plunging` }))]);
  }
  return tally.table();
}
