import { saturationTemperatureK } from "../../src/steam/saturation.ts";
import { coldWaterAt, HIGHEST_K, LOWEST_K, type Saturation, saturationAt } from "./steam-table.ts";

/**
 * The boiler as two numbers, the mass of all water and steam in it (kg) and the internal energy of water,
 * steam and metal (J, from water and metal at 0 °C), and what follows from them: a closed volume at one
 * temperature. Left out: the air above cold water (driven off here at the boiling point; in truth it adds up
 * to an atmosphere's partial pressure for the first minute of steam), and the fire-side metal standing some
 * degrees above the water.
 */
export interface Vessel {
  totalM3: number;
  metalJPerK: number;
  atmospherePa: number;
  /** boiling point at that atmosphere, and what water and steam are there */
  boilingK: number;
  boiling: Saturation;
  boilingColdJPerKg: number;
}

export function vesselOf(totalM3: number, metalJPerK: number, atmospherePa: number): Vessel {
  const boilingK = saturationTemperatureK(atmospherePa);
  return {
    totalM3,
    metalJPerK,
    atmospherePa,
    boilingK,
    boiling: saturationAt(boilingK),
    boilingColdJPerKg: coldWaterAt(boilingK).energyJPerKg,
  };
}

export interface BoilerState {
  temperatureK: number;
  /** absolute */
  pressurePa: number;
  waterKg: number;
  steamKg: number;
  waterM3: number;
}

const ZERO_CELSIUS_K = 273.15;
const MOST_STEPS = 40;
const CLOSE = 1e-11;

/** State of the boiler at this mass and energy; `nearK` is where the search begins, best the step before. */
export function boilerState(vessel: Vessel, massKg: number, energyJ: number, nearK: number): BoilerState {
  const boilingColdJ =
    massKg * vessel.boilingColdJPerKg + vessel.metalJPerK * (vessel.boilingK - ZERO_CELSIUS_K);
  if (energyJ <= boilingColdJ) return coldState(vessel, massKg, energyJ, nearK);

  const { steamJPerKg, waterJPerKg } = vessel.boiling;
  const steamFullKg = steamKgOf(vessel, massKg, vessel.boiling);
  const boilingSteamJ = boilingColdJ + steamFullKg * (steamJPerKg - waterJPerKg);
  if (energyJ <= boilingSteamJ) {
    // steam drives the air out: no pressure yet
    const steamKg = (energyJ - boilingColdJ) / (steamJPerKg - waterJPerKg);
    const waterKg = massKg - steamKg;
    return {
      temperatureK: vessel.boilingK,
      pressurePa: vessel.atmospherePa,
      waterKg,
      steamKg,
      waterM3: waterKg * vessel.boiling.waterM3PerKg,
    };
  }
  const temperatureK = solved(
    (kelvin) => energyInSteamJ(vessel, massKg, kelvin) - energyJ,
    Math.max(nearK, vessel.boilingK),
    massKg * 4300 + vessel.metalJPerK,
    energyJ,
  );
  return steamingState(vessel, massKg, temperatureK);
}

function coldState(vessel: Vessel, massKg: number, energyJ: number, nearK: number): BoilerState {
  const temperatureK = solved(
    (kelvin) =>
      massKg * coldWaterAt(kelvin).energyJPerKg + vessel.metalJPerK * (kelvin - ZERO_CELSIUS_K) - energyJ,
    Math.min(nearK, vessel.boilingK),
    massKg * 4200 + vessel.metalJPerK,
    energyJ,
  );
  const waterM3 = massKg * coldWaterAt(temperatureK).volumeM3PerKg;
  return { temperatureK, pressurePa: vessel.atmospherePa, waterKg: massKg, steamKg: 0, waterM3 };
}

/** Energy (J) of this mass filling the vessel as water and steam at this temperature. */
export function energyInSteamJ(vessel: Vessel, massKg: number, temperatureK: number): number {
  const saturation = saturationAt(temperatureK);
  const steamKg = steamKgOf(vessel, massKg, saturation);
  return (
    (massKg - steamKg) * saturation.waterJPerKg +
    steamKg * saturation.steamJPerKg +
    vessel.metalJPerK * (temperatureK - ZERO_CELSIUS_K)
  );
}

function steamKgOf(vessel: Vessel, massKg: number, saturation: Saturation): number {
  const { waterM3PerKg, steamM3PerKg, pressurePa } = saturation;
  const steamKg = (vessel.totalM3 - massKg * waterM3PerKg) / (steamM3PerKg - waterM3PerKg);
  if (!(steamKg >= 0 && steamKg < massKg)) {
    const state = steamKg < 0 ? "overfull" : "boiled dry";
    throw new RangeError(`boilerState: ${massKg} kg at ${pressurePa} Pa leaves the boiler ${state}`);
  }
  return steamKg;
}

function steamingState(vessel: Vessel, massKg: number, temperatureK: number): BoilerState {
  const saturation = saturationAt(temperatureK);
  const steamKg = steamKgOf(vessel, massKg, saturation);
  const waterKg = massKg - steamKg;
  const waterM3 = waterKg * saturation.waterM3PerKg;
  return { temperatureK, pressurePa: saturation.pressurePa, waterKg, steamKg, waterM3 };
}

/** Secant from a first slope, the heat capacity; ends when the energy closes to 1e-11 of itself. */
function solved(
  excessJ: (kelvin: number) => number,
  firstK: number,
  heatCapacityJPerK: number,
  energyJ: number,
): number {
  let kelvin = firstK;
  let excess = excessJ(kelvin);
  let slope = heatCapacityJPerK;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    if (Math.abs(excess) <= CLOSE * Math.abs(energyJ)) return kelvin;
    const next = Math.min(Math.max(kelvin - excess / slope, LOWEST_K), HIGHEST_K);
    const nextExcess = excessJ(next);
    const found = (nextExcess - excess) / (next - kelvin);
    // rounding makes the slope worthless once the step is a hair's breadth
    if (Math.abs(next - kelvin) > 1e-6 && found > 0) slope = found;
    kelvin = next;
    excess = nextExcess;
  }
  throw new RangeError(`boilerState: no temperature found for ${energyJ} J within ${MOST_STEPS} steps`);
}
