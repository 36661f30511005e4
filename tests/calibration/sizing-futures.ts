import { randomOf } from "../../sample-data/simulator/random.ts";
import { fuelProperties } from "../../src/analysis/fuel/fuel-table.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { type Figure, isMeasured } from "../../src/quantity/measured.ts";
import { boundWithMoreRuns, WATER_G_PER_ML } from "../../src/sizing/bound.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import type { Sizing } from "../../src/sizing/sizing-schema.ts";
import { seasonOfFigures } from "./season-of-figures.ts";

const FUEL_G_PER_ML = fuelProperties({ kind: "spirit" })?.densityGPerMl ?? Number.NaN;

const engine: Locomotive = {
  id: "invented",
  name: "Invented",
  workingPressureBarG: 3,
  boiler: {
    shape: { kind: "horizontal", innerDiameterMm: 48, innerLengthMm: 150 },
    lowestLevelMm: 25,
    highestLevelMm: 40,
    outerDiameterMm: 51,
    metalMassG: 500,
    metal: "copper",
  },
  fuel: { kind: "spirit" },
  handPump: { mlPerStroke: 1 },
  fittings: [],
};

export interface Pair {
  said: number;
  came: boolean;
}

export interface TankFuture {
  runs: number;
  byLoad: boolean;
  suffices: boolean;
  /** tank over what the run that followed drew */
  roomOverNeed: number;
}

/** Seasons of 2 to 12 runs in turn. */
const runsOf = (place: number): number => 2 + (place % 11);

/** A tank made to the 95 % bound of each season's runs, and what then comes of it. */
export const tankFutures = (firstSeed: number, count: number): TankFuture[] =>
  Array.from({ length: count }, (_, place) => {
    const season = seasonOfFigures(firstSeed + place, runsOf(place));
    const plan: Plan = {
      ...planOf(season),
      tanks: {
        water: [{ kind: "tender", length: 100, width: 40, height: 40, freeboard: 2 }],
        solve: { tank: 0, dimension: "length", atMost: 90_000 },
      },
    };
    const { sizing } = sizeUp(engine, plan, modelsOf(season.runs, plan));
    const tankMl = sizing.fit?.usableMl ?? Number.NaN;
    const neededMl = (season.laps * season.future.water) / WATER_G_PER_ML;
    return {
      runs: season.runs.length,
      byLoad: sizing.byLoad,
      suffices: tankMl >= neededMl,
      roomOverNeed: tankMl / neededMl,
    };
  });

export interface EnduranceFuture {
  runs: number;
  fuelFirst: Pair;
  waterLasts: Pair;
  fuelLasts: Pair;
  /** where the truth of how long the fuel lasted lay against its 95 % range; null where no range was given */
  fuelRange: "below" | "within" | "above" | null;
}

/** Tanks such as an owner may have, from a fifth less to a quarter more than the runs' mean asks, and what comes of them. */
export const enduranceFutures = (firstSeed: number, count: number): EnduranceFuture[] =>
  Array.from({ length: count }, (_, place) => {
    const season = seasonOfFigures(firstSeed + place, runsOf(place));
    const { runs, laps, future } = season;
    const { between } = randomOf(firstSeed + place, "tanks");
    const fuelMean = laps * meanOf(runs, ({ per }) => per.laps.fuel) + meanOf(runs, (run) => run.otherFuel);
    const waterG = laps * meanOf(runs, ({ per }) => per.laps.water) * between(0.8, 1.25);
    const fuelG = fuelMean * between(0.8, 1.25);
    const { endurance } = sizedWith(planOf(season), waterG, fuelG, runs);
    const waterLaps = waterG / future.water;
    const fuelLaps = (fuelG - future.other) / future.fuel;
    const { fuelLasts } = endurance;
    return {
      runs: runs.length,
      fuelFirst: { said: told(endurance.fuelEndsFirst), came: fuelLaps < waterLaps },
      waterLasts: { said: told(endurance.waterSuffices), came: waterLaps >= laps },
      fuelLasts: { said: told(endurance.fuelSuffices), came: fuelLaps >= laps },
      fuelRange:
        fuelLasts.value === null
          ? null
          : fuelLaps < fuelLasts.lo95
            ? "below"
            : fuelLaps > fuelLasts.hi95
              ? "above"
              : "within",
    };
  });

const planOf = ({ laps, plannedKg }: { laps: number; plannedKg: number | undefined }): Plan => ({
  locomotiveId: engine.id,
  plan: { laps, ...(plannedKg === undefined ? {} : { trainMassKg: plannedKg }) },
});

/** A tender of 30 x 100 mm inside that holds so much under no freeboard, and a fuel tank that does when filled as it may be. */
function sizedWith(plan: Plan, waterG: number, fuelG: number, runs: readonly RunFigures[]): Sizing {
  const tender = {
    kind: "tender" as const,
    length: 100 + 2 * 0.7,
    width: 30 + 2 * 0.7,
    height: waterG / WATER_G_PER_ML / 3 + 0.7,
    freeboard: 0,
  };
  const whole: Plan = {
    ...plan,
    tanks: { water: [tender], fuel: { holdsMl: fuelG / FUEL_G_PER_ML / 0.92 } },
  };
  return sizeUp(engine, whole, modelsOf(runs, whole)).sizing;
}

function meanOf(runs: readonly RunFigures[], of: (run: RunFigures) => Figure): number {
  const values = runs.map((run) => {
    const figure = of(run);
    if (!isMeasured(figure)) throw new Error(`${run.steamingId}: ${figure.why}`);
    return figure.value;
  });
  return values.reduce((a, b) => a + b, 0) / values.length;
}

function told(probability: number | null): number {
  if (probability === null) throw new Error("a probability was wanted, none was given");
  return probability;
}

/**
 * Mean room of the bound over the engine's true mean with so many more runs: as promised by the season's runs, over as it
 * came when they were had.
 */
export function promisedOverCame(firstSeed: number, seasons: number, runs: number, moreRuns: number): number {
  let [promised, came] = [0, 0];
  for (let place = 0; place < seasons; place++) {
    const season = seasonOfFigures(firstSeed + place, runs, { loads: "unrecorded" });
    const plan: Plan = { locomotiveId: engine.id, plan: { laps: 1 } };
    const model = modelsOf(season.runs, plan).water;
    const later = modelsOf([...season.runs, ...season.later(moreRuns)], plan).water;
    if (model === null || later === null) throw new Error(`season ${firstSeed + place} tells no water`);
    promised += (boundWithMoreRuns(model, 0.95, 1, [moreRuns])[0]?.bound ?? Number.NaN) / season.mean - 1;
    came += later.predictive.quantile(0.95) / season.mean - 1;
  }
  return promised / came;
}

export interface Bin {
  from: number;
  to: number;
  count: number;
  said: number;
  came: number;
}

/** Said probabilities in five bins, each with how often it came so. */
export function binned(pairs: readonly Pair[]): Bin[] {
  return [0, 0.2, 0.4, 0.6, 0.8].map((from) => {
    const to = from + 0.2;
    const inside = pairs.filter(({ said }) => said >= from && (said < to || to > 0.99));
    const count = inside.length;
    return {
      from,
      to,
      count,
      said: inside.reduce((sum, { said }) => sum + said, 0) / count,
      came: inside.filter(({ came }) => came).length / count,
    };
  });
}
