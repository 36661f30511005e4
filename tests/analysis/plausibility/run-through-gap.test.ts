import { describe, expect, test } from "vitest";
import { ranThroughGap } from "../../../src/analysis/plausibility/run-through-gap.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { glassWords } from "../../../src/logbook/glass-reading.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar, bypass, fire, level, regulator } from "../water/water-log.ts";

const lap = (atS: number, count = 1): Entry => ({ kind: "lap", atS, count });
const laps = (fromS: number, number: number, everyS = 36) =>
  Array.from({ length: number }, (_, i) => lap(fromS + i * everyS));
const feed = (atS: number): Entry => ({ kind: "feed", atS, ml: 20, by: "bottle" });

/** The gap asked about is that over which nothing was written for longest; working pressure is 3 bar. */
function through(
  entries: readonly Entry[],
  instruments: Locomotive["instruments"] = { levelReadingMm: 1.6, pressureReadingBar: 0.1 },
) {
  const inOrder = [...entries].sort((a, b) => a.atS - b.atS);
  const from = sourcesOf({ ...smallEngine(), instruments }, { ...smallSteaming(), entries: inOrder });
  const named = from.timeline.entries;
  const gaps = named.slice(1).map((entry, i) => entry.atS - (named[i]?.atS ?? 0));
  const i = gaps.indexOf(Math.max(...gaps));
  const [before, entry] = [named[i], named[i + 1]];
  if (before === undefined || entry === undefined) throw new Error("no gap");
  return ranThroughGap(from, before, entry);
}

/** Five laps of 36 s until 480 s, 3 bar before the gap and after it. */
const begun = [fire("lit", 0), regulator("open", 300), ...laps(336, 5), bar(3, 470)];
const on = (lapS: number, barG = 3) => [lap(lapS), bar(barG, lapS + 1)];
const ANHOUR = 480 + 36 + 3600;

describe("a lap of an hour and the usual time", () => {
  test("is run through, to a quarter of a lap either way, and so is one of two hours", () => {
    expect(through([...begun, ...on(ANHOUR)])).toBe(true);
    expect(through([...begun, ...on(ANHOUR + 3600)])).toBe(true);
    for (const sign of [-1, 1]) {
      expect(through([...begun, ...on(ANHOUR + 8.9 * sign)])).toBe(true);
      expect(through([...begun, ...on(ANHOUR + 9.1 * sign)])).toBe(false);
    }
    expect(through([...begun, ...on(480 + 36 + 1700)])).toBe(false);
  });

  test("none where the gap is the usual lap itself", () => {
    expect(
      through([...begun.slice(2), fire("lit", 290), regulator("open", 300), lap(516), bar(3, 517)]),
    ).toBe(false);
  });

  test("none where a slow lap, through which nothing else was written, is what is usual", () => {
    const slow = [fire("lit", 0), regulator("open", 10), ...laps(20, 6, 1200)];
    const read = Array.from({ length: 16 }, (_, i) => bar(3, 300 * i));
    expect(through([...slow, ...read, bar(3, 6021)])).toBe(false);
  });

  test("goes by the four laps before it, and not by slower ones before those", () => {
    const slow = [fire("lit", 0), regulator("open", 20), ...laps(40, 7, 50), ...laps(376, 5), bar(3, 515)];
    expect(through([...slow, ...on(520 + 36 + 3600)])).toBe(true);
  });

  test("needs five laps since the regulator was opened, each written by itself", () => {
    const later = (entry: Entry) => begun.map((one) => (one.kind === "lap" && one.atS === 336 ? entry : one));
    expect(through([...later(lap(336, 2)), ...on(ANHOUR)])).toBe(false);
    expect(through([...later(lap(300)), ...on(ANHOUR)])).toBe(false);
    expect(through([...begun, lap(ANHOUR, 2), bar(3, ANHOUR + 1)])).toBe(false);
  });

  test("follows within two usual ones of the first entry after it", () => {
    expect(through([...begun, bar(3, ANHOUR - 72), ...on(ANHOUR)])).toBe(true);
    expect(through([...begun, bar(3, ANHOUR - 73), ...on(ANHOUR)])).toBe(false);
    expect(through([...begun, bar(3, ANHOUR)])).toBe(false);
  });
});

