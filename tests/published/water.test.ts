import { describe, expect, test } from "vitest";
import { celsiusFromFahrenheit, kelvinFromCelsius, paFromPsi } from "../../src/quantity/units.ts";
import { waterState } from "../../src/steam/region1.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "../../src/steam/saturation.ts";
import { relativeError } from "./closeness.ts";
import { hotWaterVolume, steamToWater, waterAt20C } from "./water.ts";

const ATMOSPHERE_PA = 101_325;

describe("hot water, Babcock & Wilcox, Table 11", () => {
  test.each(hotWaterVolume.rows)("volume at $fahrenheit °F relative to 4 °C", ({ fahrenheit, ratio }) => {
    const temperatureK = kelvinFromCelsius(celsiusFromFahrenheit(fahrenheit));
    const hot = saturatedWater(saturationPressurePa(temperatureK));
    const cold = waterState(kelvinFromCelsius(4), ATMOSPHERE_PA);
    expect(relativeError(hot.volumeM3PerKg / cold.volumeM3PerKg, ratio)).toBeLessThan(
      hotWaterVolume.tolerance,
    );
  });

  test("no row was dropped", () => expect(hotWaterVolume.rows).toHaveLength(4));
});

describe("water at 20 °C", () => {
  const water = waterState(kelvinFromCelsius(20), ATMOSPHERE_PA);
  const got = { density: 1 / water.volumeM3PerKg, compressibility: water.compressibilityPerPa * 1e9 };

  test.each(waterAt20C)("$what is $wanted", ({ what, wanted, tolerance }) => {
    expect(relativeError(got[what], wanted)).toBeLessThan(tolerance);
  });

  test("no row was dropped", () => expect(waterAt20C).toHaveLength(2));
});

describe("steam takes so many times the room of its water", () => {
  test.each(steamToWater)("at $psiG psi: $times", ({ psiG, times, tolerance }) => {
    const steam = saturatedSteam(ATMOSPHERE_PA + paFromPsi(psiG));
    const water = waterState(kelvinFromCelsius(20), ATMOSPHERE_PA);
    expect(relativeError(steam.volumeM3PerKg / water.volumeM3PerKg, times)).toBeLessThan(tolerance);
  });

  test("no row was dropped", () => expect(steamToWater).toHaveLength(2));
});
