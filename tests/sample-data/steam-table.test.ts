import { describe, expect, it } from "vitest";
import { coldWaterAt, saturationAt } from "../../sample-data/simulator/steam-table.ts";
import { waterState } from "../../src/steam/region1.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "../../src/steam/saturation.ts";

describe("steam table of the simulator", () => {
  it("stays within 2e-9 of the equations between its rows: the cubic's own error at 0.25 K", () => {
    for (let kelvin = 275; kelvin < 477; kelvin += 0.3137) {
      const pressurePa = saturationPressurePa(kelvin);
      const water = saturatedWater(pressurePa);
      const steam = saturatedSteam(pressurePa);
      const read = saturationAt(kelvin);
      for (const [got, want] of [
        [read.pressurePa, pressurePa],
        [read.waterM3PerKg, water.volumeM3PerKg],
        [read.steamM3PerKg, steam.volumeM3PerKg],
        [read.waterJPerKg, water.internalEnergyJPerKg],
        [read.steamJPerKg, steam.internalEnergyJPerKg],
      ] as const) {
        expect(Math.abs(got / want - 1)).toBeLessThan(2e-9);
      }
    }
  });

  it("carries cold water at one atmosphere as region 1 does", () => {
    for (let kelvin = 275; kelvin < 373; kelvin += 1.77) {
      const want = waterState(kelvin, 101_325);
      const got = coldWaterAt(kelvin);
      expect(Math.abs(got.volumeM3PerKg / want.volumeM3PerKg - 1)).toBeLessThan(2e-9);
      expect(Math.abs(got.energyJPerKg / want.internalEnergyJPerKg - 1)).toBeLessThan(2e-8);
    }
  });

  it("refuses temperatures that it does not carry", () => {
    expect(() => saturationAt(500)).toThrow(/500 K, permitted 273.2 to 478 K/);
  });
});
