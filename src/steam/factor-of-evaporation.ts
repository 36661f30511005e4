import { waterState } from "./region1.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "./saturation.ts";
import { within } from "./within.ts";

const FROM_AND_AT_K = 373.15;

/** Heat of evaporation from and at 100 °C, J/kg. */
export const HEAT_FROM_AND_AT_100_C_J_PER_KG =
  saturatedSteam(saturationPressurePa(FROM_AND_AT_K)).enthalpyJPerKg -
  saturatedWater(saturationPressurePa(FROM_AND_AT_K)).enthalpyJPerKg;

/**
 * Factor of evaporation: heat to make steam from the feed, over that from and at 100 °C (definition as in Babcock &
 * Wilcox, Steam, 35th ed. 1919). Steam of dryness x has hf + x hfg; the feed counts as water at its own saturation
 * pressure.
 * @param steamPressurePa absolute, 611.213 Pa to 16.529 MPa
 * @param feedTemperatureK 273.15 K to 623.15 K
 * @param dryness 0 to 1
 */
export function factorOfEvaporation(
  steamPressurePa: number,
  feedTemperatureK: number,
  dryness: number,
): number {
  within(dryness, 0, 1, "of dryness", "factorOfEvaporation");
  const waterJPerKg = saturatedWater(steamPressurePa).enthalpyJPerKg;
  const steamJPerKg = saturatedSteam(steamPressurePa).enthalpyJPerKg;
  const feedJPerKg = waterState(feedTemperatureK, saturationPressurePa(feedTemperatureK)).enthalpyJPerKg;
  const outJPerKg = waterJPerKg + dryness * (steamJPerKg - waterJPerKg);
  return (outJPerKg - feedJPerKg) / HEAT_FROM_AND_AT_100_C_J_PER_KG;
}
