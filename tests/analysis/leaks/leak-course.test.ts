import { describe, expect, test } from "vitest";
import type { CoolingReading } from "../../../src/analysis/cooling/shut-in-course.ts";
import { leakCourse, leakShare } from "../../../src/analysis/leaks/leak-course.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { saturationPressurePa } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** 1000 hPa outside, 3 bar g working: 4 bar absolute. Steam chokes above 1/0.577 = 1.733 bar absolute. */
const sources = (entries: Entry[], biasBar = 0) =>
  sourcesOf(
    { ...smallEngine(), instruments: { pressureReadingBar: 0.01, pressureBiasBar: biasBar } },
    {
      ...smallSteaming(),
      purpose: "hot-hold",
      conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1000 },
      entries,
    },
  );
const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const reading = (atS: number, barG: number): CoolingReading => ({ atS, barG, uBar: 0.01, biasBar: 0 });

describe("a leak against time", () => {
  test("goes with the absolute pressure while it chokes, and to nothing with the pressure", () => {
    const share = leakShare(sources([]));
    expect([3, 2, 1].map(share)).toEqual([1, 0.75, 0.5].map((one) => expect.closeTo(one, 9)));
    // unchoked at 1.25 bar absolute: r = 0.8, sqrt(0.8 x 0.2 / (0.577 x 0.423)) = 0.8097 of choked
    expect(share(0.25)).toBeCloseTo((1.25 / 4) * 0.8097, 4);
    expect(share(0)).toBe(0);
    expect(share(-0.1)).toBe(0);
  });

  // her warmth goes straight, nearly as the fourth root of the absolute pressure: of 4 to 2 bar the mean is
  // (4^1.25 - 2^1.25) / (5 (4^0.25 - 2^0.25)) = 2.914, by the steam tables 2.907; the middle at 1.3017^4 = 2.871
  test("ten minutes from 3 to 1 bar, as read: 7.29 minutes' worth", () => {
    const held = sources([lit, bar(3, 10), bar(1, 610)]);
    const { perLeakG, dialG } = leakCourse(held, [], 10, 610);
    expect(perLeakG).toBeCloseTo((10 * 2.914) / 4, 2);
    expect(dialG).toBe(0);
    // parts of it: (4^1.25 - 1.3017^5) / (5 x 0.1125) = 3.412 and 2.416
    expect(leakCourse(held, [], 10, 310).perLeakG).toBeCloseTo((5 * 3.412) / 4, 2);
    expect(leakCourse(held, [], 310, 610).perLeakG).toBeCloseTo((5 * 2.416) / 4, 2);
    expect(leakCourse(held, [], 310, 310).perLeakG).toBe(0);
  });

  test("a dial that reads a standard error too low makes it so much less", () => {
    const held = sources([lit, bar(3, 10), bar(1, 610)], 0.1);
    // 0.1 bar of 4 bar for ten minutes
    expect(leakCourse(held, [], 10, 610).dialG).toBeCloseTo((10 * 0.1) / 4, 3);
  });

  // root of the gauge pressure from 3 to 1: mean (2/3)(3^1.5 - 1)/(2 x sqrt 3) = 0.8076 of full flow, 0.0576 above steam's 0.75
  test("where it was read closely, what is left in doubt is whether water leaks, half of the difference", () => {
    const list = Array.from({ length: 201 }, (_, i) => bar(3 - i / 100, 10 + 3 * i));
    const { uG, ifWaterG } = leakCourse(sources([lit, ...list]), [], 10, 610);
    const mean = ((2 / 3) * (3 ** 1.5 - 1)) / (2 * Math.sqrt(3));
    const strayed = Math.hypot(...Array.from({ length: 200 }, () => (0.2 * 0.0025 * 3) / 60));
    expect(ifWaterG).toBeCloseTo(10 * (mean - 0.75), 2);
    expect(uG).toBeCloseTo(Math.hypot(10 * 0.5 * (mean - 0.75), strayed), 2);
  });

  test("a gap of ten minutes leaves a fifth of the change over it in doubt", () => {
    const { uG } = leakCourse(sources([lit, bar(3, 10), bar(1, 610)]), [], 10, 610);
    const mean = ((2 / 3) * (3 ** 1.5 - 1)) / (2 * Math.sqrt(3));
    expect(uG).toBeCloseTo(Math.hypot(10 * 0.5 * (mean - 0.75), 0.2 * 0.5 * 10), 2);
    // of a window that takes in half of the gap, half
    const half = leakCourse(sources([lit, bar(3, 10), bar(3, 310), bar(1, 910)]), [], 10, 610);
    expect(half.uG).toBeGreaterThan(0.2 * 0.5 * 5);
    expect(half.uG).toBeLessThan(0.2 * 0.5 * 5 * 1.2);
  });

  test("raised from cold, it begins with first steam", () => {
    const raised = sources([lit, bar(0, 0), bar(0, 200), bar(1.5, 500), bar(3, 800)]);
    const steamS = raised.pressure.firstSteamS ?? Number.NaN;
    expect(steamS).toBeGreaterThan(100);
    expect(leakCourse(raised, [], 0, steamS).perLeakG).toBe(0);
    expect(leakCourse(raised, [], 0, 800).perLeakG).toBeCloseTo(
      leakCourse(raised, [], steamS, 800).perLeakG,
      1,
    );
  });

  test("before the first reading of a boiler already in steam, half of full flow, give or take three tenths", () => {
    const hot = sources([bar(3, 600), bar(3, 900)]);
    const { perLeakG, uG } = leakCourse(hot, [], 0, 900);
    expect(perLeakG).toBeCloseTo(0.5 * 10 + 5, 6);
    expect(uG).toBeCloseTo(0.3 * 10, 6);
    expect(leakCourse(hot, [], 700, 900).uG).toBeCloseTo(0, 9);
  });

  // boiling: 143.61 °C at 3 bar, 133.12 at 1.965, 100.98 at 0.05 (steam tables, 1000 hPa); air 15 °C. theta^-0.25 grows by
  // 0.00637 in 300 s from 128.61 K of excess to 118.12, and by 0.02504 in 1179 s more to 85.98
  test("after the last reading as she goes on cooling, until there is no pressure, in doubt by three twentieths", () => {
    const list = [bar(3, 600), bar(1.965, 900)];
    const held = sources([lit, ...list]);
    // the first and the last reading tell, whatever one between them does
    const cooling = [reading(600, 3), reading(700, 2.9), reading(900, 1.965)];
    const after = leakCourse(held, cooling, 900, 9000);
    expect(after.perLeakG).toBeCloseTo(leakCourse(held, cooling, 900, 2100).perLeakG, 6);
    expect(leakCourse(held, cooling, 2060, 9000).perLeakG).toBeGreaterThan(0);
    // second by second: theta^-0.25 straight in time, choked down to 1.733 bar absolute, by the root form below
    let expectedG = 0;
    for (let s = 0; s < 1179; s++) {
      const excessK = (118.12 ** -0.25 + (0.02504 * s) / 1179) ** -4;
      const absolute = saturationPressurePa(288.15 + excessK) / 1e5;
      const r = Math.max(0.577, 1 / absolute);
      expectedG += ((absolute / 4) * Math.sqrt((r * (1 - r)) / (0.577 * 0.423))) / 60;
    }
    expect(after.perLeakG / expectedG).toBeGreaterThan(0.99);
    expect(after.perLeakG / expectedG).toBeLessThan(1.01);
    expect(after.uG).toBeGreaterThan(0.15 * after.perLeakG - 1e-9);
    expect(after.uG).toBeLessThan(0.3 * after.perLeakG);
    const both = leakCourse(held, cooling, 600, 9000);
    expect(both.perLeakG).toBeCloseTo(after.perLeakG + leakCourse(held, cooling, 600, 900).perLeakG, 6);
  });

  test("a boiler that did not cool stays at its last pressure", () => {
    const held = sources([lit, bar(3, 600), bar(3, 900)]);
    for (const cooling of [[], [reading(600, 3), reading(900, 3)], [reading(600, 2.8), reading(900, 3)]])
      expect(leakCourse(held, cooling, 900, 1500).perLeakG).toBeCloseTo(10, 6);
  });
});
