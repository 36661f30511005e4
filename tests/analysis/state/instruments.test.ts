import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { heldCold } from "../../../src/analysis/state/held-cold.ts";
import { levelErrorMm, readingErrors, sharedSource } from "../../../src/analysis/state/instruments.ts";
import { levelOffset } from "../../../src/analysis/water/level-offset.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { glassWords } from "../../../src/logbook/glass-reading.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const timelineWith = (entries: Entry[], levels: number[] = []) =>
  timelineOf({
    ...smallSteaming(),
    entries,
    ...(levels.length === 0
      ? {}
      : { traces: [{ channel: "levelMm" as const, startS: 0, everyS: 10, values: levels }] }),
  });

describe("the instruments", () => {
  test("are the engine's own where she has them, else of the usual kind", () => {
    // 4 % of a working pressure of 3 bar
    expect(readingErrors(smallEngine())).toEqual({
      pressureReadingBar: 0.1,
      pressureBiasBar: expect.closeTo(0.12, 12),
      levelReadingMm: 1,
      feedRelative: 0.02,
      massReadingG: 1,
      volumeReadingMl: 1,
    });
    const own = {
      pressureReadingBar: 0.05,
      pressureBiasBar: 0,
      levelReadingMm: 0.3,
      feedRelative: 0.01,
      massReadingG: 0.2,
      volumeReadingMl: 0.5,
    };
    expect(readingErrors({ ...smallEngine(), instruments: own })).toEqual(own);
  });

  // lowest level 4 mm under the glass's zero: the glass goes from there to 1 mm above the highest, 25 - -4 + 1 = 30 mm
  test("a quarter of a glass that reaches below its zero is a quarter of the whole of it", () => {
    const engine = { ...smallEngine(), boiler: { ...smallEngine().boiler, lowestLevelMm: -4 } };
    const u = levelErrorMm({ note: glassWords.quarters }, engine, readingErrors(engine));
    expect(u).toBeCloseTo(Math.hypot(1, 30 * Math.hypot(0.125 / Math.sqrt(3), 0.05)), 9);
  });

  test("errors that figures share go by the engine's name, and the fuel's by its kind", () => {
    expect(Object.values(sharedSource).map((name) => name(smallEngine()))).toEqual([
      "feed scale of small",
      "hand pump of small",
      "dial of small",
      "boiler volume of small",
      "heating value of spirit",
    ]);
  });
});

describe("a glass beside a logger of levels", () => {
  const steady = Array.from({ length: 121 }, () => 20);
  const level = (mm: number, atS: number, note?: string): Entry => ({
    kind: "level",
    mm,
    atS,
    id: `l${atS}`,
    ...(note === undefined ? {} : { note }),
  });
  const errors = readingErrors(smallEngine());

  // 22, 23 and 24 mm beside 20: 3 mm above, and each gives way by half of that but for u2 = (1 mm)2/3 of the difference
  test("each gives way to the other by half of what they differ by, less for what that is not known by", () => {
    const found = levelOffset(timelineWith([level(22, 300), level(23, 600), level(24, 900)], steady), errors);
    expect(found.offset?.value).toBeCloseTo(3, 9);
    expect(found.offset?.u).toBeCloseTo(1 / Math.sqrt(3), 9);
    const by = (3 * 1.5 ** 2) / (2 * 1.5 ** 2 + 1 / 3);
    expect(found.lowerReadingsBy).toBeCloseTo(by, 9);
    expect(found.lowerSamplesBy).toBeCloseTo(-by, 9);
  });

  test("levels in quarters of the glass, or out of sight, say nothing of the logger", () => {
    const coarse = [level(27, 400, glassWords.quarters), level(28, 700, glassWords.above)];
    const found = levelOffset(timelineWith([level(22, 300), ...coarse], steady), errors);
    expect(found.offset).toMatchObject({ value: expect.closeTo(2, 9), entries: ["l300"] });
  });

  // samples that go 19, 21, 19 ...: second differences of 4 mm; 4/0.6745/root 6 = 2.42 mm each, and one stands for a reading
  test("a logger that scatters counts by its scatter, a short one by the glass's own error", () => {
    const wild = Array.from({ length: 121 }, (_, i) => (i % 2 === 0 ? 21 : 19));
    const uOf = (levels: number[], atS: number) =>
      levelOffset(timelineWith([level(22, atS)], levels), errors).offset?.u;
    expect(uOf(wild, 300)).toBeCloseTo(Math.hypot(1, 4 / 0.6745 / Math.sqrt(6)), 3);
    expect(uOf(steady, 300)).toBeCloseTo(1, 9);
    expect(uOf(steady.slice(0, 11), 50)).toBeCloseTo(Math.SQRT2, 9);
  });

  test("without a logger there is nothing to bring together", () => {
    expect(levelOffset(timelineWith([level(22, 300)]), errors)).toMatchObject({
      offset: null,
      lowerReadingsBy: 0,
      lowerSamplesBy: 0,
    });
  });
});

describe("a hydraulic hold", () => {
  const fire = (state: "lit" | "out"): Entry => ({ kind: "fire", state, atS: 0 });
  const hold = { purpose: "cold-hold" as const };

  test("is cold where no fire was lit in it", () => {
    expect(heldCold(hold, timelineWith([]))).toBe(true);
    expect(heldCold(hold, timelineWith([fire("out")]))).toBe(true);
    expect(heldCold(hold, timelineWith([fire("lit")]))).toBe(false);
    expect(heldCold(hold, timelineWith([fire("lit"), fire("out")]))).toBe(false);
    expect(heldCold({ purpose: "trial" }, timelineWith([]))).toBe(false);
    const stroke: Entry = { kind: "strokes", count: 1, barG: 6, atS: 0 };
    expect(heldCold({ purpose: "other" }, timelineWith([stroke]))).toBe(true);
    expect(heldCold({ purpose: "other" }, timelineWith([stroke, fire("lit")]))).toBe(false);
    expect(heldCold({ purpose: "other" }, timelineWith([]))).toBe(false);
    expect(heldCold({ purpose: "trial" }, timelineWith([stroke]))).toBe(false);
  });

  test("has no phases of a fire", () => {
    const pressed = [0, 300, 600].map((atS): Entry => ({ kind: "pressure", barG: 6, atS }));
    const phases = (purpose: "cold-hold" | "trial") =>
      sourcesOf(smallEngine(), { ...smallSteaming(), purpose, entries: pressed }).phases.length;
    expect(phases("cold-hold")).toBe(0);
    expect(phases("trial")).toBeGreaterThan(0);
  });
});
