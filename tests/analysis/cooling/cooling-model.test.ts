import { describe, expect, test } from "vitest";
import { coolingModel } from "../../../src/analysis/cooling/cooling-model.ts";
import type { CoolingReading } from "../../../src/analysis/cooling/shut-in-course.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/**
 * At 3 bar g in 1000 hPa, 4 bar absolute (steam tables): 143.61 °C, hf 604.7, hg 2738.1, uf 604.2, ug 2553.1 kJ/kg, vf
 * 0.0010836, vg 0.4624 m3/kg; by Clapeyron 416.76 K x 0.4613 / 2133.4 kJ = 9.01 K/bar. Air of 15 °C: 128.61 K of excess.
 */
const sources = sourcesOf(smallEngine(), {
  ...smallSteaming(),
  conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1000 },
});
const EXCESS_K = 128.61;
const K_PER_BAR = 9.01;
const steady = (atS: number): CoolingReading => ({ atS, barG: 3, uBar: 0.02, biasBar: 0.05 });
const model = coolingModel(sources, [steady(1000), steady(1200), steady(1600)], 130, 1100);
const last = (column: Float64Array) => column.at(-1) as number;
/** within so many parts in a thousand */
const near = (value: number, wanted: number, thousandths = 3) =>
  expect(Math.abs(value / wanted - 1)).toBeLessThan(thousandths / 1000);

describe("a boiler that stands at one pressure for ten minutes", () => {
  test("time counts from the first reading", () => {
    expect([...model.seconds]).toEqual([0, 200, 600]);
    expect([model.lossMeasures[0], model.perLeakJ[0], model.airJ(1)[0]]).toEqual([0, expect.closeTo(0), 0]);
  });

  test("its loss goes with the excess over the air to the power of 1.25", () => {
    near(last(model.lossMeasures), EXCESS_K ** 1.25 * 600);
    near(model.lossMeasures[1] ?? 0, EXCESS_K ** 1.25 * 200);
    near(model.workingMeasure, EXCESS_K ** 1.25);
    near(model.workingExcessK, EXCESS_K);
    near(model.meanExcessK, EXCESS_K);
    near(model.latentJPerG, 2133.4);
  });

  test("a leak of 1 g/min takes the heat of water, less what its own water held; of steam, the latent heat more", () => {
    const held = 604.2 - (0.0010836 * (2553.1 - 604.2)) / (0.4624 - 0.0010836);
    near(last(model.perLeakJ), 10 * (604.7 - held), 40);
    near(last(model.perLeakSteamJ), 10 * 2133.4);
  });

  test("its heat goes with the pressure by what water, steam and metal hold", () => {
    // per kelvin: 130 g of water along the boiling line at 4.34 J/g (cf + the steam raised), 450 g of copper at 0.385 to 0.395
    const perBar = (model.uJ[0] ?? 0) / 0.02;
    const metal = model.metalShare * perBar;
    near(metal, 450 * 0.39 * K_PER_BAR, 15);
    near(perBar - metal, 130 * 4.34 * K_PER_BAR, 15);
    near(
      (model.storedJ[0] ?? 0) - 450 * 0.39 * 143.61,
      130 * 599.6 + 235.6e-6 * ((2553.1e3 - 604.2e3) / 0.4613),
      15,
    );
  });

  test("a dial that errs moves the heat and the loss, a wrong air temperature the loss alone", () => {
    const slope = 1.25 * EXCESS_K ** 0.25;
    near(last(model.airJ(2)), 2 * 0.5 * slope * 600);
    const ofHeat = (2.5 * (model.uJ[0] ?? 0)) as number;
    near(model.dialJ(3)[0] ?? 0, ofHeat);
    near(last(model.dialJ(3)) - ofHeat, 3 * slope * K_PER_BAR * 0.05 * 600);
  });

  test("a fire put out at 1100 s has given nothing before, and dies as an exponential after", () => {
    const given = model.dyingShare(100);
    expect(given[0]).toBe(0);
    expect(given[1]).toBeCloseTo(1 - Math.exp(-1), 12);
    expect(given[2]).toBeCloseTo(1 - Math.exp(-5), 12);
  });
});

// at 0.4 bar g the boiling point rises by 21.3 K a bar, at 0.3 by 22.6 (steam tables): a sixteenth more
test("what a reading's error does is taken along the cooling, so that one read too low is no surer for it", () => {
  const law = (barG: number) => ({ ...steady(0), barG });
  const bars = [0.6, 0.5, 0.4, 0.32, 0.24].map((barG, i) => ({ ...law(barG), atS: 100 * i }));
  const asRead = (offBar: number) =>
    coolingModel(
      sources,
      bars.map((one, i) => (i === 2 ? { ...one, barG: one.barG + offBar } : one)),
      130,
      0,
    );
  const [right, low] = [asRead(0), asRead(-0.1)];
  near(low.uJ[2] ?? 0, right.uJ[2] ?? 0, 20);
  near(low.dialJ(1)[2] ?? 0, right.dialJ(1)[2] ?? 0, 20);
  near((right.uJ[2] ?? 0) / (right.uJ[0] ?? 0), 21.3 / 18.9, 30);
});

test("between readings all that is summed goes straight", () => {
  const falling = coolingModel(sources, [steady(0), { ...steady(600), barG: 1 }], 130, 0);
  // 120.24 °C at 1 bar g: 105.24 K of excess; a leak at 1 bar is half of that at 3: 7.5 minutes' worth
  near(last(falling.lossMeasures), ((EXCESS_K ** 1.25 + 105.24 ** 1.25) / 2) * 600);
  near(falling.meanExcessK, (EXCESS_K + 105.24) / 2);
  // 2201.6 kJ/kg of latent heat at 2 bar absolute
  near(last(falling.perLeakSteamJ), 10 * ((2133.4 + 2201.6 / 2) / 2));
});
