import { saturatedSteam, saturatedWater } from "../steam/saturation.ts";
import { within } from "../steam/within.ts";

/** What rounding may add to or take from the mass of a full or empty boiler. */
const ROUNDING = 1e-9;

/**
 * Volume of water (m3) in a boiler in steam that holds a total mass (kg) of water and steam at an absolute
 * pressure (Pa): the inverse of boilerContents.
 * @throws RangeError for a mass below a boiler full of steam or above one full of water
 */
export function waterM3ForMass(totalM3: number, massKg: number, pressurePa: number): number {
  const waterDensity = 1 / saturatedWater(pressurePa).volumeM3PerKg;
  const steamDensity = 1 / saturatedSteam(pressurePa).volumeM3PerKg;
  const leastKg = totalM3 * steamDensity * (1 - ROUNDING);
  const mostKg = totalM3 * waterDensity * (1 + ROUNDING);
  within(massKg, leastKg, mostKg, "kg", "waterM3ForMass");
  const waterM3 = (massKg - totalM3 * steamDensity) / (waterDensity - steamDensity);
  return Math.min(totalM3, Math.max(0, waterM3));
}
