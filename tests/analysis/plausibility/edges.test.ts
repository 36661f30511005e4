import { describe, expect, test } from "vitest";
import type { Entry } from "../../../src/logbook/entry.ts";
import { dial, laps, levels, warned } from "./logs.ts";

const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const out = (atS: number): Entry => ({ kind: "fire", atS, state: "out" });

/** Glass zero 15 mm above the bottom of a 50 mm shell: from -15 to 35 mm, and three reading errors of 1 mm beyond. */
describe("a level that no glass on this boiler can show", () => {
  test.each([
    [-19, 1],
    [-17, 0],
    [37, 0],
    [39, 1],
  ])("%d mm is named %d times", (mm, times) => {
    expect(warned("level-beyond-boiler", levels([18, mm, 17]))).toHaveLength(times);
  });

  test("a glass read less well leaves more room", () => {
    const engine = { instruments: { levelReadingMm: 2 } };
    expect(warned("level-beyond-boiler", levels([18, 39, 17]), { engine })).toEqual([]);
    expect(warned("level-beyond-boiler", levels([18, 42, 17]), { engine })).toHaveLength(1);
  });
});

/** Laps of 20 m: at most 6 m/s where the wheel is not known, 25 turns a second where it is. */
describe("laps faster than an engine runs", () => {
  const named = (times: number[], drivingWheelMm?: number) =>
    warned("laps-too-fast", laps(times), {
      engine: drivingWheelMm === undefined ? {} : { drivingWheelMm },
    }).flatMap(({ entries }) => entries);

  test("3 s for 20 m is too fast, 4 s is not; the first of them has nothing before it", () => {
    expect(named([0, 3])).toEqual(["lap2"]);
    expect(named([0, 4])).toEqual([]);
    expect(named([3])).toEqual([]);
  });

  // 40 mm wheel: 25 x pi x 0.04 = 3.14 m/s, 20 m in 6.4 s
  test("a small wheel is slower", () => {
    expect(named([0, 6], 40)).toEqual(["lap2"]);
    expect(named([0, 7], 40)).toEqual([]);
  });

  test("a lap in a quarter of the usual time was tapped twice; in a third of it, or made up by its neighbour, it was not", () => {
    expect(named([0, 40, 80, 90, 131, 171, 211])).toEqual(["lap4"]);
    expect(named([0, 40, 80, 93, 133, 173, 213])).toEqual([]);
    expect(named([0, 40, 80, 150, 160, 200, 240])).toEqual([]);
    expect(named([0, 40, 50, 90])).toEqual([]);
  });
});

describe("a reading of the dial beside one neighbour only", () => {
  test("the last, a tenth of the one before while the fire burns, is asked about; with the fire out it is let down", () => {
    expect(warned("reading-outlying", [lit, ...dial([2.8, 2.9, 0.29])])).toHaveLength(1);
    expect(warned("reading-outlying", [lit, ...dial([2.8, 2.9]), out(90), ...dial([0.29], 60, 120)])).toEqual(
      [],
    );
    const blown: Entry = { kind: "blowdown", ml: 50, atS: 90 };
    expect(warned("reading-outlying", [lit, ...dial([2.8, 2.9]), blown, ...dial([0.29], 60, 120)])).toEqual(
      [],
    );
    expect(warned("reading-outlying", [lit, ...dial([2.8, 2.9, 0.29], 200)])).toEqual([]);
    expect(warned("reading-outlying", [lit, ...dial([2.8, 2.9, 0.9])])).toEqual([]);
  });

  test("is beside none where she was pumped up between, as in a hydraulic hold that is topped up", () => {
    const strokes: Entry = { kind: "strokes", count: 1, barG: 5.9, atS: 80 };
    const read = (bars: readonly number[]) => dial([4.4, 4.3, ...bars]);
    expect(warned("reading-outlying", read([5.8]))).toHaveLength(1);
    expect(warned("reading-outlying", [...read([5.8]), strokes])).toEqual([]);
    expect(warned("reading-outlying", [...read([5.8, 5.7]), { ...strokes, atS: 120 }])).toEqual([]);
    const [named] = warned("reading-outlying", [...read([5.8, 57, 5.6]), strokes]);
    expect(named?.entries).toEqual(["p4"]);
  });

  test("five bar on a boiler of three are beyond its valve, four and a half are not", () => {
    expect(warned("reading-outlying", dial([2.9, 5]))).toHaveLength(1);
    expect(warned("reading-outlying", dial([2.9, 4.5]))).toEqual([]);
  });
});

describe("a gap in the log that is no step of the clock", () => {
  const gap = (changed: { barG?: number; mm?: number; afterS?: number }) => {
    const { barG = 3, mm = 17, afterS = 3900 } = changed;
    return warned("clock-stepped", [
      lit,
      ...dial([2.9, 3, 3, 3, 3], 60),
      ...levels([18, 18, 17, 17, 17], 60),
      { id: "next", kind: "pressure", atS: afterS, barG },
      { kind: "level", atS: afterS + 1, mm },
    ]);
  };

  test("ten minutes are a pause, twenty are asked about", () => {
    expect(gap({ afterS: 840 })).toEqual([]);
    expect(gap({ afterS: 1440 })).toHaveLength(1);
  });

  // dial 0.1 bar, glass 1 mm: two errors
  test("pressure or water that changed by more than twice the error of a reading tell a pause", () => {
    expect(gap({ barG: 3.15 })).toHaveLength(1);
    expect(gap({ barG: 3.25 })).toEqual([]);
    expect(gap({ barG: 2.75 })).toEqual([]);
    expect(gap({ mm: 18.5 })).toHaveLength(1);
    expect(gap({ mm: 14.5 })).toEqual([]);
  });
});
