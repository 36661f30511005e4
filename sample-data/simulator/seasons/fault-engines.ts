import { quillet } from "../engines-gas-small.ts";
import { coldbrook } from "../engines-spirit.ts";
import type { EnginePlan } from "../nature.ts";
import type { FuelPlan, SteamingPlan } from "../plan.ts";
import { type PlantedFault, plantedFaults } from "./planted-faults.ts";

/** An engine that faults are planted in, and how she is used. */
export interface FaultEngine {
  engine: EnginePlan;
  faults: readonly PlantedFault[];
  leakScale: number;
  track: NonNullable<SteamingPlan["track"]>;
  train: NonNullable<SteamingPlan["train"]>;
  fuel: FuelPlan;
  /** cold, to a little less than four fifths of the glass; and so full that she primes */
  fillMl: { usual: number; high: number };
  feed: NonNullable<SteamingPlan["driver"]["feed"]>;
  turnDownAbove: number;
  turnUpBelow: number;
}

const aboveLowest = ({ locomotive: { boiler } }: EnginePlan, share: number): number =>
  boiler.lowestLevelMm + share * (boiler.highestLevelMm - boiler.lowestLevelMm);

/** Spirit, a glass of 17 mm, an axle pump; a fire that cannot be turned down. */
export const spiritEngine: FaultEngine = {
  engine: coldbrook,
  faults: plantedFaults,
  leakScale: 1,
  track: { lapM: 30 },
  train: { massKg: 6 },
  fuel: { by: "ml", first: 125, portions: null },
  fillMl: { usual: 232, high: 248 },
  feed: {
    by: "axle-pump",
    belowMm: aboveLowest(coldbrook, 0.6),
    aboveMm: aboveLowest(coldbrook, 0.9),
    each: 0,
    mlPerS: 0,
    mostMl: 2000,
    onlyStanding: false,
  },
  turnDownAbove: 2,
  turnUpBelow: 0,
};

/** Gas, a small vertical boiler, smaller cylinders; fed from a bottle, no axle pump. */
export const gasEngine: FaultEngine = {
  engine: quillet,
  faults: plantedFaults.filter((fault) => fault !== "pump"),
  leakScale: 0.6,
  track: { lapM: 16 },
  train: { massKg: 1.5 },
  fuel: { by: "g", first: 17, portions: null },
  fillMl: { usual: 185, high: 200 },
  feed: {
    by: "bottle",
    belowMm: aboveLowest(quillet, 0.45),
    aboveMm: aboveLowest(quillet, 0.8),
    each: 25,
    mlPerS: 1,
    mostMl: 400,
    onlyStanding: true,
  },
  turnDownAbove: 1.06,
  turnUpBelow: 0.8,
};

export const faultEngines: readonly FaultEngine[] = [spiritEngine, gasEngine];
