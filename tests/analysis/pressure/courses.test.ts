import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { meanOver } from "../../../src/analysis/pressure/pressure-over-time.ts";
import { seriesOf } from "../../../src/analysis/series.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { readingErrors } from "../../../src/analysis/state/instruments.ts";
import { strayCovariance } from "../../../src/analysis/water/demand-wander.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { saturationTemperatureK } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar } from "../water/water-log.ts";

/** A mean of two gauge pressures by the fourth root of the absolute ones. */
const WARMTH = (a: number, p: number, b: number, q: number) =>
  (a * (p + 1) ** 0.25 + b * (q + 1) ** 0.25) ** 4 - 1;

describe("pressure between its readings", () => {
  const { pressure } = sourcesOf(smallEngine(), {
    ...smallSteaming(),
    entries: [bar(1, 100), bar(3, 300), bar(3, 400), bar(2, 500)],
  });

  test.each([
    [0, 1],
    [100, 1],
    [150, WARMTH(0.75, 1, 0.25, 3)],
    [300, 3],
    [350, 3],
    [450, WARMTH(0.5, 3, 0.5, 2)],
    [900, 2],
  ])("at %d s it is %d bar", (atS, wanted) => {
    expect(pressure.atS(atS)).toBeCloseTo(wanted, 9);
  });

  // steam tables: boiling at 120.4 °C at 1 bar g and at 143.8 at 3; at 2 it is 133.7
  test("half-way between two readings she is half as much warmer, and not at half of the pressure", () => {
    const kelvin = saturationTemperatureK(((pressure.atS(200) as number) + 1.013) * 1e5);
    expect(kelvin - 273.15).toBeCloseTo((120.4 + 143.8) / 2, 0);
  });

  test("has none until the first steam, whatever was read before and after", () => {
    const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
    const raised = sourcesOf(smallEngine(), {
      ...smallSteaming(),
      entries: [lit, bar(0, 0), bar(0, 300), bar(1.5, 600), bar(2.5, 640)],
    }).pressure;
    const steamS = raised.firstSteamS as number;
    expect(steamS).toBeGreaterThan(450);
    expect(raised.atS(steamS)).toBe(0);
    expect(raised.atS(steamS - 1)).toBe(0);
    expect(raised.atS(600)).toBe(1.5);
  });

  // trapezoids: 100 to 300 s 400 bar s, to 400 s 300, to 500 s 250
  test.each([
    [100, 300, 2],
    [100, 500, 950 / 400],
    [350, 450, (150 + 137.5) / 100],
    [0, 100, 1],
    [0, 200, (100 + 150) / 200],
    [500, 700, 2],
    [450, 600, (112.5 + 200) / 150],
  ])("its mean from %d to %d s is %d bar", (fromS, toS, wanted) => {
    expect(meanOver(pressure, fromS, toS)).toBeCloseTo(wanted, 9);
  });

  test("reaches a pressure on the line between two readings, the first time after a moment", () => {
    expect(pressure.reaches(2, 0)).toBeCloseTo(200, 9);
    expect(pressure.reaches(2.5, 350)).toBe(350);
    expect(pressure.reaches(3.5, 0)).toBeNull();
    expect(pressure.highest).toEqual({ atS: 300, barG: 3 });
    expect(pressure.beganInSteam).toBe(true);
  });
});

test("instruments that nobody described are of the usual sort, the dial good to 4 % of working pressure", () => {
  expect(readingErrors(smallEngine())).toEqual({
    pressureReadingBar: 0.1,
    pressureBiasBar: expect.closeTo(0.12, 12),
    levelReadingMm: 1,
    feedRelative: 0.02,
    massReadingG: 1,
    volumeReadingMl: 1,
  });
});

/** Integral of a rate error that is forgotten exponentially: Gillespie, Phys. Rev. E 54 (1996) 2084. */
describe("stray of the demand", () => {
  test("while it is remembered, a steady error: x times y", () => {
    expect(strayCovariance(1, 2, 1e4) / 2).toBeCloseTo(1, 3);
  });

  test("long after, a random walk of twice its memory a second", () => {
    expect(strayCovariance(1e6, 1e6, 10) / (2 * 10 * 1e6)).toBeCloseTo(1, 4);
    expect(strayCovariance(1e6, 2e6, 10) / (2 * 10 * 1e6)).toBeCloseTo(1, 4);
  });

  // after one memory: 2 - 2 (1 - 1/e) memories squared
  test("its variance after one memory", () => {
    expect(strayCovariance(60, 60, 60)).toBeCloseTo((3600 * 2) / Math.E, 9);
  });

  test("what it grows by between two moments does not depend on when they were", () => {
    const grown = (x: number, y: number) =>
      strayCovariance(x, x, 40) - 2 * strayCovariance(x, y, 40) + strayCovariance(y, y, 40);
    expect(grown(100, 130)).toBeCloseTo(strayCovariance(30, 30, 40), 9);
    expect(strayCovariance(100, 130, 40)).toBeCloseTo(strayCovariance(130, 100, 40), 12);
  });
});

