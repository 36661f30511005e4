import { describe, expect, test } from "vitest";
import { leaksOf } from "../../../src/analysis/leaks/leaks.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { type Figure, interval, isMeasured } from "../../../src/quantity/measured.ts";
import { smallSteaming } from "../../support/small-logbook.ts";
import { drippingEngine } from "./dripping-engine.ts";

const engine = drippingEngine();

const dripsIn = (purpose: Steaming["purpose"], entries: Entry[]) =>
  leaksOf(
    sourcesOf(engine, {
      ...smallSteaming(),
      conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1000 },
      purpose,
      entries,
    }),
  ) ?? [];
const figure = (of: Figure | undefined) => {
  if (of === undefined || !isMeasured(of)) throw new Error(`no figure: ${of?.why}`);
  return of;
};

const drip = (fitting: string, g: number, atS = 700): Entry => ({
  kind: "drip",
  fitting,
  g,
  overS: 600,
  atS,
});
/** Pumped up to 8 bar, which is held. */
const held: Entry[] = [
  { kind: "strokes", count: 8, barG: 8, atS: 80 },
  { kind: "pressure", barG: 8, atS: 400 },
];

describe("a drip caught in a cold hold", () => {
  // 2 g in ten minutes at 8 bar, working at 4: 0.2 g/min x root of 1/2
  test.each(["gland", "clack"])(
    "of a %s is water, and goes with the root of the gauge pressure",
    (fitting) => {
      const [first] = dripsIn("cold-hold", [...held, drip(fitting, 2)]);
      expect(figure(first?.rate).value).toBeCloseTo(0.2 * Math.SQRT1_2, 9);
    },
  );

  // 0.1414 g/min of water of 999.1 kg/m3 at 4 bar: root(2 x 999.1 x 4e5) = 28271 kg/m2/s; 8.337e-11 m2; 0.0103 mm
  test("its hole is that of cold water", () => {
    const [first] = dripsIn("cold-hold", [...held, drip("clack", 2)]);
    expect(figure(first?.equivalentHole).value).toBeCloseTo(0.010303, 5);
  });

  test("nothing is thought of it that is known of steam: an empty cup is none, or what the weighing leaves", () => {
    const [first] = dripsIn("cold-hold", [...held, drip("gland", 0)]);
    expect(figure(first?.rate).value).toBe(0);
    // 0.1 g in ten minutes
    expect(interval(figure(first?.rate))[1]).toBeCloseTo(1.96 * 0.01 * Math.SQRT1_2, 4);
  });

  test("has its pressure from the strokes, where nobody read the dial again", () => {
    const [first] = dripsIn("cold-hold", [...held.slice(0, 1), drip("gland", 2)]);
    expect(figure(first?.rate).value).toBeCloseTo(0.2 * Math.SQRT1_2, 9);
  });

  // 4 bar: 0.2 g/min as it is
  test("is water until the fire is lit, and steam after", () => {
    const [cold, hot] = dripsIn("trial", [
      { kind: "strokes", count: 8, barG: 2, atS: 0 },
      { kind: "pressure", barG: 2, atS: 10 },
      drip("gland", 2, 700),
      { kind: "pressure", barG: 2, atS: 710 },
      { kind: "pressure", barG: 0, atS: 720 },
      { kind: "fire", state: "lit", atS: 800 },
      { kind: "pressure", barG: 4, atS: 1300 },
      drip("gland", 2, 2000),
      { kind: "pressure", barG: 4, atS: 2100 },
    ]);
    expect(figure(cold?.rate).value).toBeCloseTo(0.2 * Math.SQRT2, 9);
    expect(figure(hot?.rate).value).toBeCloseTo(0.2, 2);
    // Napier: 0.5245 kg/h for a bar on a mm2; 0.2 g/min at 5 bar absolute
    const areaMm2 = (0.2 * 0.06) / (0.5245 * 5);
    expect(figure(hot?.equivalentHole).value).toBeCloseTo(Math.sqrt((4 * areaMm2) / Math.PI), 2);
  });
});
