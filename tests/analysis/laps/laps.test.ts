import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** written to the second, which 61 s shows */
const base: Entry[] = [
  ...smallSteaming().entries.filter((entry) => entry.kind !== "lap"),
  { kind: "note", text: "", atS: 61 },
];
const lapsAt = (...times: number[]): Entry[] => times.map((atS): Entry => ({ kind: "lap", count: 1, atS }));

function analysisWith(laps: Entry[]) {
  const entries = [...base, ...laps].sort((a, b) => a.atS - b.atS);
  return analyse(smallEngine(), { ...smallSteaming(), entries });
}

describe("laps", () => {
  const regular = [100, 140, 180, 220, 260, 300, 340, 380, 420, 460];

  test("a gap of two usual laps in a regular run counts as one run and not recorded", () => {
    const { warnings, totals } = analysisWith(lapsAt(...regular.filter((atS) => atS !== 260)));
    expect(totals?.laps).toBe(10);
    expect(totals?.distanceM).toBeCloseTo(200, 9);
    expect(warnings.filter((warning) => warning.code === "lap-perhaps-missed")).toHaveLength(1);
  });

  test("a gap with a feed by hand in it is a stop, or, where it is whole laps, may be one forgotten", () => {
    const feed: Entry = { kind: "feed", ml: 10, by: "bottle", atS: 250 };
    const of = (...times: number[]) => {
      const { warnings, totals } = analysisWith([...lapsAt(...times), feed]);
      return [totals?.laps, warnings.find(({ code }) => code === "lap-perhaps-missed")?.text];
    };
    expect(of(...regular.filter((atS) => atS !== 260))).toEqual([
      9,
      expect.stringContaining("If she ran on"),
    ]);
    expect(of(...regular.flatMap((atS) => (atS < 260 ? atS : atS > 260 ? atS - 6 : [])))).toEqual([
      9,
      undefined,
    ]);
  });

  test("laps that are not regular give no gap away", () => {
    const { warnings } = analysisWith(lapsAt(100, 130, 190, 225, 300, 330, 400, 440, 460));
    expect(warnings.map((warning) => warning.code)).not.toContain("lap-perhaps-missed");
  });

  const lapsOf = (laps: Entry[], engine = {}) =>
    sourcesOf(
      { ...smallEngine(), ...engine },
      { ...smallSteaming(), entries: [...base, ...laps].sort((a, b) => a.atS - b.atS) },
    ).laps;

  test("belong to the time after its start and up to its end", () => {
    const laps = lapsOf(lapsAt(...regular));
    expect(laps.countIn(100, 140)).toBe(1);
    expect(laps.countIn(99, 460)).toBe(10);
    expect(laps.distanceM(100, 180)).toBeCloseTo(40, 9);
  });

  test("a gap of three usual laps hides two; each lap found so is in doubt by 0.3", () => {
    const laps = lapsOf(lapsAt(...regular.filter((atS) => atS !== 260 && atS !== 300)));
    expect(laps.missed.map(({ atS, count }) => [atS, count])).toEqual([[340, 2]]);
    expect(laps.runIn(99, 460)).toMatchObject({ value: 10, parts: [{ u: expect.closeTo(0.6, 9) }] });
  });

  test("a gap of one and a half usual laps hides none", () => {
    expect(lapsOf(lapsAt(100, 140, 180, 220, 280, 320, 360, 400, 440)).missed).toEqual([]);
  });

  test("of laps that would not show a gap, one in a hundred may be forgotten: nine, so 0.3", () => {
    const laps = lapsOf(lapsAt(100, 130, 190, 225, 300, 330, 400, 440, 460));
    expect(laps.runIn(99, 460)).toMatchObject({ value: 9, parts: [{ u: expect.closeTo(0.3, 9) }] });
    expect(lapsOf(lapsAt(...regular)).runIn(99, 460)).toEqual({ value: 10, unit: "1", parts: [] });
  });

  // 100 turns of a 50 mm wheel: 100 x pi x 0.05 m
  test("without laps the wheel's turns tell the distance", () => {
    const turned: Entry[] = [{ kind: "revolutions", count: 100, atS: 300 }];
    expect(lapsOf(turned, { drivingWheelMm: 50 }).distanceM(0, 500)).toBeCloseTo(15.708, 3);
    expect(lapsOf(turned).distanceM(0, 500)).toBeNull();
    expect(lapsOf([], { drivingWheelMm: 50 }).distanceM(0, 500)).toBeNull();
  });
});
