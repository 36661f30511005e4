import { describe, expect, test } from "vitest";
import type { Laps } from "../../../src/analysis/laps/laps.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const lap = (atS: number, count = 1): Entry => ({ kind: "lap", count, atS });
const opened: Entry = { kind: "regulator", state: "open", atS: 0 };
const shut = (atS: number): Entry => ({ kind: "regulator", state: "shut", atS });
const open = (atS: number): Entry => ({ ...opened, atS }) as Entry;

/** Times off the round show that the clock was read to the second. */
const toTheSecond: Entry[] = [{ kind: "note", text: "", atS: 7 }];

/** Laps each so many seconds after the one before, the first so many after the regulator was opened. */
const gapsOf = (...gaps: number[]): Entry[] =>
  gaps.map((_, i) => lap(gaps.slice(0, i + 1).reduce((a, b) => a + b)));
function lapsWith(entries: Entry[], head: Entry[] = [opened], lapM: number | null = 20): Laps {
  const { track: _, ...untracked } = smallSteaming();
  return sourcesOf(
    { ...smallEngine(), drivingWheelMm: 50 },
    {
      ...untracked,
      ...(lapM === null ? {} : { track: { lapM } }),
      entries: [...head, ...toTheSecond, ...entries].sort((a, b) => a.atS - b.atS),
    },
  ).laps;
}
const missed = (laps: Laps) => laps.missed.map(({ atS, count }) => `${count} before ${atS}`);
const doubt = (laps: Laps) => Math.hypot(...laps.runIn(-1, 1e6).parts.map(({ u }) => u));

/** Eight laps of 40 s with one gap among them. */
const among = (gapS: number) => lapsWith(gapsOf(40, 40, 40, 40, gapS, 40, 40, 40, 40));

describe("a gap among regular laps of 40 s", () => {
  // within 0.15 a lap of a whole number: 2 +/- 0.3 are 68 to 92 s, 3 +/- 0.45 are 102 to 138 s
  test.each([
    [67, []],
    [69, ["1 before 229"]],
    [91, ["1 before 251"]],
    [93, []],
    [101, []],
    [103, ["2 before 263"]],
    [137, ["2 before 297"]],
    [139, []],
  ])("of %d s hides %j", (gapS, found) => {
    expect(missed(among(gapS))).toEqual(found);
  });

  // the gap itself, the first of all, counts from the opening
  test("may be the first, from the opening of the regulator, or the last", () => {
    expect(missed(lapsWith(gapsOf(80, 40, 40, 40, 40, 40, 40)))).toEqual(["1 before 80"]);
    expect(missed(lapsWith(gapsOf(40, 40, 40, 40, 40, 40, 80)))).toEqual(["1 before 320"]);
  });

  test("counts from the last opening before it, and not where none is known", () => {
    const laps = gapsOf(80, 40, 40, 40, 40, 40, 40, 40);
    expect(missed(lapsWith(laps, [open(-100), shut(-50), open(40)]))).toEqual([]);
    expect(missed(lapsWith(laps, [open(100)]))).toEqual([]);
    expect(missed(lapsWith(laps, [opened, shut(330), open(330)]))).toEqual(["1 before 80"]);
  });

  test("is of time under way: a stop with the regulator shut is none of it", () => {
    const laps = gapsOf(40, 40, 40, 40, 80, 40, 40, 40, 40);
    expect(missed(lapsWith(laps))).toEqual(["1 before 240"]);
    expect(missed(lapsWith(laps, [opened, shut(180), open(220)]))).toEqual([]);
  });

  test("counts from the entry before it, where that was of two laps at once", () => {
    const before = gapsOf(40, 40, 40, 40);
    const after = [lap(240, 2), lap(280), lap(320), lap(360), lap(400)];
    expect(missed(lapsWith([...before, ...after]))).toEqual([]);
    expect(missed(lapsWith([...before, ...after, lap(480)]))).toEqual(["1 before 480"]);
  });

  test("tells nothing without the regulator, for a gap may as well be a stop", () => {
    expect(missed(lapsWith(gapsOf(40, 40, 40, 40, 80, 40, 40, 40, 40), []))).toEqual([]);
  });

  test("tells nothing among fewer than five laps written down one by one", () => {
    expect(missed(lapsWith(gapsOf(40, 40, 40, 80, 40)))).toEqual(["1 before 200"]);
    expect(missed(lapsWith(gapsOf(40, 40, 40, 80)))).toEqual([]);
    expect(missed(lapsWith([...gapsOf(40, 40, 40, 80), lap(205, 2)]))).toEqual([]);
  });

  test("is held to the laps about it, and not to those far off", () => {
    // a slower train later on hides nothing
    expect(missed(lapsWith(gapsOf(...Array(9).fill(40), ...Array(9).fill(80))))).toEqual([]);
    // four of the eight about it stray by 4 s, and their median stray is 2 s; with one more it were 4 s, a tenth of a lap
    const uneven = [36, 44, 36, 44];
    const even = [40, 40, 40, 40];
    expect(missed(lapsWith(gapsOf(44, ...uneven, 80, ...even, 44)))).toEqual(["1 before 284"]);
    expect(missed(lapsWith(gapsOf(44, ...even, 80, ...uneven, 44)))).toEqual(["1 before 284"]);
    expect(missed(lapsWith(gapsOf(40, ...uneven, 80, 40, 40, 40, 44, 40)))).toEqual([]);
  });

  // the laps about it stray from their median, 40 s: a little less or more than 0.08 of it, 3.2 s
  test.each([
    [3, ["1 before 240"]],
    [3.4, []],
  ])("among laps that stray by %d s shows or does not", (straysS, found) => {
    const [early, late] = [40 - straysS, 40 + straysS];
    expect(missed(lapsWith(gapsOf(early, late, early, late, 80, early, late, early, late)))).toEqual(found);
  });
});

