import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { leaksOf } from "../../../src/analysis/leaks/leaks.ts";
import { inSteamS } from "../../../src/analysis/pressure/pressure-over-time.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
const phase = (name: "standing" | "running", atS: number): Entry => ({ kind: "phase", name, atS });
const lit: Entry = { kind: "fire", state: "lit", atS: 0 };

/** Running from the first second at 3 bar; the lowest level is 3 mm. */
const forecastOf = (entries: Entry[]) => {
  const { forecast } = analyse(smallEngine(), { ...smallSteaming(), entries: [lit, bar(3, 0), ...entries] });
  if (forecast === null) throw new Error("no forecast");
  return forecast;
};

describe("what is left to the lowest level", () => {
  test("time is water over rate, and its range that of a ratio", () => {
    const forecast = forecastOf([
      phase("running", 0),
      level(20, 0),
      level(15, 300),
      level(10, 600),
      bar(3, 600),
    ]);
    const { waterAboveLowest, minutesToLowest } = forecast;
    if (!isMeasured(waterAboveLowest) || !isMeasured(minutesToLowest)) throw new Error("no figure");
    // 10 mm in ten minutes, 7 mm left; the round boiler is 48.6 mm wide over the one in the mean, 49.5 mm
    // over the other: 10 x 7 x 49.5/(10 x 48.6) = 7.13
    expect(minutesToLowest.value).toBeGreaterThan(7.05);
    expect(minutesToLowest.value).toBeLessThan(7.25);
    const [low, high] = minutesToLowest.range95 ?? [Number.NaN, Number.NaN];
    // further up than down, for a rate that is lower than thought lasts the longer
    expect(low).toBeGreaterThan(0);
    expect(high - minutesToLowest.value).toBeGreaterThan(minutesToLowest.value - low);
    expect(high / minutesToLowest.value).toBeGreaterThan(1 / (1 - 1.96 * 0.17));
    expect(minutesToLowest.parts).toContainEqual({
      name: "how the engine will go on",
      u: expect.closeTo(0.17 * minutesToLowest.value, 9),
    });
  });

  test("the boiler's volume is in doubt only by what stands above the lowest level, of which it is 1 %", () => {
    const { waterAboveLowest } = forecastOf([
      phase("standing", 0),
      level(20, 0),
      level(20, 300),
      level(20, 600),
      bar(3, 600),
    ]);
    if (!isMeasured(waterAboveLowest)) throw new Error("no figure");
    const part = waterAboveLowest.parts.find(({ name }) => name === "volume of the boiler");
    expect(Math.abs(part?.u ?? 0)).toBeCloseTo(0.01 * waterAboveLowest.value, 2);
  });

  test("at the lowest level, or below it, there is no time left to tell", () => {
    for (const mm of [2, 3]) {
      const { minutesToLowest, waterAboveLowest } = forecastOf([
        phase("running", 0),
        level(20, 0),
        level(mm + 1, 570),
        level(mm - 1, 600),
        bar(3, 600),
      ]);
      expect(isMeasured(waterAboveLowest)).toBe(true);
      expect(minutesToLowest).toEqual({ value: null, why: expect.stringContaining("lowest level") });
    }
  });

  test("a way of going on that is not a minute old tells no rate", () => {
    const young = forecastOf([
      phase("standing", 0),
      level(20, 0),
      phase("running", 545),
      level(18, 600),
      bar(3, 600),
    ]);
    expect(young.minutesToLowest).toEqual({
      value: null,
      why: expect.stringContaining("less than a minute"),
    });
  });

  test("with the fire out no time is told unless she runs on, nor once it is lit again", () => {
    const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
    const told = (name: "standing" | "running", ...fires: Entry[]) =>
      forecastOf(
        [phase(name, 0), level(20, 0), level(15, 300), ...fires, level(10, 600), bar(3, 600)].sort(
          (a, b) => a.atS - b.atS,
        ),
      );
    const out = { value: null, why: "the fire is out, and she does not run" };
    const still = told("standing", fire("out", 310));
    expect(still.minutesToLowest).toEqual(out);
    expect(still.lapsToLowest).toEqual(out);
    expect(isMeasured(still.waterAboveLowest)).toBe(true);
    expect(told("running", fire("out", 310)).minutesToLowest.value).toBeGreaterThan(6);
    expect(told("standing", fire("out", 310), fire("lit", 320)).minutesToLowest).not.toEqual(out);
    expect(told("standing").minutesToLowest.value).toBeGreaterThan(6);
  });

  test("only a run has laps, at the pace so far: one each 60 s, and now and then one that was forgotten", () => {
    const lap = (atS: number): Entry => ({ kind: "lap", count: 1, atS });
    const run = [
      phase("running", 0),
      level(20, 0),
      ...[60, 120, 180, 240, 300].map(lap),
      level(15, 300),
      bar(3, 300),
    ];
    const { minutesToLowest, lapsToLowest } = forecastOf(run);
    const pace = (lapsToLowest.value ?? Number.NaN) / (minutesToLowest.value ?? Number.NaN);
    expect(pace).toBeGreaterThan(1);
    expect(pace).toBeLessThan(1.02);
    const standing = forecastOf([phase("standing", 0), level(20, 0), level(15, 300), bar(3, 300)]);
    expect(standing.lapsToLowest).toEqual({ value: null, why: expect.stringContaining("not running") });
  });
});

describe("a drip caught while the pressure falls", () => {
  /**
   * 3 bar at 0 s to 1 bar at 1000 s; caught from 400 to 600 s, at 2 bar in the mean: 1 g in 200 s is 0.3 g/min; at
   * 3 bar (3 + 1.01325)/(2 + 1.01325) times as much, 0.3996 g/min
   */
  test("counts at the mean pressure of the time it was caught", () => {
    const entries: Entry[] = [
      lit,
      bar(3, 0),
      { kind: "drip", fitting: "left-gland", g: 1, overS: 200, atS: 600 },
      bar(1, 1000),
    ];
    const conditions = { ambientC: 15, feedC: 15, atmosphereHPa: 1013.25 };
    const engine = { ...smallEngine(), instruments: { massReadingG: 0 } };
    const [leak] = leaksOf(sourcesOf(engine, { ...smallSteaming(), conditions, entries })) ?? [];
    expect(leak?.rate.value).toBeCloseTo(0.3996, 4);
  });
});

describe("time with pressure on", () => {
  const { pressure } = sourcesOf(smallEngine(), {
    ...smallSteaming(),
    entries: [bar(2, 0), bar(0, 100), bar(0, 200), bar(2, 300), bar(2, 400)],
  });

  // above 0.05 bar: 97.5 s of the fall, 97.5 s of the rise, 100 s of standing
  test("ends and begins where the line between two readings crosses none", () => {
    expect(inSteamS(pressure, 0, 400)).toBeCloseTo(295, 6);
    expect(inSteamS(pressure, 100, 200)).toBeCloseTo(0, 6);
    expect(inSteamS(pressure, 200, 300)).toBeCloseTo(97.5, 6);
  });
});
