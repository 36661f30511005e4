import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boilerContents } from "../../src/boiler/contents.ts";
import { metalHeatCapacityJPerK } from "../../src/boiler/metal.ts";
import { waterM3ForMass } from "../../src/boiler/water-mass.ts";
import { waterState } from "../../src/steam/region1.ts";
import { saturatedWater, saturationPressurePa, saturationTemperatureK } from "../../src/steam/saturation.ts";

fc.configureGlobal({ seed: 1825, numRuns: 200 });

const ATMOSPHERE_PA = 101_325;
const totalM3 = 250e-6;
const copper = metalHeatCapacityJPerK(500, "copper");
const waterVolume = fc.double({ min: 0, max: totalM3, noNaN: true });
const pressure = fc.double({ min: 1e5, max: 1.6e6, noNaN: true });

describe("in steam", () => {
  test("water and steam fill the boiler between them", () => {
    fc.assert(
      fc.property(waterVolume, pressure, (waterM3, pressurePa) => {
        const { waterKg, steamKg } = boilerContents({
          totalM3,
          waterM3,
          pressurePa,
          metalHeatCapacityJPerK: 0,
        });
        expect(waterM3ForMass(totalM3, waterKg + steamKg, pressurePa)).toBeCloseTo(waterM3, 15);
        expect(waterKg).toBeGreaterThanOrEqual(0);
        expect(steamKg).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test("with the same mass inside, the stored energy rises with pressure", () => {
    fc.assert(
      fc.property(pressure, fc.double({ min: 0.02, max: 0.2, noNaN: true }), (pressurePa, massKg) => {
        const energyAt = (pa: number): number =>
          boilerContents({
            totalM3,
            waterM3: waterM3ForMass(totalM3, massKg, pa),
            pressurePa: pa,
            metalHeatCapacityJPerK: copper,
          }).energyJ;
        expect(energyAt(pressurePa * 1.01)).toBeGreaterThan(energyAt(pressurePa));
      }),
    );
  });

  // u of boiling water at 4 bar is 604.2 kJ/kg (steam tables), the metal stands 143.6 K above 0 °C
  test("a boiler full of water holds the water's and the metal's heat", () => {
    const full = boilerContents({
      totalM3,
      waterM3: totalM3,
      pressurePa: 4e5,
      metalHeatCapacityJPerK: copper,
    });
    expect(full.steamKg).toBe(0);
    expect(full.energyJ / (full.waterKg * 604.2e3 + copper * 143.6)).toBeCloseTo(1, 3);
  });

  // dry steam at 4 bar: ug 2553.1 kJ/kg, vg 0.46238 m3/kg (steam tables)
  test("a boiler full of steam holds the steam's and the metal's heat", () => {
    const steamed = boilerContents({ totalM3, waterM3: 0, pressurePa: 4e5, metalHeatCapacityJPerK: 0 });
    expect(steamed.waterKg).toBe(0);
    expect(steamed.steamKg / (totalM3 / 0.46238)).toBeCloseTo(1, 3);
    expect(steamed.energyJ / ((totalM3 / 0.46238) * 2553.1e3)).toBeCloseTo(1, 3);
  });

  test("hot water is some 7.7 % lighter at 2.8 bar g than the level times cold density", () => {
    const cold = { totalM3, waterM3: 150e-6, pressurePa: ATMOSPHERE_PA, temperatureK: 293.15 };
    const hot = { totalM3, waterM3: 150e-6, pressurePa: 2.8e5 + ATMOSPHERE_PA };
    const [coldKg, hotKg] = [cold, hot].map(
      (fill) => boilerContents({ ...fill, metalHeatCapacityJPerK: copper }).waterKg,
    );
    expect((coldKg ?? 0) / (hotKg ?? 0)).toBeCloseTo(
      saturatedWater(hot.pressurePa).volumeM3PerKg * 998.207,
      4,
    );
    expect((hotKg ?? 0) / (coldKg ?? 0)).toBeCloseTo(0.925, 2);
  });
});

describe("cold", () => {
  const fill = { totalM3, waterM3: 150e-6, pressurePa: ATMOSPHERE_PA, metalHeatCapacityJPerK: copper };

  test("the water has its own density and there is no steam", () => {
    const contents = boilerContents({ ...fill, temperatureK: 288.15 });
    expect(contents.waterKg).toBe(150e-6 / waterState(288.15, ATMOSPHERE_PA).volumeM3PerKg);
    expect(contents.steamKg).toBe(0);
  });

  test("the energy of a kilogram and its metal rises with temperature", () => {
    const temperature = fc.double({ min: 273.15, max: 372, noNaN: true });
    fc.assert(
      fc.property(temperature, fc.double({ min: 0.01, max: 1, noNaN: true }), (temperatureK, stepK) => {
        const energyAt = (kelvin: number): number => {
          const waterM3 = 0.15 * waterState(kelvin, ATMOSPHERE_PA).volumeM3PerKg;
          return boilerContents({ ...fill, waterM3, temperatureK: kelvin }).energyJ;
        };
        expect(energyAt(temperatureK + stepK)).toBeGreaterThan(energyAt(temperatureK));
      }),
    );
  });

  test("cold and in steam meet at the boiling point, but for the steam", () => {
    const temperatureK = saturationTemperatureK(ATMOSPHERE_PA);
    const cold = boilerContents({ ...fill, waterM3: totalM3, temperatureK });
    const steaming = boilerContents({ ...fill, waterM3: totalM3 });
    expect(cold.waterKg / steaming.waterKg).toBeCloseTo(1, 12);
    expect(cold.energyJ / steaming.energyJ).toBeCloseTo(1, 12);
  });

  test("a thermometer that reads above boiling is taken at the pressure that goes with it", () => {
    const waterM3 = 150e-6;
    const got = boilerContents({ ...fill, waterM3, temperatureK: 375 });
    expect(got.waterKg).toBeCloseTo(waterM3 / saturatedWater(saturationPressurePa(375)).volumeM3PerKg, 12);
  });
});

describe("what cannot be", () => {
  test.each([-1e-6, 251e-6, Number.NaN])("%d m3 of water in 250 ml is refused", (waterM3) => {
    const fill = { totalM3, waterM3, pressurePa: 4e5, metalHeatCapacityJPerK: copper };
    expect(() => boilerContents(fill)).toThrow(/boilerContents: .* m3 of water, permitted 0 to 0.00025 m3/);
  });

  test.each([0, 0.3])("a mass of %d kg in 250 ml at 4 bar is refused", (massKg) => {
    expect(() => waterM3ForMass(totalM3, massKg, 4e5)).toThrow(/waterM3ForMass: .* kg, permitted 0\.0005/);
  });
});

test.each([
  ["copper", 192.5],
  ["brass", 190],
  ["steel", 230],
] as const)("500 g of %s takes %d J a kelvin", (metal, wanted) => {
  expect(metalHeatCapacityJPerK(500, metal)).toBeCloseTo(wanted, 9);
});
