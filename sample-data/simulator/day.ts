import { type BoilerGeometry, boilerGeometry } from "../../src/boiler/geometry.ts";
import { metalHeatCapacityJPerK } from "../../src/boiler/metal.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { saturationTemperatureK } from "../../src/steam/saturation.ts";
import { type Vessel, vesselOf } from "./boiler-state.ts";
import { type FeedWater, feedWaterOf, type MeasureFaults } from "./feed.ts";
import type { SurfaceLoss } from "./loss.ts";
import type { SteamingPlan } from "./plan.ts";
import { randomOf } from "./random.ts";

/** What holds for one whole steaming: constants of engine and weather in SI, and the faults of the measures. */
export interface Day {
  locomotive: Locomotive;
  vessel: Vessel;
  geometry: BoilerGeometry;
  loss: SurfaceLoss;
  atmospherePa: number;
  airK: number;
  feedK: number;
  feedWater: FeedWater;
  workingPa: number;
  lowerHeatingJPerKg: number;
  /** kg for one g or ml of fuel as measured */
  fuelKgPerUnit: number;
  faults: MeasureFaults;
  /** added to every reading of the dial */
  dialBiasBar: number;
}

const REFERENCE_AIR_K = 293.15;
const ATMOSPHERE_PA = 101_325;

export function dayOf(plan: SteamingPlan, seed: number): Day {
  const { locomotive, nature } = plan.engine;
  const { boiler, fuel } = locomotive;
  const geometry = boilerGeometry(boiler);
  const atmospherePa = plan.atmosphereHPa * 100;
  const workingPa = locomotive.workingPressureBarG * 1e5 + atmospherePa;
  const random = randomOf(plan.measuresSeed ?? seed, "faults");
  if (
    fuel.lowerHeatingValueMJPerKg === undefined ||
    (plan.fuel.by === "ml" && fuel.densityGPerMl === undefined)
  ) {
    throw new RangeError(`dayOf: ${locomotive.id} wants a heating value, and a density for fuel by volume`);
  }
  return {
    locomotive,
    vessel: vesselOf(geometry.totalM3, metalHeatCapacityJPerK(boiler.metalMassG, boiler.metal), atmospherePa),
    geometry,
    loss: {
      watts: nature.lossW,
      referenceK: saturationTemperatureK(locomotive.workingPressureBarG * 1e5 + ATMOSPHERE_PA),
      referenceAirK: REFERENCE_AIR_K,
    },
    atmospherePa,
    airK: plan.ambientC + 273.15,
    feedK: plan.feedC + 273.15,
    feedWater: feedWaterOf(plan.feedC, atmospherePa),
    workingPa,
    lowerHeatingJPerKg: fuel.lowerHeatingValueMJPerKg * 1e6,
    fuelKgPerUnit: plan.fuel.by === "g" ? 1e-3 : (fuel.densityGPerMl ?? Number.NaN) / 1000,
    faults: {
      feedScale: plan.instruments.feedRelative * random.normal(),
      readingMl: plan.instruments.volumeReadingMl,
    },
    dialBiasBar: plan.instruments.pressureBiasBar * random.normal(),
  };
}