describe("a hand on the engine in the gap", () => {
  const laps = gapsOf(40, 40, 40, 40, 80, 40, 40, 40, 40);
  const fed = (by: "bottle" | "hand-pump" | "axle-pump", atS: number): Entry => ({
    kind: "feed",
    by,
    ml: 5,
    atS,
  });
  const fuelled = (atS: number): Entry => ({ kind: "fuel", action: "added", g: 5, atS });

  test.each([[fed("bottle", 200)], [fed("hand-pump", 161)], [fuelled(239)]])(
    "may explain it, though she may as well have run on: %j",
    (entry) => {
      const found = lapsWith([...laps, entry]);
      expect(missed(found)).toEqual(["0 before 240"]);
      expect(found.runIn(0, 1000).value).toBe(9);
      expect(found.otherwiseIn(0, 1000)?.value).toBe(10);
      // 0.3 of a lap found, by 1.96
      expect(found.missed[0]?.eitherWay).toEqual({ fewer: 0, more: 1, strays: 1.96 * 0.3 });
      expect(found.missed[0]?.u).toBe(0.5);
    },
  );

  test.each([
    [75, []],
    [77, ["0 before 237"]],
    [83, ["0 before 243"]],
    [85, []],
    [115, []],
    [117, ["0 before 277"]],
  ])("explains a gap of %d s, which is not whole laps to a tenth, or does not", (gapS, found) => {
    const entry = fed("bottle", 200);
    expect(missed(lapsWith([...gapsOf(40, 40, 40, 40, gapS, 40, 40, 40, 40), entry]))).toEqual(found);
  });

  test("explains it after a stop as before one", () => {
    const stop = [shut(50), open(70)];
    const late = gapsOf(40, 60, 40, 40, 80, 40, 40, 40, 40);
    expect(missed(lapsWith([...late, ...stop, fed("bottle", 220)]))).toEqual(["0 before 260"]);
    expect(missed(lapsWith([...late, ...stop]))).toEqual(["1 before 260"]);
  });

  test("while she stands by the log takes none of the time under way", () => {
    const stood = [shut(200), fed("bottle", 215), open(230)];
    expect(missed(lapsWith([...gapsOf(40, 40, 40, 40, 110, 40, 40, 40, 40), ...stood]))).toEqual([
      "1 before 270",
    ]);
  });

  test.each([
    [fed("axle-pump", 200)],
    [fed("bottle", 160)],
    [fed("bottle", 240)],
    [fuelled(100)],
    [fuelled(300)],
  ])("was not, or not in it: %j", (entry) => {
    expect(missed(lapsWith([...laps, entry]))).toEqual(["1 before 240"]);
  });
});

