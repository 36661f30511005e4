import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { type Figure, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { evenBoiler, smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** 400 ml; 5 ml a millimetre of glass. */
const engine: Locomotive = {
  ...smallEngine(),
  boiler: evenBoiler,
  handPump: { mlPerStroke: 1, uMlPerStroke: 0.02 },
  instruments: { volumeReadingMl: 0.5, levelReadingMm: 0.4 },
};
const { handPump: _, ...withoutPump } = engine;
const worked = (entries: Entry[], locomotive: Locomotive = engine) =>
  analyse(locomotive, { ...smallSteaming(), purpose: "cold-hold", entries });
const figure = (of: Figure | undefined) => {
  if (of === undefined || !isMeasured(of)) throw new Error(`no figure: ${of?.why}`);
  return of;
};

/** Water at 15 °C, g/ml (handbooks). */
const COLD = 0.9991;
const up = [1, 2, 3, 4, 5, 6, 7, 8].map(
  (bar): Entry => ({ kind: "strokes", count: 1, barG: bar, atS: 50 + 10 * bar }),
);
const held: Entry[] = [
  { kind: "fill", ml: 390, atS: 0 },
  ...up,
  { kind: "pressure", barG: 8, atS: 300 },
  { kind: "pressure", barG: 7.9, atS: 700 },
  { kind: "drained", ml: 389, atS: 800 },
];

describe("the water of a boiler held cold", () => {
  // 390 ml filled in, 8 ml pumped in by strokes, 389 ml let out: 9 ml
  test("is what was filled and pumped in less what was let out, all of it cold", () => {
    const { totals, warnings } = worked(held);
    expect(figure(totals?.waterDrawn).value).toBeCloseTo(9 * COLD, 2);
    // two measures of 0.5 ml, and 8 ml by a stroke known to 2 %
    const u = COLD * Math.hypot(0.5, 0.5, 8 * 0.02);
    expect(standardUncertainty(figure(totals?.waterDrawn))).toBeCloseTo(u, 2);
    expect(figure(totals?.feed).value).toBeCloseTo(8 * COLD, 2);
    expect(warnings.map(({ code }) => code)).not.toContain("drained-hot");
  });

  test("is not known where nobody knows what a stroke puts in", () => {
    const { totals } = worked(held, withoutPump);
    const why = expect.stringContaining("millilitres of a stroke");
    expect(totals?.waterDrawn).toEqual({ value: null, why });
    expect(totals?.feed).toEqual({ value: null, why });
  });

  // 50 mm is 250 ml
  test("has a level read while the pump holds pressure as one of cold water", () => {
    const { water } = worked([...up, { kind: "level", mm: 50, atS: 200 }]);
    expect(water.input.readings[0]?.grams).toBeCloseTo(250 * COLD, 1);
  });
});
