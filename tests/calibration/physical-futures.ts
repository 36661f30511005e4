import { type Random, randomOf } from "../../sample-data/simulator/random.ts";
import { ownerSeason } from "../../sample-data/simulator/seasons/owner-season.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import type { Truth } from "../../sample-data/simulator/truth-types.ts";
import { between } from "../../sample-data/simulator/truth-windows.ts";
import { analyse } from "../../src/analysis/analyse.ts";
import { isMeasured } from "../../src/quantity/measured.ts";
import { WATER_G_PER_ML } from "../../src/sizing/bound.ts";
import { type EndurancePlan, enduranceOf } from "../../src/sizing/endurance.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";
import { runFiguresOf } from "../../src/sizing/run-figures-of.ts";
import { shorterThan } from "../../src/sizing/sizing-warnings.ts";
import type { Pair } from "./sizing-futures.ts";

/** One outing of an invented engine as it was written down and worked out, and what it truly took. */
interface Outing {
  figures: RunFigures;
  trainMassKg: number | null;
  true: { water: number; fuel: number; otherFuel: number; laps: number };
}

export interface PhysicalFuture {
  /** seed of the engine: futures of one engine hang together */
  engine: number;
  runs: number;
  byLoad: boolean;
  /** the plan is so much shorter than the runs that the bench warns of it */
  isShort: boolean;
  suffices: boolean;
  roomOverNeed: number;
  fuelSuffices: boolean | null;
  /** for tanks of several sizes */
  waterLasts: Pair[];
  /** where the runs tell both, of an owner who looks at what fuel is left */
  fuelFirst: Pair[];
}

const OUTINGS = 7;
/** Pairs of tanks tried in each future. */
const TANKS = 4;
/** A run of fewer laps is no run to size tanks by. */
const FEWEST = 3;

/**
 * Futures by the physical simulator: of each engine's outings each in turn is the run to come, and 2 to 6 of the others,
 * by what was written down of them, are the runs that the owner has. Each outing is simulated and worked out once.
 */
export function physicalFutures(firstSeed: number, engines: number): PhysicalFuture[] {
  const futures: PhysicalFuture[] = [];
  for (let seed = firstSeed, done = 0; done < engines; seed++) {
    const plans = ownerSeason(seed, OUTINGS);
    if (plans === null) continue;
    done += 1;
    const outings = plans.map((plan, place): Outing => {
      const { locomotive, steaming, truth } = simulate(plan, seed * 100 + place);
      return {
        figures: runFiguresOf(analyse(locomotive, steaming)),
        trainMassKg: plan.train?.massKg ?? null,
        true: trueOf(truth),
      };
    });
    const looks = plans[0]?.observer.writesFuelRemaining === true;
    const random = randomOf(seed, "futures");
    futures.push(...outings.flatMap((_, place) => futureOf(seed, outings, place, looks, random) ?? []));
  }
  return futures;
}

function trueOf(truth: Truth): Outing["true"] {
  const running = truth.phases.filter((phase) => phase.name === "running");
  const over = (of: (phase: (typeof running)[number]) => number) =>
    running.reduce((sum, phase) => sum + of(phase), 0);
  const fuel = over(({ fromS, toS }) => between(truth, "burntG", fromS, toS));
  return {
    water: over(({ waterDrawnG }) => waterDrawnG),
    fuel,
    otherFuel: between(truth, "burntG", 0, truth.endS) - fuel,
    laps: over(({ laps }) => laps),
  };
}

/** @returns null where the outing hardly ran, or the runs that there are tell no water */
function futureOf(
  engine: number,
  outings: readonly Outing[],
  place: number,
  looks: boolean,
  random: Random,
): PhysicalFuture | null {
  const [future, others] = [outings[place], outings.filter((_, i) => i !== place)];
  const past = drawnFrom(others, random.whole(2, OUTINGS - 1), random).map(({ figures }) => figures);
  const kind = (["laps", "minutes"] as const).find((one) =>
    past.some(({ per }) => isMeasured(per[one].water)),
  );
  if (future === undefined || kind === undefined) return null;
  // minutes are counted as the test sheet counts them: with the regulator open, where its owner writes that down
  const amount = kind === "laps" ? future.true.laps : (future.figures.per.minutes.amount ?? 0);
  if (amount < FEWEST) return null;
  const { water, fuel, otherFuel } = future.true;
  const trainMassKg = plannedLoad(future, past);
  const models = modelsOf(past, {
    locomotiveId: "invented",
    plan: { [kind]: amount, ...(trainMassKg === undefined ? {} : { trainMassKg }) },
  });
  if (models.water === null) return null;
  const boundG = models.water.predictive.quantile(0.95) * amount;
  const plan: EndurancePlan = { kind, amount, trainMassKg };
  const tanks = Array.from({ length: TANKS }, () => ({
    water: random.between(0.8, 1.25),
    fuel: random.between(0.8, 1.25),
  }));
  const { predictive } = models.water;
  const tried = tanks.map((of) => {
    const waterG = predictive.mean * amount * of.water;
    const fuelG = models.fuel === null ? null : models.fuel.predictive.mean * of.fuel;
    const said = enduranceOf(past, models, plan, { waterMl: waterG / WATER_G_PER_ML, fuelG });
    const waterLasts = { said: said.waterSuffices ?? Number.NaN, came: waterG >= water };
    const burntByThen = otherFuel + (fuel * waterG) / water;
    const fuelFirst =
      fuelG === null || said.fuelEndsFirst === null || !looks
        ? []
        : [{ said: said.fuelEndsFirst, came: burntByThen > fuelG }];
    return { waterLasts, fuelFirst };
  });
  return {
    engine,
    runs: models.water.runs,
    byLoad: models.water.byLoad,
    isShort: shorterThan(amount, models.told) !== null,
    suffices: boundG >= water,
    roomOverNeed: boundG / water,
    fuelSuffices: models.fuel === null ? null : models.fuel.predictive.quantile(0.95) >= fuel + otherFuel,
    waterLasts: tried.map((one) => one.waterLasts),
    fuelFirst: tried.flatMap((one) => one.fuelFirst),
  };
}

/** An owner names the load where it is told apart: by five runs, or as the one load that there is. */
function plannedLoad(future: Outing, past: readonly RunFigures[]): number | undefined {
  const loads = new Set([future.trainMassKg, ...past.map(({ trainMassKg }) => trainMassKg)]);
  return future.trainMassKg !== null && (loads.size === 1 || past.length >= 5)
    ? future.trainMassKg
    : undefined;
}

function drawnFrom<T>(all: readonly T[], count: number, random: Random): T[] {
  const left = [...all];
  return Array.from({ length: Math.min(count, all.length) }, () =>
    left.splice(random.whole(0, left.length - 1), 1),
  ).flat();
}

/** Standard error of a share, in per cent, where cases of one engine hang together. */
export function clusteredError(cases: readonly { engine: number; held: boolean }[]): number {
  const share = cases.filter(({ held }) => held).length / cases.length;
  const byEngine = new Map<number, number>();
  for (const { engine, held } of cases) {
    byEngine.set(engine, (byEngine.get(engine) ?? 0) + Number(held) - share);
  }
  const squares = [...byEngine.values()].reduce((sum, one) => sum + one * one, 0);
  return (100 * Math.sqrt(squares)) / cases.length;
}
