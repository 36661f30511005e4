import { fuelProperties } from "../../src/analysis/fuel-table.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { absent, type Measured } from "../../src/quantity/measured.ts";
import { WATER_G_PER_ML } from "../../src/sizing/bound.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";
import { modelsOf, sizeUp } from "../../src/sizing/size.ts";
import { seededNormal } from "../quantity/seeded-normal.ts";

/** One season of an invented engine: its runs as their figures would be reckoned, and the run that follows in truth. */
interface Season {
  locomotive: Locomotive;
  runs: RunFigures[];
  laps: number;
  /** the future run in truth */
  waterMl: number;
  waterPerLapG: number;
  fuelPerLapG: number;
  otherFuelG: number;
  fuelG: number;
}

export interface Future {
  runs: number;
  suffices: boolean;
  /** tank over the least that the mean of the truth would ask */
  roomOverNeed: number;
  fuelFirst: { said: number; came: boolean };
  waterLasts: { said: number; came: boolean };
}

/** Uniform and normal numbers from one seed. */
function chance(seed: number) {
  const normal = seededNormal(seed);
  let state = (seed * 2654435761) >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  for (let i = 0; i < 5; i++) uniform();
  const between = (low: number, high: number) => low + (high - low) * uniform();
  return { normal, between };
}

const engineOf = (fuelTankMl: number): Locomotive => ({
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
  fuel: { kind: "spirit", tankMl: fuelTankMl },
  handPump: { mlPerStroke: 1 },
  fittings: [],
});

/** Runs differ by 5 to 20 %, each is read with 1 to 5 %, and all share the error of a measure of 1 to 3 %. */
function seasonOf(seed: number, count: number): Season {
  const { normal, between } = chance(seed);
  const waterPerLap = between(3, 15);
  const fuelPerLap = waterPerLap / between(2, 5);
  const spread = between(0.05, 0.2);
  const together = between(0, 0.9);
  const ownU = between(0.01, 0.05);
  const feedU = between(0.01, 0.03);
  const feedError = feedU * normal();
  const other = fuelPerLap * between(4, 12);
  const laps = Math.round(between(15, 80));
  const draw = () => {
    const hard = normal();
    const apart = () => together * hard + Math.sqrt(1 - together ** 2) * normal();
    const floor = (factor: number) => Math.max(0.3, factor);
    return {
      water: waterPerLap * floor(1 + spread * apart()),
      fuel: fuelPerLap * floor(1 + spread * apart()),
      other: other * floor(1 + 0.1 * normal()),
    };
  };
  const runs = Array.from({ length: count }, (_, i): RunFigures => {
    const truth = draw();
    const water: Measured = {
      value: truth.water * (1 + feedError) * (1 + ownU * normal()),
      unit: "g",
      parts: [
        { name: "readings", u: ownU * truth.water },
        { name: "feed measure", u: feedU * truth.water, source: "feed" },
      ],
    };
    const fuel = read(truth.fuel, ownU, normal);
    const none = absent("not of this test");
    const nothing = { water: none, fuel: none, amount: null };
    return {
      steamingId: `run-${i}`,
      title: `Run ${i}`,
      startedAt: "2026-05-01T10:00:00Z",
      trainMassKg: null,
      per: { laps: { water, fuel, amount: 30 }, minutes: nothing, distanceM: nothing },
      otherFuel: read(truth.other, ownU, normal),
      metresPerMinute: null,
      pumpPerRevolution: { value: null, why: "not of this test" },
      coolingLoss: { value: null, why: "not of this test" },
    };
  });
  const future = draw();
  const fuelG = (laps * fuelPerLap + other) * between(0.75, 1.35);
  const densityGPerMl = fuelProperties({ kind: "spirit" })?.densityGPerMl ?? 1;
  return {
    locomotive: engineOf(fuelG / densityGPerMl / 0.92),
    runs,
    laps,
    waterMl: (laps * future.water) / WATER_G_PER_ML,
    waterPerLapG: future.water,
    fuelPerLapG: future.fuel,
    otherFuelG: future.other,
    fuelG,
  };
}

const read = (truth: number, ownU: number, normal: () => number): Measured => ({
  value: truth * (1 + ownU * normal()),
  unit: "g",
  parts: [{ name: "readings", u: ownU * truth }],
});

/** A tank made to the bound, and what then comes of it. */
function futureOf(seed: number, count: number): Future {
  const season = seasonOf(seed, count);
  const plan = {
    locomotiveId: "invented",
    plan: { laps: season.laps },
    tanks: {
      water: [{ kind: "tender" as const, length: 100, width: 40, height: 40, freeboard: 2 }],
      solve: { tank: 0, dimension: "length" as const, atMost: 60_000 },
    },
  };
  const { sizing } = sizeUp(season.locomotive, plan, modelsOf(season.runs, plan));
  const tankMl = sizing.fit?.usableMl ?? Number.NaN;
  const { fuelEndsFirst } = sizing.endurance;
  if (fuelEndsFirst === null) throw new Error(`seed ${seed}: no probability: ${sizing.endurance.why}`);
  // endurance is judged with a tank of the engine's owner, not of the bound: as often too small as too large
  const ownMl = tankMl * chance(seed + 7_000_000).between(0.6, 1.05);
  const own = sizeUp(
    season.locomotive,
    {
      ...plan,
      tanks: {
        water: [{ kind: "tender", length: 1000 + 1.4, width: 31.4, height: ownMl / 30 + 3.4, freeboard: 2 }],
      },
    },
    modelsOf(season.runs, plan),
  ).sizing.endurance;
  const waterLaps = (ownMl * WATER_G_PER_ML) / season.waterPerLapG;
  const fuelLaps = (season.fuelG - season.otherFuelG) / season.fuelPerLapG;
  return {
    runs: count,
    suffices: tankMl >= season.waterMl,
    roomOverNeed: tankMl / season.waterMl,
    fuelFirst: { said: own.fuelEndsFirst ?? Number.NaN, came: fuelLaps < waterLaps },
    waterLasts: { said: own.waterSuffices ?? Number.NaN, came: waterLaps >= season.laps },
  };
}

/** Futures of seasons with 3 to 12 runs, in turn. */
export const futuresOf = (firstSeed: number, count: number): Future[] =>
  Array.from({ length: count }, (_, i) => futureOf(firstSeed + i, 3 + (i % 10)));

export interface Bin {
  from: number;
  to: number;
  count: number;
  said: number;
  came: number;
}

/** Said probabilities in five bins, each with how often it came so. */
export function binned(pairs: readonly { said: number; came: boolean }[]): Bin[] {
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
