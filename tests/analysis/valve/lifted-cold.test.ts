import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { safetyValveOf } from "../../../src/analysis/valve/safety-valve.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { type Figure, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine: Locomotive = {
  ...smallEngine(),
  handPump: { mlPerStroke: 0.5 },
  instruments: { pressureReadingBar: 0.03, pressureBiasBar: 0.04 },
};
const figures = (entries: Entry[], purpose: Steaming["purpose"] = "cold-hold") =>
  safetyValveOf(sourcesOf(engine, { ...smallSteaming(), purpose, entries }));
const figure = (of: Figure | undefined) => {
  if (of === undefined || !isMeasured(of)) throw new Error(`no figure: ${of?.why}`);
  return of;
};

const stroke = (barG: number, atS: number): Entry => ({ kind: "strokes", count: 1, barG, atS });
const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const valve = (state: "lifts" | "reseats", atS: number): Entry => ({ kind: "valve", state, atS });
const up = [2, 4, 6].map((barG) => stroke(barG, 10 * barG));
const highest = { value: null, why: expect.stringContaining("by the pump") };

describe("a safety valve lifted cold by the pump", () => {
  test("lifts at what the stroke reached, as surely as the dial is read", () => {
    const found = figures([...up, valve("lifts", 62), bar(5.8, 300)]);
    expect(figure(found?.lift).value).toBeCloseTo(6, 9);
    expect(standardUncertainty(figure(found?.lift))).toBeCloseTo(0.05, 9); // 3, 4 and 5
    expect(found?.reseat).toEqual({ value: null, why: expect.stringContaining("not seen to reseat") });
  });

  test("is judged by no working pressure: a hydraulic test goes above it on purpose", () => {
    const found = figures([...up, valve("lifts", 62), bar(5.8, 300)]);
    expect(found?.highest).toEqual(highest);
    expect(found?.rise).toEqual(highest);
  });

  // 2.5 s from either stroke: 5 bar, with a bar to either side in doubt
  test("between two strokes lifts at either", () => {
    const { lift } = figures([stroke(4, 57.5), valve("lifts", 60), stroke(6, 62.5)]) ?? {};
    expect(figure(lift).value).toBeCloseTo(5, 9);
    expect(figure(lift).parts.find(({ name }) => name === "moment of the valve")?.u).toBeCloseTo(1, 9);
  });

  test("lifted twice is told by the mean of both, the dial's bias shared", () => {
    const again = [bar(4.4, 70), valve("reseats", 70), stroke(6.2, 100), valve("lifts", 100)];
    const found = figures([...up, valve("lifts", 60), ...again]);
    expect(figure(found?.lift).value).toBeCloseTo(6.1, 9);
    expect(standardUncertainty(figure(found?.lift))).toBeCloseTo(Math.hypot(0.03 / Math.SQRT2, 0.04), 9);
    expect(figure(found?.reseat).value).toBeCloseTo(4.4, 9);
  });

  test("with nothing read near it is left open", () => {
    const why = expect.stringContaining("near enough");
    expect(figures([...up, valve("lifts", 90), bar(5.8, 300)])?.lift).toEqual({ value: null, why });
  });

  test("is the same under the purpose of trying it, with no fire lit", () => {
    const found = figures([...up, valve("lifts", 62), bar(5.8, 300)], "safety-valve");
    expect(figure(found?.lift).value).toBeCloseTo(6, 9);
    expect(found?.rise).toEqual(highest);
  });

  test("says nothing of where it lifts in steam, nor of how high she goes then", () => {
    const steamed: Entry[] = [
      bar(0, 400),
      { kind: "fire", state: "lit", atS: 500 },
      bar(2.5, 1000),
      bar(2.98, 1058),
      valve("lifts", 1060),
      bar(2.8, 1080),
    ];
    const cold = [...up, valve("lifts", 62), bar(6, 65)];
    expect(figures([...cold, ...steamed], "trial")).toEqual(
      figures([...up.slice(0, 1), ...steamed], "trial"),
    );
    const neverInSteam = figures([...cold, ...steamed.slice(0, 3)], "trial");
    expect(figure(neverInSteam?.lift).value).toBeCloseTo(6, 1);
    expect(neverInSteam?.highest).toEqual(highest);
  });
});
