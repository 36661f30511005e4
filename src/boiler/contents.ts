import { waterState } from "../steam/region1.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "../steam/saturation.ts";
import { within } from "../steam/within.ts";

export interface BoilerFill {
  totalM3: number;
  waterM3: number;
  /** absolute */
  pressurePa: number;
  /** only while there is no steam: the water's temperature */
  temperatureK?: number;
  metalHeatCapacityJPerK: number;
}

export interface BoilerContents {
  waterKg: number;
  steamKg: number;
  /** internal energy of water, steam and metal, counted from water and metal at 0 °C */
  energyJ: number;
}

const ZERO_CELSIUS_K = 273.15;

/**
 * Mass and energy in the boiler. In steam (no `temperatureK`) water and steam stand at the saturation temperature
 * of the pressure; cold, the water is at `temperatureK` and the air above it counts for nothing.
 * @throws RangeError for water below 0 or above the boiler's volume, or a pressure or temperature that
 *   saturatedWater or waterState does not carry
 */
export function boilerContents(fill: BoilerFill): BoilerContents {
  within(fill.waterM3, 0, fill.totalM3, "m3 of water", "boilerContents");
  return fill.temperatureK === undefined ? inSteam(fill) : cold(fill, fill.temperatureK);
}

function inSteam({ totalM3, waterM3, pressurePa, metalHeatCapacityJPerK }: BoilerFill): BoilerContents {
  const water = saturatedWater(pressurePa);
  const steam = saturatedSteam(pressurePa);
  const waterKg = waterM3 / water.volumeM3PerKg;
  const steamKg = (totalM3 - waterM3) / steam.volumeM3PerKg;
  const energyJ =
    waterKg * water.internalEnergyJPerKg +
    steamKg * steam.internalEnergyJPerKg +
    metalHeatCapacityJPerK * (water.temperatureK - ZERO_CELSIUS_K);
  return { waterKg, steamKg, energyJ };
}

function cold(fill: BoilerFill, temperatureK: number): BoilerContents {
  // water at its boiling point may be reported a hair above the pressure that goes with it
  const water = waterState(temperatureK, Math.max(fill.pressurePa, saturationPressurePa(temperatureK)));
  const waterKg = fill.waterM3 / water.volumeM3PerKg;
  const energyJ =
    waterKg * water.internalEnergyJPerKg + fill.metalHeatCapacityJPerK * (temperatureK - ZERO_CELSIUS_K);
  return { waterKg, steamKg: 0, energyJ };
}
