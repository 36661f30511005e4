import { describe, expect, test } from "vitest";
import { ALWAYS } from "../../../src/analysis/fuel/fuel-read.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { sourcesByHand } from "../../../src/analysis/sources-by-hand.ts";
import { massReadings } from "../../../src/analysis/water/mass-readings.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const { traces: _, ...byHand } = smallSteaming();
const fire = (atS: number, state: "lit" | "out"): Entry => ({ kind: "fire", state, atS });
const fuel = (atS: number, action: "added" | "remaining", g: number): Entry => ({
  kind: "fuel",
  action,
  g,
  atS,
});
const weight = (atS: number, g: number): Entry => ({ kind: "weight", g, atS });
const onPhone = (...entries: Entry[]) => sourcesByHand(smallEngine(), { ...byHand, entries });
const onSheet = (...entries: Entry[]) => sourcesOf(smallEngine(), { ...byHand, entries });

describe("on the phone", () => {
  test("the fire burns when it does on the sheet", () => {
    for (const log of [
      [fuel(0, "added", 40), fire(10, "lit"), fire(600, "out"), fuel(620, "remaining", 5)],
      [fuel(0, "added", 40), fuel(300, "remaining", 5)],
      [fuel(0, "added", 40)],
    ])
      expect(onPhone(...log).fuel.fire).toEqual(onSheet(...log).fuel.fire);
    expect(onPhone(fire(10, "lit"), fire(600, "out")).fuel.fire).toEqual([[10, 600]]);
    expect(onPhone(fuel(0, "added", 40), fuel(300, "added", 5)).fuel.fire).toEqual([[0, 300]]);
  });

  test("what it burnt is not told, so of weighings those count that have no fire between them", () => {
    const log = [
      fuel(0, "added", 40),
      weight(5, 3000),
      fire(10, "lit"),
      fire(600, "out"),
      weight(610, 2800),
      fuel(620, "remaining", 5),
      weight(900, 2790),
    ];
    const weighed = (sources: ReturnType<typeof onPhone>) => massReadings(sources).map(({ atS }) => atS);
    expect(onSheet(...log).fuel.burntG(ALWAYS).value).toBeCloseTo(35, 6);
    expect(weighed(onSheet(...log))).toEqual([5, 610, 900]);
    expect(onPhone(...log).fuel.burntG(ALWAYS).value).toBeNull();
    expect(weighed(onPhone(...log))).toEqual([610, 900]);
  });
});
