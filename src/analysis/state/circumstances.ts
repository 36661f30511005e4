import type { Steaming } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { saturationTemperatureK } from "../../steam/saturation.ts";

export const PA_PER_BAR = 1e5;
export const ICE_POINT_K = 273.15;
/** Standard atmosphere, ISO 2533:1975 */
export const STANDARD_ATMOSPHERE_PA = 101_325;

/** What surrounds a steaming: recorded where it was, else the usual, and said to be assumed. */
export interface Circumstances {
  ambientC: number;
  feedC: number;
  atmospherePa: number;
  dryness: number;
  assumed: readonly string[];
  absolutePa(barG: number): number;
  /** temperature of water boiling at this gauge pressure, K */
  boilingK(barG: number): number;
}

/** Cold water in and about a boiler is neither ice nor steam, whatever the air or a thermometer says. */
export const asWater = (celsius: number): number => Math.min(Math.max(celsius, 0.01), 99);

export function circumstancesOf(steaming: Steaming, timeline: Timeline): Circumstances {
  const read = (of: "ambient" | "feed") => {
    const values = timeline
      .of("temperature")
      .filter((entry) => entry.of === of)
      .map((entry) => entry.celsius);
    return values.length === 0 ? undefined : values.reduce((a, b) => a + b, 0) / values.length;
  };
  const assumed: string[] = [];
  const orAssumed = (value: number | undefined, usual: number, words: string) => {
    if (value === undefined) assumed.push(`${words} ${usual} °C`);
    return value ?? usual;
  };
  const given = steaming.conditions;
  const ambientC = orAssumed(read("ambient") ?? given?.ambientC, 15, "air");
  const feedC = asWater(orAssumed(read("feed") ?? given?.feedC, asWater(ambientC), "feed water"));
  const atmospherePa =
    given?.atmosphereHPa === undefined ? STANDARD_ATMOSPHERE_PA : given.atmosphereHPa * 100;
  const absolutePa = (barG: number) => Math.max(barG, -0.98) * PA_PER_BAR + atmospherePa;
  return {
    ambientC,
    feedC,
    atmospherePa,
    dryness: given?.dryness ?? 1,
    assumed,
    absolutePa,
    boilingK: (barG) => saturationTemperatureK(absolutePa(barG)),
  };
}
