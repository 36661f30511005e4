import { interval, isMeasured } from "../../quantity/measured.ts";
import { waterState } from "../../steam/region1.ts";
import { saturatedSteam } from "../../steam/saturation.ts";
import { fuelProperties } from "../fuel/fuel-table.ts";
import type { Heat } from "../heat/heat.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { ICE_POINT_K } from "../state/circumstances.ts";

/**
 * Water that a gram of fuel can turn into dry steam, g, were all its heat to go into it: lower heating value over
 * h_steam - h_feed. A millilitre of ethanol comes to 8.0 ml of water at 40 psi.
 */
export function evaporationCeiling(heatingMJPerKg: number, barG: number, from: Sources): number {
  const feedK = from.around.feedC + ICE_POINT_K;
  const feed = waterState(feedK, Math.max(from.around.absolutePa(0), 2e5)).enthalpyJPerKg;
  return (heatingMJPerKg * 1e6) / (saturatedSteam(from.around.absolutePa(barG)).enthalpyJPerKg - feed);
}

/** More heat, or more steam, than the fuel holds; or less than none. Said where the whole range lies there, not the figure alone. */
export function heatCeilingWarnings(from: Sources, heat: Heat | null): Warning[] {
  if (heat === null) return [];
  const entries = from.timeline.of("fuel").map((entry) => entry.id);
  if (isMeasured(heat.efficiency)) {
    const { value } = heat.efficiency;
    const [low, high] = interval(heat.efficiency);
    if (high < 0) {
      const text = "Less heat left the boiler than went in with the feed: the data are wrong.";
      return [{ code: "heat-negative", text, entries }];
    }
    if (low <= 1) return [];
    const text = `More heat left the boiler than the fuel holds (${percent(value)}, ${percent(low)} at the least): the data are wrong, or water was carried over with the steam.`;
    return [{ code: "heat-ceiling", text, entries }];
  }
  // without pressures there is no account of heat, but steam at the atmosphere is the least that it can have taken
  const properties = fuelProperties(from.locomotive.fuel);
  if (!isMeasured(heat.evaporationRatio) || properties === null) return [];
  const most = evaporationCeiling(
    properties.lowerHeatingValueMJPerKg * (1 + 2 * properties.uRelative),
    0,
    from,
  );
  const [low] = interval(heat.evaporationRatio);
  if (low <= most) return [];
  return [
    {
      code: "evaporation-ceiling",
      text: `A gram of fuel is said to have evaporated ${heat.evaporationRatio.value.toFixed(1)} g of water, where its heat is enough for ${most.toFixed(1)} g at the most: the data are wrong, or water was carried over with the steam.`,
      entries,
    },
  ];
}

const percent = (share: number): string => `${Math.round(100 * share)} %`;
