import { describe, expect, test } from "vitest";
import {
  celsiusFromKelvin,
  fahrenheitFromCelsius,
  kgFromPounds,
  mFromFeet,
  paFromBar,
  paFromPsi,
} from "../../src/quantity/units.ts";
import { saturatedSteam, saturatedWater } from "../../src/steam/saturation.ts";
import { relativeError } from "./closeness.ts";
import { marksAndDavis, spiraxSarco } from "./steam-tables.ts";

const ATMOSPHERE_PA = 101_325;

describe("Spirax Sarco TI-GCM-01", () => {
  const { rows, tolerance } = spiraxSarco;

  test.each(rows)("saturated steam at $barG bar g", ({ barG, celsius, hf, hfg, hg, vg }) => {
    const pressurePa = paFromBar(barG) + ATMOSPHERE_PA;
    const [water, steam] = [saturatedWater(pressurePa), saturatedSteam(pressurePa)];
    const evaporationJPerKg = steam.enthalpyJPerKg - water.enthalpyJPerKg;
    expect(Math.abs(celsiusFromKelvin(steam.temperatureK) - celsius)).toBeLessThan(tolerance.celsius);
    expect(relativeError(water.enthalpyJPerKg, hf * 1000)).toBeLessThan(tolerance.heat);
    expect(relativeError(evaporationJPerKg, hfg * 1000)).toBeLessThan(tolerance.heat);
    expect(relativeError(steam.enthalpyJPerKg, hg * 1000)).toBeLessThan(tolerance.heat);
    expect(Math.abs(steam.volumeM3PerKg - vg)).toBeLessThan(tolerance.volumeM3PerKg);
  });

  test("no row was dropped", () => expect(rows).toHaveLength(4));
});

describe("Marks & Davis 1909", () => {
  const { rows, tolerance } = marksAndDavis;
  const J_PER_INTERNATIONAL_BTU = 1055.05585262; // NIST SP 811, Appendix B
  const joulesPerKg = (btuPerPound: number): number =>
    (btuPerPound * J_PER_INTERNATIONAL_BTU) / kgFromPounds(1);
  const m3PerKg = (cubicFeetPerPound: number): number =>
    (cubicFeetPerPound * mFromFeet(1) ** 3) / kgFromPounds(1);

  test.each(rows)("saturated steam at $psia psia", ({ psia, fahrenheit, vg, hf, hfg, hg }) => {
    const pressurePa = paFromPsi(psia);
    const [water, steam] = [saturatedWater(pressurePa), saturatedSteam(pressurePa)];
    const evaporationJPerKg = steam.enthalpyJPerKg - water.enthalpyJPerKg;
    const gotFahrenheit = fahrenheitFromCelsius(celsiusFromKelvin(steam.temperatureK));
    expect(Math.abs(gotFahrenheit - fahrenheit)).toBeLessThan(tolerance.fahrenheit);
    expect(relativeError(steam.volumeM3PerKg, m3PerKg(vg))).toBeLessThan(tolerance.volume);
    expect(relativeError(water.enthalpyJPerKg, joulesPerKg(hf))).toBeLessThan(tolerance.hf);
    expect(relativeError(evaporationJPerKg, joulesPerKg(hfg))).toBeLessThan(tolerance.hfg);
    expect(relativeError(steam.enthalpyJPerKg, joulesPerKg(hg))).toBeLessThan(tolerance.hg);
  });

  test("no row was dropped", () => expect(rows).toHaveLength(4));
});