describe("a gap is not run through", () => {
  test("where the regulator was never written, was shut before it, or is opened after it", () => {
    const without = begun.filter(({ kind }) => kind !== "regulator");
    expect(through([...without, ...on(ANHOUR)])).toBe(false);
    expect(through([...begun, regulator("shut", 480), ...on(ANHOUR)])).toBe(false);
    expect(through([...begun, ...on(ANHOUR), regulator("open", ANHOUR + 60)])).toBe(false);
    expect(through([...begun, ...on(ANHOUR), regulator("shut", ANHOUR + 60)])).toBe(true);
  });

  test("where the fire was put out by the entry after it, but well where no fire was written at all", () => {
    expect(through([...begun, fire("out", ANHOUR - 5), ...on(ANHOUR)])).toBe(false);
    expect(through([...begun, ...on(ANHOUR), fire("out", ANHOUR + 5)])).toBe(true);
    expect(through([...begun.slice(1), ...on(ANHOUR)])).toBe(true);
  });

  test("where the pressure changed by more than 0.15 of working pressure, or twice the error of reading it", () => {
    for (const sign of [-1, 1]) {
      expect(through([...begun, ...on(ANHOUR, 3 + 0.44 * sign)])).toBe(true);
      expect(through([...begun, ...on(ANHOUR, 3 + 0.46 * sign)])).toBe(false);
      const coarse = { pressureReadingBar: 0.3 };
      expect(through([...begun, ...on(ANHOUR, 3 + 0.59 * sign)], coarse)).toBe(true);
      expect(through([...begun, ...on(ANHOUR, 3 + 0.61 * sign)], coarse)).toBe(false);
    }
  });

  test("where the pressure was not read on both sides of it", () => {
    expect(through([...begun, lap(ANHOUR)])).toBe(false);
    expect(through([...begun.slice(0, -1), lap(ANHOUR)])).toBe(false);
  });
});

describe("water that fell by less than a quarter of what so long a run takes", () => {
  /**
   * 0.02 mm a second until the gap of 1000 s, which would take 20 mm: more than twelve errors of 1.6 mm. From the last
   * reading at 460 s to the next at 1500 s there are 40 s besides: 0.8 mm.
   */
  const TO = 1480;
  const log = (nextMm: number, more: Entry[] = []) => [
    ...begun,
    level(20, 310),
    level(17, 460),
    ...on(TO),
    level(nextMm, 1500),
    ...more,
  ];
  const justTooLittle = 17 - 0.8 - 4.9;

  test("says so", () => {
    expect(through(log(justTooLittle))).toBe(true);
    expect(through(log(17 - 0.8 - 5.1))).toBe(false);
  });

  test("is told from three readings as from two, by the first and the last", () => {
    expect(through(log(justTooLittle, [level(19.9, 400)]))).toBe(true);
    expect(through(log(17 - 0.8 - 5.1, [level(19.9, 400)]))).toBe(false);
  });

  test("is no sign where the fall would be under twelve errors of the glass", () => {
    const read = (levelReadingMm: number) => ({ levelReadingMm, pressureReadingBar: 0.1 });
    expect(through(log(14), read(1.66))).toBe(true);
    expect(through(log(14), read(1.67))).toBe(false);
  });

  test("is no sign where water was put in, or the pump set, between the first reading and the one after the gap", () => {
    for (const put of [
      feed,
      (atS: number): Entry => ({ kind: "fill", atS, ml: 20 }),
      (atS: number) => bypass("shut", atS),
    ])
      for (const atS of [311, 1490]) expect(through(log(14, [put(atS)]))).toBe(false);
    expect(through(log(14, [bypass("shut", 310)]))).toBe(false);
    expect(through(log(14, [bypass("shut", 1500)]))).toBe(false);
    expect(through(log(14, [bypass("shut", 309)]))).toBe(true);
    expect(through(log(14, [bypass("shut", 1501), feed(1510)]))).toBe(true);
  });

  test("what was fed before two readings is no matter", () => {
    expect(through(log(14, [level(5, 302), feed(305)]))).toBe(true);
    expect(through(log(14, [feed(461)]))).toBe(false);
  });

  test("goes by readings since the regulator was opened, and by those that were read exactly", () => {
    expect(through(log(14, [level(5, 299)]))).toBe(true);
    const unseen: Entry = { kind: "level", mm: 0, atS: 305, note: glassWords.below };
    expect(through(log(14, [unseen]))).toBe(true);
  });

  test("wants two readings of two moments before it, and one after", () => {
    const some = (...levels: Entry[]) => through([...begun, ...on(TO), ...levels]);
    expect(some()).toBe(false);
    expect(some(level(20, 310), level(17, 460))).toBe(false);
    expect(some(level(14, 1500))).toBe(false);
    expect(some(level(17, 460), level(14, 1500))).toBe(false);
    expect(some(level(17.1, 460), level(17, 460), level(14, 1500))).toBe(false);
  });
});
