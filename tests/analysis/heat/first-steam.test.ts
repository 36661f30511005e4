import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const pressure = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const sources = (entries: Entry[], head: Partial<Steaming> = {}) =>
  sourcesOf(smallEngine(), { ...smallSteaming(), ...head, entries });

describe("first steam between two readings far apart", () => {
  /**
   * Fed with water of 15 °C, boiling at 100.0 °C, and at 140.0 °C under 2.6 bar g (Spirax Sarco, TI-GCM-01 issue 6): under a
   * steady fire she boils after 85 of 125 parts of the time.
   */
  test("comes with the share of the heating that brings cold water to the boil", () => {
    const { pressure: course } = sources([lit, pressure(0, 0), pressure(2.6, 500), pressure(2.6, 600)]);
    expect(Math.abs((course.firstSteamS ?? Number.NaN) - (85 / 125) * 500)).toBeLessThan(0.5);
  });

  // a bar in a minute and 0.6 bar in the next: at that pace she boiled when the fire was lit
  test("comes at once where the pace of the rise says that she was hot", () => {
    const { pressure: course } = sources([lit, pressure(0, 0), pressure(1, 60), pressure(1.6, 120)]);
    expect(course.firstSteamS).toBeCloseTo(0, 9);
  });
});

test("a hydraulic hold has no phases", () => {
  const hold = [pressure(6, 0), pressure(5.9, 600)];
  expect(sources(hold, { purpose: "cold-hold" }).phases).toEqual([]);
  expect(sources([lit, ...hold], { purpose: "cold-hold" }).phases).not.toEqual([]);
});
