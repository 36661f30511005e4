import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { waterState } from "../../src/steam/region1.ts";
import { steamState } from "../../src/steam/region2.ts";
import { saturationPressurePa } from "../../src/steam/saturation.ts";
import type { SteamState } from "../../src/steam/state.ts";

fc.configureGlobal({ seed: 1997, numRuns: 200 });

/** Compressibility, expansion and cp against differences of volume and enthalpy; 1e-5 is what differences give. */
function slopesAgree(
  at: (temperatureK: number, pressurePa: number) => SteamState,
  t: number,
  p: number,
): void {
  const state = at(t, p);
  const [dt, dp] = [1e-4 * t, 1e-4 * p];
  const volume = (temperatureK: number, pressurePa: number): number =>
    at(temperatureK, pressurePa).volumeM3PerKg;
  const expansion = (volume(t + dt, p) - volume(t - dt, p)) / (2 * dt) / state.volumeM3PerKg;
  const compressibility = -(volume(t, p + dp) - volume(t, p - dp)) / (2 * dp) / state.volumeM3PerKg;
  const cp = (at(t + dt, p).enthalpyJPerKg - at(t - dt, p).enthalpyJPerKg) / (2 * dt);
  expect(Math.abs(expansion / state.expansionPerK - 1)).toBeLessThan(1e-5);
  expect(Math.abs(compressibility / state.compressibilityPerPa - 1)).toBeLessThan(1e-5);
  expect(Math.abs(cp / state.cpJPerKgK - 1)).toBeLessThan(1e-5);
}

describe("water", () => {
  test("compressibility, expansion and cp are the slopes of volume and enthalpy", () => {
    const temperature = fc.double({ min: 290, max: 500, noNaN: true });
    const pressure = fc.double({ min: 3e6, max: 50e6, noNaN: true });
    fc.assert(fc.property(temperature, pressure, (t, p) => slopesAgree(waterState, t, p)));
  });

  test("water swells by 8 % from 20 °C to 141 °C", () => {
    const hot = waterState(414.15, saturationPressurePa(414.15)).volumeM3PerKg;
    expect(hot / waterState(293.15, 101_325).volumeM3PerKg).toBeCloseTo(1.08, 2);
  });

  test.each([
    [() => waterState(273, 1e5), /waterState: 273 K, permitted 273\.15 to 623\.15 K/],
    [() => waterState(624, 20e6), /waterState: 624 K/],
    [
      () => waterState(300, 101e6),
      /waterState: 101000000 Pa absolute at 300 K, permitted 3536\.\d* to 100000000/,
    ],
    [
      () => waterState(400, 1e5),
      /waterState: 100000 Pa absolute at 400 K, permitted 24\d{4}\.\d* to 100000000/,
    ],
  ])("outside its region a RangeError says function, value, unit and range: %s", (call, words) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(words);
  });
});

describe("steam", () => {
  test("compressibility, expansion and cp are the slopes of volume and enthalpy", () => {
    const temperature = fc.double({ min: 450, max: 1000, noNaN: true });
    const pressure = fc.double({ min: 1e3, max: 0.8e6, noNaN: true });
    fc.assert(fc.property(temperature, pressure, (t, p) => slopesAgree(steamState, t, p)));
  });

  test("at low pressure it is an ideal gas", () => {
    const state = steamState(400, 1);
    expect((1 * state.volumeM3PerKg) / (461.526 * 400)).toBeCloseTo(1, 6);
  });

  test("its upper bound of pressure passes without a step from saturation to region 3's boundary", () => {
    const bound = (temperatureK: number): number => {
      const words = /to ([\d.]+) Pa/.exec(thrownBy(() => steamState(temperatureK, 1e9)));
      return Number(words?.[1]);
    };
    expect(bound(623.15 + 1e-9) / bound(623.15)).toBeCloseTo(1, 7);
    expect(bound(623.15) / 16.5291643e6).toBeCloseTo(1, 7); // R7-97, check value of Eq. 5
    expect(bound(1000) / 100e6).toBeCloseTo(1, 7);
  });

  test.each([
    [() => steamState(1074, 1e5), /steamState: 1074 K, permitted 273\.15 to 1073\.15 K/],
    [() => steamState(400, 3e5), /steamState: 300000 Pa absolute at 400 K, permitted 0 to 24\d{4}\.\d* Pa/],
    [() => steamState(400, 0), /steamState: 0 Pa absolute, permitted above 0 Pa absolute/],
  ])("outside its region a RangeError says function, value, unit and range: %s", (call, words) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(words);
  });
});

function thrownBy(call: () => unknown): string {
  try {
    call();
  } catch (problem) {
    return String(problem);
  }
  throw new Error("nothing was thrown");
}
