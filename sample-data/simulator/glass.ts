import type { BoilerGeometry } from "../../src/boiler/geometry.ts";
import type { Boiler } from "../../src/logbook/locomotive.ts";
import { coldWaterAt, saturationAt } from "./steam-table.ts";

/**
 * What the gauge glass shows, mm, for a volume of hot water in the boiler. Where the owner knows the glass to
 * stand cooler, its column (above its zero, taken as the lower connection) is denser and so shorter:
 * both columns weigh the same. The steam's own weight is left out (0.2 % of the difference).
 */
export function glassMm(
  boiler: Boiler,
  geometry: BoilerGeometry,
  waterM3: number,
  temperatureK: number,
): number {
  const levelMm = geometry.levelMmAtWaterM3(waterM3);
  if (boiler.glassWaterC === undefined || levelMm <= 0) return levelMm;
  const glassK = Math.min(boiler.glassWaterC + 273.15, temperatureK);
  return (levelMm * coldWaterAt(glassK).volumeM3PerKg) / saturationAt(temperatureK).waterM3PerKg;
}