describe("curves of a steaming", () => {
  const entries: Entry[] = [
    { kind: "fuel", action: "added", g: 20, atS: 0 },
    ...smallSteaming().entries.slice(0, 4),
    { kind: "lap", count: 4, atS: 250 },
    { kind: "feed", by: "bottle", ml: 10, atS: 300 },
    { kind: "feed", by: "bottle", ml: 20, atS: 400 },
    ...smallSteaming().entries.slice(4),
    { kind: "fire", state: "out", atS: 500 },
    { kind: "fuel", action: "remaining", g: 5, atS: 500 },
    { kind: "note", text: "cold", atS: 600 },
  ];
  const analysis = analyse(smallEngine(), { ...smallSteaming(), entries });
  const series = seriesOf(analysis);

  test("what was read stands where it was read, in order of time", () => {
    expect(series.pressure.points).toEqual([
      [0, 3],
      [500, 2.8],
    ]);
    expect(series.level.points).toEqual([
      [0, 20],
      [500, 10],
    ]);
    expect(series.laps.points).toEqual([
      [250, 4],
      [500, 10], // counts that only ever rise are a running count
    ]);
  });

  // water at 15 °C: 0.9991 g/ml
  test("feed goes up by steps and stays", () => {
    expect(series.feed.points).toEqual(
      [
        [300, 0],
        [300, 9.991],
        [400, 9.991],
        [400, 29.973],
        [600, 29.973],
      ].map(([atS, grams]) => [atS, expect.closeTo(grams ?? 0, 2)]),
    );
  });

  test("fuel burns about evenly from lit to out, as its heat tells, and water is drawn from nothing to the total, within its range", () => {
    expect(series.fuel.points).toHaveLength(31);
    expect(series.fuel.points[0]).toEqual([0, 0]);
    expect(series.fuel.points[15]).toEqual([250, expect.closeTo(7.5, 1)]);
    expect(series.fuel.points.at(-1)).toEqual([500, expect.closeTo(15, 9)]);
    const { points } = series.waterDrawn;
    const total = analysis.totals?.waterDrawn.value ?? Number.NaN;
    expect(points[0]).toEqual([0, 0, 0, 0]);
    expect(points.at(-1)?.[0]).toBe(500);
    expect(points.at(-1)?.[1]).toBeCloseTo(total, 9);
    for (const [i, [atS, grams, low, high]] of points.entries()) {
      if (i === 0) continue;
      expect(atS).toBeGreaterThan(points[i - 1]?.[0] ?? Number.NaN);
      expect(low).toBeLessThan(grams);
      expect(high).toBeGreaterThan(grams);
    }
  });

  const curves = (entries: Entry[], more = {}) =>
    seriesOf(analyse(smallEngine(), { ...smallSteaming(), ...more, entries }));

  test("what was let out is no feed; nothing fed is no curve, and so is nothing burnt", () => {
    const blown = curves([
      bar(3, 0),
      { kind: "blowdown", ml: 20, atS: 100 },
      { kind: "level", mm: 20, atS: 0 },
    ]);
    expect(blown.feed.points).toEqual([]);
    expect(blown.fuel.points).toEqual([]);
    expect(blown.waterDrawn.points).toEqual([]);
  });

  test("strokes of a hydraulic test stand among the pressures, in order of time", () => {
    const { pressure } = curves([bar(0, 0), bar(3, 300), { kind: "strokes", count: 10, barG: 1, atS: 100 }], {
      purpose: "cold-hold",
    });
    expect(pressure.points).toEqual([
      [0, 0],
      [100, 1],
      [300, 3],
    ]);
  });

  test("a pressure that is only thought of the lighting is not drawn", () => {
    const { pressure } = curves([{ kind: "fire", state: "lit", atS: 0 }, bar(1, 300), bar(2, 400)]);
    expect(pressure.points).toEqual([
      [300, 1],
      [400, 2],
    ]);
  });

  // 46 g in 500 s from 100 s on, without feed: evenly drawn where nothing tells otherwise
  test("water drawn runs from the first reading to the last, through the moments at which phases begin", () => {
    const { waterDrawn } = curves([
      bar(3, 0),
      { kind: "level", mm: 20, atS: 100 },
      { kind: "phase", name: "running", atS: 50 },
      { kind: "phase", name: "standing", atS: 333 },
      { kind: "level", mm: 16, atS: 333 },
      { kind: "level", mm: 15, atS: 600 },
      bar(3, 700),
    ]);
    const times = waterDrawn.points.map(([atS]) => atS);
    expect(times[0]).toBe(100);
    expect(times.at(-1)).toBe(600);
    expect(times).toContain(333);
    expect(times).toHaveLength(82);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(times[1]).toBeCloseTo(100 + 500 / 80, 9);
    expect(waterDrawn.points[0]).toEqual([100, 0, 0, 0]);
    // a pressure logger is no level logger
    const other = [{ channel: "temperatureC" as const, startS: 0, everyS: 10, values: [1, 2] }];
    expect(curves([bar(3, 0), { kind: "level", mm: 20, atS: 100 }], { traces: other }).level.points).toEqual([
      [100, 20],
    ]);
  });

  test("a logger's samples stand among the readings, without its gaps", () => {
    const traced = seriesOf(
      analyse(smallEngine(), {
        ...smallSteaming(),
        traces: [{ channel: "levelMm", startS: 100, everyS: 10, values: [18, null, 17] }],
      }),
    );
    expect(traced.level.points).toEqual([
      [0, 20],
      [100, 18],
      [120, 17],
      [500, 10],
    ]);
  });
});
