import { describe, expect, test } from "vitest";
import type { Entry } from "../../../src/logbook/entry.ts";
import { dial, laps, warned } from "./logs.ts";

const opened = (atS: number): Entry => ({ kind: "regulator", atS, state: "open" });
const shut = (atS: number): Entry => ({ kind: "regulator", atS, state: "shut" });
const turns = (atS: number, count: number): Entry => ({ id: `t${atS}`, kind: "revolutions", atS, count });

describe("turns of the wheel that no small engine makes", () => {
  const named = (...entries: Entry[]) => warned("turns-too-fast", entries);

  // at most 25 a second: 1500 a minute
  test("are named with the count and the pace", () => {
    const [warning, ...others] = named(opened(0), turns(60, 300), turns(120, 1600), turns(180, 280));
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["t120"]);
    expect(warning?.text).toContain(
      "1600 turns of the wheel in the 60 s before 2:00 are more than 25 a second",
    );
  });

  test("are not at 25 a second, nor where nothing tells since when the first were counted", () => {
    expect(named(opened(0), turns(60, 300), turns(120, 1500))).toEqual([]);
    expect(named(turns(60, 30_000), turns(120, 300))).toEqual([]);
    expect(named(shut(0), opened(50), turns(60, 30_000), turns(120, 300))).toEqual([]);
  });

  test("the first are told from the opening of the regulator", () => {
    expect(named(opened(10), turns(60, 1260), turns(120, 300))[0]?.entries).toEqual(["t60"]);
    expect(named(opened(10), turns(60, 1250), turns(120, 300))).toEqual([]);
    expect(named(opened(90), turns(60, 30_000), turns(120, 300))).toEqual([]);
  });

  test("several are one sentence", () => {
    const [warning, ...others] = named(opened(0), turns(60, 3000), turns(120, 3000), turns(180, 3000));
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["t60", "t120", "t180"]);
    expect(warning?.text).toContain("and so are 2 more counts");
  });
});

describe("turns of the wheel too few for the laps", () => {
  // laps of 20 m on a wheel of 20/pi cm: 100 turns a lap
  const engine = { drivingWheelMm: 200 / Math.PI };
  const named = (...entries: Entry[]) => warned("turns-too-few", entries, { engine });

  test("are named where they are fewer than half", () => {
    const [warning, ...others] = named(opened(0), ...laps([40, 80, 120, 160]), turns(170, 50));
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["t170"]);
    expect(warning?.text).toContain("50 turns of the wheel were counted where the laps take about 400");
    expect(named(opened(0), ...laps([40, 80, 120, 160]), turns(170, 199))).toHaveLength(1);
  });

  test("are not at half, nor for laps run since the last count, nor where nobody counted", () => {
    expect(named(opened(0), ...laps([40, 80, 120, 160]), turns(170, 200))).toEqual([]);
    expect(named(opened(0), ...laps([40]), turns(50, 100), ...laps([80, 120, 160]))).toEqual([]);
    expect(named(opened(0), ...laps([40, 80, 120, 160]))).toEqual([]);
  });
});

describe("laps that came sooner than she can run them, in words", () => {
  const text = (entries: Entry[]) => warned("laps-too-fast", entries)[0]?.text;

  test("after the one before, with what is usual", () => {
    expect(text(laps([0, 40, 80, 120, 123, 160]))).toBe(
      "A lap came sooner than she can run it: at 2:03, 3 s after the one before (40 s is usual). Tapped twice?",
    );
  });

  test("the first after the opening of the regulator", () => {
    expect(text([opened(97), ...laps([100, 140, 180])])).toBe(
      "A lap came sooner than she can run it: at 1:40, 3 s after the regulator was opened (40 s is usual). Opened before that?",
    );
  });

  test("several are counted, and nothing is usual where all are too fast", () => {
    expect(text(laps([0, 3, 6, 9]))).toBe(
      "3 laps came sooner than she can run them: the first at 0:03, 3 s after the one before. Tapped twice?",
    );
  });
});

/** 3 bar working pressure: a division of 0.15 bar or less is fine, and eight minutes tell. */
describe("a dial that stands still through a run", () => {
  const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
  const run = (same: number, everyS: number, division: number, ...more: Entry[]) =>
    warned("dial-stuck", [
      lit,
      opened(100),
      { id: "a", kind: "pressure", atS: 110, barG: 2.5 - division },
      { id: "b", kind: "pressure", atS: 120, barG: 2.5 + division },
      ...dial(Array(same).fill(2.5), everyS, 200),
      ...more,
    ]);

  test("is named with its readings", () => {
    const [warning, ...others] = run(6, 100, 0.1);
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["p1", "p2", "p3", "p4", "p5", "p6"]);
    expect(warning?.text).toContain(
      "2.5 bar 6 times in a row, from 3:20 to 11:40, through 8 minutes of running",
    );
  });

  test("five readings, or less than eight minutes, are none; nor is a change by a division between", () => {
    expect(run(5, 150, 0.1)).toEqual([]);
    expect(run(6, 95, 0.1)).toEqual([]);
    expect(run(6, 97, 0.1)).toHaveLength(1);
    expect(
      warned("dial-stuck", [
        lit,
        opened(100),
        ...dial([2.5, 2.5, 2.5, 2.4, 2.5, 2.5, 2.5, 2.5, 2.5], 150, 200),
      ]),
    ).toEqual([]);
  });

  // 0.3 bar is a tenth of working pressure: twice as long
  test("a coarse dial needs longer, and so does one whose division nobody knows", () => {
    expect(run(9, 110, 0.3)).toEqual([]);
    expect(run(9, 130, 0.3)).toHaveLength(1);
    const alone = (everyS: number) =>
      warned("dial-stuck", [lit, opened(100), ...dial(Array(9).fill(2.5), everyS, 200)]);
    expect(alone(110)).toEqual([]);
    expect(alone(130)).toHaveLength(1);
  });

  test("its division is the least step between two readings, however few there are and however far others lie", () => {
    const with_ = (bars: number[]) =>
      warned("dial-stuck", [lit, ...dial(bars, 10, 10), opened(100), ...dial(Array(6).fill(2.5), 100, 200)]);
    expect(with_([2.4])).toHaveLength(1);
    expect(with_([0, 1.6, 2.4])).toHaveLength(1);
    expect(with_([1.6])).toEqual([]);
  });

  test("standing with the regulator shut is not running", () => {
    expect(run(6, 100, 0.1, shut(600))).toEqual([]);
  });

  test("with no pressure on nothing stands still, and what went on while the fire was out is said once", () => {
    expect(warned("dial-stuck", [lit, opened(100), ...dial(Array(9).fill(0), 130, 200)])).toEqual([]);
    const out: Entry = { kind: "fire", atS: 800, state: "out" };
    expect(run(12, 100, 0.1, out)).toHaveLength(1);
  });
});
