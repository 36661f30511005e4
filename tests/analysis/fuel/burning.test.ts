import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { type Figure, isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { phase } from "../water/water-log.ts";

const fuelWith = (kind: "coal" | "spirit", entries: Entry[]) =>
  sourcesOf(
    { ...smallEngine(), fuel: { kind }, instruments: { massReadingG: 1 } },
    { ...smallSteaming(), entries },
  ).fuel;
const parts = (figure: Figure): Record<string, number> =>
  isMeasured(figure) ? Object.fromEntries(figure.parts.map(({ name, u }) => [name, u])) : {};

const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const out = (atS: number): Entry => ({ kind: "fire", state: "out", atS });
const added = (g: number, atS = 0): Entry => ({ kind: "fuel", action: "added", g, atS });
const remaining = (g: number, atS: number): Entry => ({ kind: "fuel", action: "remaining", g, atS });

/**
 * A coal fire burns half as hard while raising as while running: 600 s raising count as 300 s. Of 300 g 30 g are left:
 * 270 g in 900 s as of running, so 90 g while raising and 180 g while running, 2/3 of it.
 */
describe("coal between two weighings, by hand", () => {
  const fuel = fuelWith("coal", [
    lit,
    added(300),
    phase("raising", 0),
    phase("running", 600),
    out(1200),
    remaining(30, 1200),
  ]);

  test("burns harder under draught", () => {
    expect(fuel.burntG([[0, 600]]).value).toBeCloseTo(90, 9);
    expect(fuel.burntG([[600, 1200]]).value).toBeCloseTo(180, 9);
    expect(
      fuel.burntG([
        [0, 300],
        [900, 1200],
      ]).value,
    ).toBeCloseTo(45 + 90, 9);
    expect(
      fuel.burntG([
        [-500, 0],
        [1200, 5000],
      ]).value,
    ).toBeCloseTo(0, 9);
  });

  test("the errors of two weighings, the unevenness of the fire", () => {
    const share = 2 / 3;
    const found = parts(fuel.burntG([[600, 1200]]));
    expect(found["fuel readings"]).toBeCloseTo(share * Math.SQRT2, 9);
    expect(found["burning that was not even"]).toBeCloseTo(0.6 * 270 * share * (1 - share), 9);
  });

  test("all of it is what was weighed, and no unevenness matters", () => {
    const all = parts(fuel.burntG([[0, 1200]]));
    expect(fuel.burntG([[0, 1200]]).value).toBeCloseTo(270, 9);
    expect(all["burning that was not even"]).toBeUndefined();
    expect(all["fuel readings"]).toBeCloseTo(Math.SQRT2, 9);
  });
});

describe("what was read before the fire was out is carried on at its pace", () => {
  // 30 g in 600 s; 300 s more burn 15 g, a quarter of that in doubt
  test("by hand", () => {
    const fuel = fuelWith("spirit", [lit, added(100), remaining(70, 600), out(900)]);
    const all = fuel.burntG([[0, 900]]);
    expect(all.value).toBeCloseTo(45, 9);
    expect(parts(all)["fuel readings"]).toBeCloseTo(Math.hypot(Math.SQRT2, 0.25 * 15), 9);
  });

  test("but no farther than half of what was seen", () => {
    const early = fuelWith("spirit", [lit, added(100), remaining(70, 590), out(900)]);
    expect(early.burntG([[0, 900]])).toEqual({ value: null, why: expect.stringContaining("near the end") });
  });

  test("several readings each tell their own stretch", () => {
    const fuel = fuelWith("spirit", [lit, added(100), remaining(80, 300), remaining(50, 600), out(600)]);
    expect(fuel.burntG([[0, 300]]).value).toBeCloseTo(20, 9);
    expect(fuel.burntG([[300, 600]]).value).toBeCloseTo(30, 9);
    expect(fuel.burntG([[150, 450]]).value).toBeCloseTo(25, 9);
  });
});
