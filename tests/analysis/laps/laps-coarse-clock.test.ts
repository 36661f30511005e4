import { describe, expect, test } from "vitest";
import { lapPaceWarnings } from "../../../src/analysis/plausibility/lap-pace.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { clockGrainS } from "../../../src/analysis/state/clock-grain.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const at = (...times: number[]) => times.map((atS) => ({ atS }));

describe("the grain of the times", () => {
  test.each([
    ["whole minutes", at(0, 60, 120, 180, 420, 600), 60],
    ["half minutes", at(0, 90, 120, 180, 420, 600), 30],
    ["twenty seconds", at(0, 20, 120, 180, 420, 600), 20],
    ["five seconds", at(0, 5, 120, 180, 420, 600), 5],
    ["seconds, of which one is enough", at(0, 60, 120, 181, 420, 600), 0],
    ["minutes, from a start that is none", at(47, 107, 167, 227, 467, 647), 60],
    ["too few to tell", at(0, 60, 60, 120, 180, 240), 0],
    ["no clock's step", at(0, 7, 14, 21, 28, 35), 0],
    ["nothing", [], 0],
  ])("%s", (_, entries, grainS) => {
    expect(clockGrainS(entries)).toBe(grainS);
  });
});

const opened: Entry = { kind: "regulator", state: "open", atS: 0 };
/** Laps as a clock of that grain has them: each moment is written as the last step before it. */
const written = (moments: readonly number[], grainS: number): Entry[] =>
  moments.map((atS) => ({ kind: "lap", count: 1, atS: grainS * Math.floor(atS / grainS) }));
const sources = (laps: Entry[]) =>
  sourcesOf(smallEngine(), { ...smallSteaming(), entries: [opened, ...laps] });
const everyS = (lapS: number, count: number) => Array.from({ length: count }, (_, i) => lapS * (i + 1));

describe("laps written by a coarse clock", () => {
  test.each([
    [28, 20],
    [24, 20],
    [36, 20],
    [39, 20],
    [28, 60],
    [36, 60],
    [50, 30],
    [78, 60],
  ])("of %d s to %d s: as many are run as are written", (lapS, grainS) => {
    const { laps, ...from } = sources(written(everyS(lapS, 30), grainS));
    expect(laps.missed).toEqual([]);
    expect(laps.wholeIn(-1, 1e6)).toBe(30);
    expect(laps.distanceM(-1, 1e6)).toBeCloseTo(30 * 20, 9);
    expect(laps.runIn(-1, 1e6).value).toBe(30);
    expect(lapPaceWarnings(from)).toEqual([]);
  });

  // laps of 78 s to 20 s: 156 s are written as 140 or 160, one as 60 or 80 or 100
  test("one forgotten shows where its gap is longer than the grain can make one", () => {
    const moments = everyS(78, 16).filter((atS) => atS !== 8 * 78);
    const { laps } = sources(written(moments, 20));
    // 7 x 78 is 546, 9 x 78 is 702: written as 540 and 700
    expect(laps.missed).toMatchObject([{ atS: 700, count: 1 }]);
    expect(laps.wholeIn(-1, 1e6)).toBe(16);
    const [found] = laps.missed;
    // 0.3 of its own and 20 s / sqrt 6 of the clock, of a usual lap of 80 s
    expect(found?.u).toBeCloseTo(Math.hypot(0.3, 20 / Math.sqrt(6) / 80), 9);
  });

  test("and where one would not show, some may be forgotten: of thirty one in a hundred", () => {
    const { laps } = sources(written(everyS(28, 30), 20));
    expect(standardUncertainty(laps.runIn(-1, 1e6))).toBeCloseTo(Math.sqrt(0.3), 9);
  });

  test("a long gap shows all the same: ten of 36 s not tapped", () => {
    const moments = everyS(36, 30).filter((_, i) => i < 10 || i > 19);
    const { laps } = sources(written(moments, 20));
    expect(laps.missed).toHaveLength(1);
    expect(Math.abs(laps.wholeIn(-1, 1e6) - 30)).toBeLessThanOrEqual(1);
  });

  // 80 to 160 s is written as 60 to 150: 90 s, and laps of 40 may be written as 60
  test("nor does one show whose gap may be the grain's doing", () => {
    const { laps } = sources(
      written(
        everyS(40, 60).filter((_, i) => i !== 2),
        30,
      ),
    );
    expect(laps.missed).toEqual([]);
    expect(laps.wholeIn(-1, 1e6)).toBe(59);
  });

  // laps of 40 s to half a minute are written 30, 30 and 60 s apart: three together make the 40, and no single one does
  test("is of as many laps as several together make it, though most were written shorter", () => {
    const moments = everyS(40, 60).filter((_, i) => i < 12 || i > 16);
    const { laps } = sources(written(moments, 30));
    expect(laps.missed).toMatchObject([{ times: 6, count: 5 }]);
    expect(laps.wholeIn(-1, 1e6)).toBe(60);
    // what the clock hides of even laps is no unevenness of theirs: 0.3 of a lap found, and the clock's own
    const strays = laps.missed[0]?.eitherWay?.strays;
    expect(strays).toBeCloseTo(1.96 * Math.hypot(0.3, 30 / Math.sqrt(6) / 40), 9);
    expect(laps.missed[0]?.u).toBe(2.5);
  });

  // of 45 s they are 30 and 60 s apart in turn: 15 s off their middle, of which the clock makes 30 x (1 - 1/root 2)
  test("is in doubt by what its laps stray beyond the clock, half of it over six", () => {
    const { laps } = sources(
      written(
        everyS(45, 60).filter((_, i) => i < 12 || i > 16),
        30,
      ),
    );
    expect(laps.missed).toMatchObject([{ times: 6, count: 5 }]);
    const stray = (15 - 30 * (1 - Math.SQRT1_2)) / 45;
    expect(laps.missed[0]?.eitherWay?.strays).toBeCloseTo(
      1.96 * Math.hypot(0.3, 3 * stray, 30 / Math.sqrt(6) / 45),
      9,
    );
  });
});

test("two laps within one second of a clock read to the second are too fast", () => {
  const to = (grainS: number) =>
    lapPaceWarnings(sources(written([61, 103, 103.4, 145, 187, 229, 271, 313], grainS))).map(
      ({ code }) => code,
    );
  expect(to(1)).toEqual(["laps-too-fast"]);
  expect(to(60)).toEqual([]);
});