describe("what is in doubt of laps", () => {
  // one in a hundred forgotten among n is a variance of n/100
  test("where a gap would not show: of ten one by one 0.32, of ten at once none", () => {
    expect(doubt(lapsWith(gapsOf(...Array(10).fill(40)), []))).toBeCloseTo(Math.sqrt(0.1), 9);
    expect(doubt(lapsWith([lap(400, 10)]))).toBe(0);
    expect(lapsWith([lap(400, 10)]).unseen).toMatchObject({ value: 0, parts: [] });
    // a lap from before the first opening tells no gap, and hides none
    expect(doubt(lapsWith(gapsOf(...Array(10).fill(40)), [open(60)]))).toBe(0);
    expect(doubt(lapsWith([lap(400, 10), lap(440)], []))).toBeCloseTo(0.1, 9);
  });

  test("where the log shows that its owner forgets, those to be expected besides are counted as run", () => {
    // ten one by one and one noticed at the next tap: 0.01 beforehand and 1 of 10, by a gamma of shape 13/9 and rate 490/9
    const forgets = lapsWith([...gapsOf(...Array(10).fill(40)), lap(480, 2)], []);
    const run = forgets.runIn(0, 1000);
    const besides = (10 * 13) / 490;
    expect(run.value).toBeCloseTo(12 + besides, 9);
    expect(standardUncertainty(run)).toBeCloseTo(Math.sqrt(besides * (1 + 10 / (490 / 9))), 9);
    // half of the taps, half of those
    expect(forgets.runIn(0, 200).value).toBeCloseTo(5 + besides / 2, 9);
    // counted several at a time none is lost by a forgotten tap
    expect(forgets.runIn(450, 1000)).toMatchObject({ value: 2, parts: [] });
  });

  // half of 0.08 of 40 s is 1.6 s
  test("a gap would show while the median stray is less than half of what still counts as regular", () => {
    const straying = (s: number) =>
      lapsWith(
        gapsOf(
          ...Array(5)
            .fill([40 - s, 40 + s])
            .flat(),
        ),
      );
    expect(doubt(straying(1.5))).toBe(0);
    expect(doubt(straying(1.7))).toBeCloseTo(Math.sqrt(0.1), 9);
  });

  test("each found by its gap is in doubt by 0.3, and those outside the window count neither way", () => {
    const laps = lapsWith(gapsOf(40, 40, 40, 40, 80, 40, 40, 40, 40, 80, 40, 40, 40, 40));
    expect(doubt(laps)).toBeCloseTo(0.6, 9);
    expect(laps.runIn(-1, 1e6).value).toBe(16);
    expect(laps.runIn(-1, 240)).toMatchObject({ value: 6, parts: [{ u: expect.closeTo(0.3, 9) }] });
    expect(laps.runIn(240, 280)).toMatchObject({ value: 1, parts: [] });
  });
});

describe("how far", () => {
  const turns: Entry = { kind: "revolutions", count: 100, atS: 300 };

  test("laps of known length tell it before the wheel's turns do, those forgotten among them", () => {
    const laps = lapsWith([...gapsOf(40, 40, 40, 40, 80, 40, 40, 40, 40), turns]);
    expect(laps.distanceM(-1, 1000)).toBeCloseTo(200, 9);
    expect(laps.distanceM(0, 40)).toBeCloseTo(20, 9);
  });

  // 100 turns of a 50 mm wheel: 100 x pi x 0.05 m
  test("the wheel tells it where no lap is known, or none was counted, in its own window", () => {
    expect(lapsWith([...gapsOf(40, 40), turns], [opened], null).distanceM(0, 300)).toBeCloseTo(15.708, 3);
    expect(lapsWith([turns]).distanceM(0, 300)).toBeCloseTo(15.708, 3);
    expect(lapsWith([turns]).distanceM(300, 400)).toBe(0);
    expect(lapsWith([]).distanceM(0, 400)).toBeNull();
  });
});
