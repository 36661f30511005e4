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
  return levelMm <= 0 ? levelMm : levelMm * columnRatio(boiler, temperatureK);
}

/** Water in the boiler, m3, when the glass shows so much. */
export function waterM3AtGlassMm(
  boiler: Boiler,
  geometry: BoilerGeometry,
  mm: number,
  temperatureK: number,
): number {
  return geometry.waterM3AtLevelMm(mm <= 0 ? mm : mm / columnRatio(boiler, temperatureK));
}

/** Height of the glass's column against that of the boiler's. */
function columnRatio({ glassWaterC }: Boiler, temperatureK: number): number {
  if (glassWaterC === undefined) return 1;
  const glassK = Math.min(glassWaterC + 273.15, temperatureK);
  return coldWaterAt(glassK).volumeM3PerKg / saturationAt(temperatureK).waterM3PerKg;
}
