import { describe, expect, test } from "vitest";
import { waterState } from "../../src/steam/region1.ts";
import { steamState } from "../../src/steam/region2.ts";
import { saturationPressurePa, saturationTemperatureK } from "../../src/steam/saturation.ts";
import type { SteamState } from "../../src/steam/state.ts";
import { relativeError } from "./closeness.ts";
import { type StateRow, table5, table15, table35, table36, tolerance } from "./iapws-r7-97.ts";

describe("IAPWS R7-97(2012)", () => {
  test.each(table5)("Table 5, region 1 at $temperatureK K and $pressureMPa MPa", (row) => {
    agrees(waterState(row.temperatureK, row.pressureMPa * 1e6), row);
  });

  test.each(table15)("Table 15, region 2 at $temperatureK K and $pressureMPa MPa", (row) => {
    agrees(steamState(row.temperatureK, row.pressureMPa * 1e6), row);
  });

  test.each(table35)("Table 35, saturation pressure at $temperatureK K", ({ temperatureK, pressureMPa }) => {
    expect(relativeError(saturationPressurePa(temperatureK), pressureMPa * 1e6)).toBeLessThan(tolerance);
  });

  test.each(table36)(
    "Table 36, saturation temperature at $pressureMPa MPa",
    ({ pressureMPa, temperatureK }) => {
      expect(relativeError(saturationTemperatureK(pressureMPa * 1e6), temperatureK)).toBeLessThan(tolerance);
    },
  );

  test("no row of the tables was dropped", () => {
    expect([table5, table15, table35, table36].map((table) => table.length)).toEqual([3, 3, 3, 3]);
  });
});

function agrees(state: SteamState, row: StateRow): void {
  expect(relativeError(state.volumeM3PerKg, row.v)).toBeLessThan(tolerance);
  expect(relativeError(state.enthalpyJPerKg, row.h * 1000)).toBeLessThan(tolerance);
  expect(relativeError(state.internalEnergyJPerKg, row.u * 1000)).toBeLessThan(tolerance);
  expect(relativeError(state.cpJPerKgK, row.cp * 1000)).toBeLessThan(tolerance);
  expect(relativeError(speedOfSoundMPerS(state), row.w)).toBeLessThan(tolerance);
}

function speedOfSoundMPerS(state: SteamState): number {
  const { temperatureK, volumeM3PerKg, expansionPerK, cpJPerKgK, compressibilityPerPa } = state;
  const isentropic = compressibilityPerPa - (temperatureK * volumeM3PerKg * expansionPerK ** 2) / cpJPerKgK;
  return Math.sqrt(volumeM3PerKg / isentropic);
}
