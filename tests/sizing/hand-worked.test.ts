import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import { smallEngine } from "../support/small-logbook.ts";
import { exactly, madeRun } from "./made-runs.ts";

/** The worked example of the README, step by step with pencil and tables; every digit below was found so. */
const small = smallEngine();
const engine: Locomotive = {
  ...small,
  boiler: { ...small.boiler, shape: { kind: "horizontal", innerDiameterMm: 48, innerLengthMm: 120 } },
  fuel: { kind: "spirit", densityGPerMl: 0.81, tankMl: 70 },
  handPump: { mlPerStroke: 1.2 },
};
const runs = [4.0, 4.4, 4.2, 4.6, 4.3].map((water, i) =>
  madeRun(i, exactly(water), exactly(1.5), { otherFuel: exactly(12) }),
);
const plan: Plan = {
  locomotiveId: engine.id,
  plan: { laps: 30 },
  allowanceMl: 10,
  reserveMl: 15,
  tanks: {
    space: { boilerOuterDiameter: 50, lagging: 1, cleading: 0.3, band: 0.2, clearance: 1, loadingGauge: 90 },
    water: [
      { kind: "side-pair", length: 100, height: 31.4, base: -10, plate: 0.7, freeboard: 2, deadDepth: 1 },
    ],
    solve: { tank: 0, dimension: "length", atMost: 250 },
  },
};
const { sizing } = sizeUp(engine, plan, modelsOf(runs, plan));

describe("the worked example", () => {
  test("is of the plan that the README prints", () => {
    const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
    const printed = readme.match(/```json\n(\{ "locomotiveId"[\s\S]*?)```/)?.[1] ?? "";
    expect({ ...JSON.parse(printed), locomotiveId: engine.id }).toEqual(plan);
  });

  test("water: mean 4.3 g, s 0.2236, t(0.95, 4) 2.132, bound 4.8222 g a lap, 144.9 ml", () => {
    const perLap = 4.3 + 2.131847 * Math.sqrt(0.2 / 4) * Math.sqrt(1 + 1 / 5);
    expect(perLap).toBeCloseTo(4.8222, 4);
    expect(sizing.demand).toMatchObject({ value: expect.closeTo((30 * 4.3) / 0.998207, 6), unit: "ml" });
    expect(sizing.bound).toMatchObject({ value: expect.closeTo((30 * perLap) / 0.998207, 3) });
    expect(sizing.bound.value).toBeCloseTo(144.93, 2);
    expect(sizing.needed.value).toBeCloseTo((144.93 + 25) / 0.87, 1);
  });

  test("tanks: 16.1 mm by 27 mm twice hold 169.9 ml at 196.9 mm", () => {
    expect(sizing.fit?.waterMl).toBeCloseTo(169.93, 2);
    // 169 930 / (2 x 16.1 x 27) = 195.46 inside, + 1.4 outside, up to the next tenth
    expect(sizing.fit?.solved?.mm).toBe(196.9);
    expect(sizing.fit?.usableMl).toBeCloseTo(2 * 16.1 * 27 * 0.1955, 9);
    expect(sizing.tanks[0]).toMatchObject({ widthMm: expect.closeTo(17.5, 9), lengthMm: 196.9 });
  });

  test("fuel: 30 x 1.5 + 12 = 57 g, 70.4 ml, 76.5 ml of tank with 8 % left empty: the 70 ml tank is 6.0 ml short", () => {
    expect(sizing.fuel.bound.value).toBeCloseTo(57, 9);
    expect(sizing.fuel.liquidMl.value).toBeCloseTo(57 / 0.81, 9);
    expect(sizing.fuel.tankMl.value).toBeCloseTo(57 / 0.81 / 0.92, 9);
    expect(sizing.fuel.shortMl).toBeCloseTo(57 / 0.81 - 70 * 0.92, 9);
    expect(sizing.fuel.shortMl).toBeCloseTo(5.97, 2);
  });

  test("endurance: 159.9 ml at 4.3 g a lap last 37.1 laps, 52.2 g of spirit 26.8 laps", () => {
    const waterMl = 2 * 16.1 * 27 * 0.1955 - 10;
    expect(sizing.endurance.waterLasts.value).toBeCloseTo((waterMl * 0.998207) / 4.3, 6);
    expect(sizing.endurance.waterLasts.value).toBeCloseTo(37.1, 1);
    expect(sizing.endurance.fuelLasts.value).toBeCloseTo((70 * 0.92 * 0.81 - 12) / 1.5, 6);
    expect(sizing.endurance.fuelLasts.value).toBeCloseTo(26.8, 1);
    // a t of 5.75 at four degrees of freedom lies beyond the printed 4.604 of 0.995 and below the 7.173 of 0.999
    expect(sizing.endurance.fuelEndsFirst).toBeGreaterThan(0.995);
    expect(sizing.endurance.fuelEndsFirst).toBeLessThan(0.999);
  });

  test("sheet: wrapper 230.0 x 31.4, cleading 169.3, bands 177.9", () => {
    const piece = (name: string) => sizing.cutting.find((one) => one.name === name);
    // legs 17.5 - 0.7, bends pi/2 x 0.4 x 0.7, side 196.9 - 1.4
    const wrapper = 2 * (16.8 + (Math.PI / 2) * 0.28) + 195.5;
    expect(piece("side tanks: front, side and rear")).toMatchObject({
      count: 2,
      lengthMm: expect.closeTo(wrapper, 6),
      widthMm: expect.closeTo(31.4, 9),
    });
    expect(wrapper).toBeCloseTo(230.0, 1);
    expect(piece("side tanks: floor")).toMatchObject({ lengthMm: expect.closeTo(195.5, 9) });
    expect(piece("cleading")?.lengthMm).toBeCloseTo(2 * Math.PI * 26.15 + 5, 9);
    expect(piece("cleading band")?.lengthMm).toBeCloseTo(2 * Math.PI * 26.4 + 12, 9);
  });

  test("the boiler between its levels is two segments of its round, 991.5 mm2 by 120 mm: 99.1 strokes", () => {
    const segment = (height: number) =>
      24 ** 2 * Math.acos((24 - height) / 24) - (24 - height) * Math.sqrt(2 * 24 * height - height ** 2);
    expect(segment(40)).toBeCloseTo(1611.3, 1);
    expect(segment(18)).toBeCloseTo(619.8, 1);
    const ml = (120 * (1611.319 - 619.808)) / 1000;
    expect(sizing.feeding.handPumpStrokes.lowestToHighest).toMatchObject({
      value: expect.closeTo(ml / 1.2, 2),
    });
    expect(ml / 1.2).toBeCloseTo(99.15, 2);
  });

  test("one millimetre of length is worth 0.87 ml, of gauge 5.28 ml", () => {
    const worth = (name: string) =>
      sizing.fit?.sensitivity.find(({ dimension }) => dimension === name)?.mlPerMm;
    expect(worth("side tanks: length")).toBeCloseTo((2 * 16.1 * 27) / 1000, 6);
    expect(worth("loading gauge, whole width")).toBeCloseTo((195.5 * 27) / 1000, 6);
  });
});
