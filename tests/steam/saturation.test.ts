import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  saturatedSteam,
  saturatedWater,
  saturationPressurePa,
  saturationTemperatureK,
} from "../../src/steam/saturation.ts";

fc.configureGlobal({ seed: 1997, numRuns: 200 });

const LOWEST_K = 273.15;
const HIGHEST_K = 623.15;
const temperature = fc.double({ min: LOWEST_K, max: HIGHEST_K, noNaN: true });
const pressure = temperature.map(saturationPressurePa);

describe("the saturation line", () => {
  test("a temperature comes back from its saturation pressure to 1 in 1e10", () => {
    fc.assert(
      fc.property(temperature, (temperatureK) => {
        const back = saturationTemperatureK(saturationPressurePa(temperatureK));
        expect(Math.abs(back / temperatureK - 1)).toBeLessThan(1e-10);
      }),
    );
  });

  test("pressure rises with temperature", () => {
    fc.assert(
      fc.property(temperature, fc.double({ min: 1e-3, max: 10, noNaN: true }), (temperatureK, stepK) => {
        fc.pre(temperatureK + stepK <= HIGHEST_K);
        expect(saturationPressurePa(temperatureK + stepK)).toBeGreaterThan(
          saturationPressurePa(temperatureK),
        );
      }),
    );
  });

  test("evaporating takes heat and room at every pressure, and water and steam are equally hot", () => {
    fc.assert(
      fc.property(pressure, (pressurePa) => {
        const [water, steam] = [saturatedWater(pressurePa), saturatedSteam(pressurePa)];
        expect(steam.enthalpyJPerKg).toBeGreaterThan(water.enthalpyJPerKg);
        expect(steam.volumeM3PerKg).toBeGreaterThan(water.volumeM3PerKg);
        expect(steam.temperatureK).toBe(water.temperatureK);
      }),
    );
  });

  test("enthalpy is internal energy and p v", () => {
    fc.assert(
      fc.property(pressure, (pressurePa) => {
        for (const state of [saturatedWater(pressurePa), saturatedSteam(pressurePa)]) {
          const flow = state.enthalpyJPerKg - state.internalEnergyJPerKg;
          expect(Math.abs(flow - pressurePa * state.volumeM3PerKg)).toBeLessThan(1e-8 * 2.8e6);
        }
      }),
    );
  });

  // Three separate equations (regions 1, 2 and 4) must agree; IF97 was fitted to, and keeps, about 1e-4 below 590 K.
  test("Clausius and Clapeyron's equation closes to 1e-4 from 274 K to 590 K", () => {
    for (let temperatureK = 274; temperatureK <= 590; temperatureK += 4) {
      const stepK = 1e-3;
      const rise = saturationPressurePa(temperatureK + stepK) - saturationPressurePa(temperatureK - stepK);
      const pressurePa = saturationPressurePa(temperatureK);
      const [water, steam] = [saturatedWater(pressurePa), saturatedSteam(pressurePa)];
      const heat = steam.enthalpyJPerKg - water.enthalpyJPerKg;
      const wanted = heat / (temperatureK * (steam.volumeM3PerKg - water.volumeM3PerKg));
      expect(Math.abs(rise / (2 * stepK) / wanted - 1)).toBeLessThan(1e-4);
    }
  });

  test("the ends of the range are permitted", () => {
    expect(saturationTemperatureK(saturationPressurePa(LOWEST_K))).toBeCloseTo(LOWEST_K, 6);
    expect(saturatedWater(saturationPressurePa(HIGHEST_K)).temperatureK).toBeCloseTo(HIGHEST_K, 6);
  });

  test.each([
    [() => saturationPressurePa(273), /saturationPressurePa: 273 K, permitted 273\.15 to 623\.15 K/],
    [() => saturationPressurePa(650), /saturationPressurePa: 650 K/],
    [() => saturationPressurePa(Number.NaN), /saturationPressurePa: NaN K/],
    [() => saturationTemperatureK(600), /saturationTemperatureK: 600 Pa absolute, permitted 611\.2/],
    [() => saturatedWater(17e6), /17000000 Pa absolute, permitted 611\.2\d* to 16529164\.\d* Pa absolute/],
    [() => saturatedSteam(-1), /-1 Pa absolute/],
  ])("outside it a RangeError says function, value, unit and range: %s", (call, words) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(words);
  });
});
