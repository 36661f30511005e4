import type { Steaming } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { saturationTemperatureK } from "../../steam/saturation.ts";

export const PA_PER_BAR = 1e5;
export const ICE_POINT_K = 273.15;
/** Standard atmosphere, ISO 2533:1975 */
export const STANDARD_ATMOSPHERE_PA = 101_325;
/** Air that nobody recorded is thought of as so warm, °C, with its standard uncertainty: steam is raised from 5 to 25 °C (our estimate). */
const USUAL_AIR = { celsius: 15, uK: 5 };
/** Feed that nobody recorded is as warm as the air but for so much, K (our estimate). */
export const U_FEED_AS_AIR_K = 3;

/** What surrounds a steaming: recorded where it was, else the usual, and said to be assumed. */
export interface Circumstances {
  ambientC: number;
  feedC: number;
  /** standard uncertainties of what was not recorded, one error where neither was; 0 where it was */
  uAmbientK: number;
  uFeedK: number;
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
  const given = steaming.conditions;
  const [air, feed] = [read("ambient") ?? given?.ambientC, read("feed") ?? given?.feedC];
  const assumed: string[] = [];
  const orAssumed = (value: number | undefined, usual: number, words: string) => {
    if (value === undefined) assumed.push(`${words} ${usual} °C`);
    return value ?? usual;
  };
  const ambientC = orAssumed(air, USUAL_AIR.celsius, "air");
  const uAmbientK = air === undefined ? USUAL_AIR.uK : 0;
  const feedC = asWater(orAssumed(feed, asWater(ambientC), "feed water"));
  const atmospherePa =
    given?.atmosphereHPa === undefined ? STANDARD_ATMOSPHERE_PA : given.atmosphereHPa * 100;
  const absolutePa = (barG: number) => Math.max(barG, -0.98) * PA_PER_BAR + atmospherePa;
  return {
    ambientC,
    feedC,
    uAmbientK,
    uFeedK: feed === undefined ? Math.max(uAmbientK, U_FEED_AS_AIR_K) : 0,
    atmospherePa,
    dryness: given?.dryness ?? 1,
    assumed,
    absolutePa,
    boilingK: (barG) => saturationTemperatureK(absolutePa(barG)),
  };
}
