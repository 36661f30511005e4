import { describe, expect, test } from "vitest";
import { ALWAYS } from "../../../src/analysis/fuel/fuel-read.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Figure } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { phase } from "../water/water-log.ts";

type Fuel = Locomotive["fuel"];
/** Weighed to 1 g and measured to 2 ml. */
const fuelWith = (fuel: Fuel, entries: Entry[], instruments: Locomotive["instruments"] = {}) =>
  sourcesOf(
    { ...smallEngine(), fuel, instruments: { massReadingG: 1, volumeReadingMl: 2, ...instruments } },
    { ...smallSteaming(), entries },
  ).fuel;
const burnt = (fuel: Fuel, entries: Entry[], instruments: Locomotive["instruments"] = {}) =>
  fuelWith(fuel, entries, instruments).burntG(ALWAYS);
const why = (figure: Figure) => (figure.value === null ? figure.why : `a figure of ${figure.value}`);
const part = (figure: Figure, name: string) =>
  figure.value === null ? Number.NaN : (figure.parts.find((one) => one.name === name)?.u ?? 0);
const readings = (figure: Figure) => part(figure, "fuel readings");

const spirit: Fuel = { kind: "spirit" };
const coal: Fuel = { kind: "coal" };
const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const out: Entry = { kind: "fire", state: "out", atS: 600 };
const litAt = (atS: number): Entry => ({ kind: "fire", state: "lit", atS });
const outAt = (atS: number): Entry => ({ kind: "fire", state: "out", atS });
const added = (g: number, atS = 0): Entry => ({ kind: "fuel", action: "added", g, atS });
const addedMl = (ml: number, atS = 0): Entry => ({ kind: "fuel", action: "added", ml, atS });
const remaining = (g: number, atS = 600): Entry => ({ kind: "fuel", action: "remaining", g, atS });
const remainingMl = (ml: number, atS = 600): Entry => ({ kind: "fuel", action: "remaining", ml, atS });
const read = (atS: number): Entry => ({ kind: "pressure", barG: 2, atS });

test("a fire that was put out had been lit: where nobody wrote when, from the first entry on", () => {
  const unlit = fuelWith(spirit, [added(20), out, remaining(5)]);
  expect(unlit.fire).toEqual([[0, 600]]);
  expect(unlit.burntG(ALWAYS)).toEqual(burnt(spirit, [lit, added(20), out, remaining(5)]));
});

describe("what was burnt is not to be had", () => {
  test.each<[string, Fuel, Entry[]]>([
    ["no fuel was recorded", spirit, [lit, read(0), out]],
    ["the fire was never recorded as lit", spirit, [outAt(0), added(20), remaining(5)]],
    ["all was written down at one moment", coal, [added(20)]],
    ["density of this fuel is not known", { kind: "other" }, [added(20), lit, out, remainingMl(5)]],
    ["density of this fuel is not known", coal, [addedMl(20), lit, out, remaining(5)]],
    ["what the tank held when the fire was lit", spirit, [lit, out, remaining(5)]],
    ["the fire was still lit", spirit, [added(20), lit, read(600)]],
    ["the fire was still lit", { kind: "other" }, [added(20), lit, read(600)]],
    ["the fire was still lit", spirit, [added(20), lit, outAt(200), litAt(500), read(600)]],
    // 20 and 25 g to 1 g each: beyond 3 x root 2
    ["more fuel was left than there had been", spirit, [added(20), lit, out, remaining(25)]],
    [
      "more fuel was left than there had been",
      coal,
      [added(20), lit, remaining(10, 300), out, remaining(15)],
    ],
    ["not recorded near the end", spirit, [added(20), lit, remaining(15, 399), out]],
  ])("%s: %j", (words, fuel, entries) => {
    expect(why(burnt(fuel, entries))).toContain(words);
    expect(fuelWith(fuel, entries).leftUnread).toBe(false);
  });
});

describe("what was put in less what was left", () => {
  test("weighed, whatever the fuel, though its density is not known", () => {
    for (const fuel of [spirit, coal, { kind: "other" } as const]) {
      const found = burnt(fuel, [added(20), lit, out, remaining(5)]);
      expect(found.value).toBeCloseTo(15, 9);
      expect(readings(found)).toBeCloseTo(Math.SQRT2, 9);
      expect(fuelWith(fuel, [added(20), lit, out, remaining(5)]).leftUnread).toBe(false);
    }
  });

  // spirit 0.81 g/ml: 2 ml are 1.62 g
  test("measured by volume, at the density of the table or the engine's own", () => {
    const by = [addedMl(40), lit, out, remainingMl(10)];
    expect(burnt(spirit, by).value).toBeCloseTo(24.3, 9);
    expect(readings(burnt(spirit, by))).toBeCloseTo(1.62 * Math.SQRT2, 9);
    expect(burnt({ kind: "spirit", densityGPerMl: 0.8 }, by).value).toBeCloseTo(24, 9);
    expect(burnt({ kind: "other", densityGPerMl: 0.9 }, by).value).toBeCloseTo(27, 9);
    const mixed = burnt(spirit, [addedMl(40), lit, out, remaining(8.1)]);
    expect(mixed.value).toBeCloseTo(24.3, 9);
    expect(readings(mixed)).toBeCloseTo(Math.hypot(1.62, 1), 9);
  });

  test("a little more left than was put in is an error of measuring, and filled up between two looks it is no more", () => {
    expect(burnt(spirit, [added(20), lit, out, remaining(24)]).value).toBeCloseTo(-4, 9);
    expect(
      burnt(spirit, [added(20), lit, remaining(10, 300), added(10, 300), out, remaining(15)]).value,
    ).toBeCloseTo(15, 9);
  });

  test("each filling brings its own error, and one of nothing brings none", () => {
    const found = burnt(spirit, [added(20), lit, added(10, 200), added(0, 300), out, remaining(5)]);
    expect(found.value).toBeCloseTo(25, 9);
    expect(readings(found)).toBeCloseTo(Math.sqrt(3), 9);
  });

  test("what was read by the lighting is the stock, and takes the place of what was added before", () => {
    const stock = [added(10, -300), added(10, -200), remaining(18, 0), lit, out, remaining(5)];
    expect(burnt(spirit, stock).value).toBeCloseTo(13, 9);
    expect(readings(burnt(spirit, stock))).toBeCloseTo(Math.SQRT2, 9);
    const later = burnt(spirit, [lit, remaining(18, 1), out, remaining(5)]);
    expect(why(later)).toContain("what the tank held");
  });

  test("what is found empty was seen to be: a drop of 0.03 g clings to it, and no scale's error", () => {
    const left = (g: number, u: number) =>
      burnt(spirit, [added(20), lit, out, remaining(g)], { massReadingG: u });
    for (const u of [0.01, 1]) {
      expect(left(0, u).value).toBeCloseTo(19.97, 9);
      expect(readings(left(0, u))).toBeCloseTo(Math.hypot(u, 0.03), 9);
      expect(left(1, u).value).toBeCloseTo(19, 9);
      expect(readings(left(1, u))).toBeCloseTo(Math.hypot(u, u), 9);
    }
  });

  test("read after the fire was out it is what was left when all had burnt, three seconds of running after it went out (raising burns 1.1 as hard)", () => {
    const fuel = fuelWith(spirit, [added(20), lit, out, remaining(5, 4000)]);
    expect(fuel.burntG([[0, 300]]).value).toBeCloseTo((15 * 330) / 663, 9);
    expect(fuel.burntG([[600, 4000]]).value).toBeCloseTo((15 * 3) / 663, 9);
  });

  test("a fire that nobody wrote down is taken as lit from the first entry to the last", () => {
    const entries = [read(100), added(20, 100), remaining(5, 700)];
    expect(fuelWith(spirit, entries).fire).toEqual([[100, 700]]);
    expect(fuelWith(spirit, entries).burntG([[400, 700]]).value).toBeCloseTo(7.5, 9);
    expect(fuelWith(spirit, [read(100)]).fire).toEqual([]);
    expect(fuelWith(spirit, []).fire).toEqual([]);
  });

  test("a fire lit twice burns in both stretches", () => {
    const twice = [lit, added(20), outAt(200), litAt(500), outAt(900), remaining(5, 1000)];
    expect(fuelWith(spirit, twice).burntG([[0, 200]]).value).toBeCloseTo((15 * 220) / 663, 6);
    expect(fuelWith(spirit, twice).burntG([[200, 500]]).value).toBeCloseTo(0, 9);
    expect(burnt(spirit, twice).value).toBeCloseTo(15, 9);
  });
});

/**
 * Against running a coal fire burns 0.5 raising, 0.3 standing and 0.3 shut in (our estimate); spirit alike, but 1.1 raising. 600 s
 * of each in turn are 300, 180, 600 and 180 s as of running: 1260 s in all, in which 126 g are burnt; of spirit 4.1 x 600 s.
 */
describe("from phase to phase, by hand", () => {
  const entries = [
    lit,
    added(200),
    phase("raising", 0),
    phase("standing", 600),
    phase("running", 1200),
    phase("shut-in", 1800),
    remaining(74, 2400),
  ];
  const of = (fuel: Fuel, fromS: number, more: Entry[] = []) =>
    fuelWith(fuel, [...entries, ...more]).burntG([[fromS, fromS + 600]]);

  test.each([
    [0, 30, 1.1],
    [600, 18, 1],
    [1200, 60, 1],
    [1800, 18, 1],
  ])("coal from %d s: %d g; spirit as of %d of 4.1", (fromS, grams, as) => {
    expect(of(coal, fromS).value).toBeCloseTo(grams, 9);
    expect(of(spirit, fromS).value).toBeCloseTo((126 * as) / 4.1, 9);
  });

  // 1.3 + 0.7 + 1 + 1: a gas burner is turned down once there is steam
  test("gas three tenths more than running while raising, three tenths less standing", () => {
    const of = [0, 600, 1200, 1800].map(
      (fromS) => fuelWith({ kind: "butane" }, entries).burntG([[fromS, fromS + 600]]).value,
    );
    expect(of).toEqual([40.95, 22.05, 31.5, 31.5].map((grams) => expect.closeTo(grams, 9)));
  });

  // the pace of a share s against the rest strays by 0.6 (coal) or 0.2 (spirit) of it: 126 g s (1 - s)
  test("what a part of it may stray from the rest", () => {
    const share = 60 / 126;
    const name = "burning that was not even";
    expect(part(of(coal, 1200), name)).toBeCloseTo(126 * share * (1 - share) * 0.6, 9);
    expect(part(of(spirit, 1200), name)).toBeCloseTo((126 / 4.1) * (3.1 / 4.1) * 0.2, 9);
    expect(part(burnt(coal, entries), name)).toBe(0);
  });

  test("the readings' errors go with the share", () => {
    expect(readings(of(spirit, 1200))).toBeCloseTo(Math.SQRT2 / 4.1, 9);
    expect(readings(burnt(spirit, entries))).toBeCloseTo(Math.SQRT2, 9);
  });

  /**
   * What still burns once it is out, as of running: coal 45 s give or take 30, dying by e in 150 s; spirit 3 s, give or take 3, in
   * 5 s. Of n s before it a part n / (n + 45) of all was burnt; for each second more or less n / (n + 45)^2 of it less or more.
   */
  test("and what still burnt until it was read, once it was out, is of no window before", () => {
    const name = "what still burnt after the fire was out";
    const seen = (fuel: Fuel, readS: number) => [
      ...entries.slice(0, -1),
      outAt(2400),
      remaining(fuel === coal ? 74 : 118, readS),
    ];
    const late = fuelWith(coal, seen(coal, 9000)).burntG([[1200, 1800]]);
    expect(late.value).toBeCloseTo((126 * 600) / (1260 + 45), 6);
    expect(part(late, name)).toBeCloseTo((126 * 600 * 30) / (1260 + 45) ** 2, 6);
    const half = 1 - Math.exp(-1);
    const sooner = fuelWith(coal, seen(coal, 2550)).burntG([[1200, 1800]]);
    expect(sooner.value).toBeCloseTo((126 * 600) / (1260 + 45 * half), 9);
    expect(part(sooner, name)).toBeCloseTo((126 * 600 * 30 * half) / (1260 + 45 * half) ** 2, 9);
    const ofSpirit = fuelWith(spirit, seen(spirit, 9000)).burntG([[1200, 1800]]);
    expect(ofSpirit.value).toBeCloseTo((82 * 600) / (4.1 * 600 + 3), 9);
    expect(part(ofSpirit, name)).toBeCloseTo((82 * 600 * 3) / (4.1 * 600 + 3) ** 2, 9);
    for (const found of [of(coal, 1200), of(coal, 1200, [outAt(2400)]), burnt(coal, seen(coal, 9000))])
      expect(part(found, name)).toBeCloseTo(0, 9);
    // put out and lit again: it is not out
    const again = fuelWith(coal, [lit, added(20), outAt(200), litAt(500), remaining(5, 900)]);
    expect(part(again.burntG([[0, 200]]), name)).toBe(0);
  });
});

describe("carried on beyond the last reading", () => {
  // 10 g in 400 s, so 5 g in 200 s more, half of what was seen: a quarter of them in doubt
  test("at the mean pace so far", () => {
    const found = burnt(spirit, [added(20), lit, remaining(10, 400), out]);
    expect(found.value).toBeCloseTo(15, 9);
    expect(readings(found)).toBeCloseTo(Math.hypot(Math.SQRT2, 0.25 * 5), 9);
    const { burntG } = fuelWith(spirit, [added(20), lit, remaining(10, 400), out]);
    expect(burntG([[0, 400]]).value).toBeCloseTo(10, 9);
    expect(burntG([[400, 600]]).value).toBeCloseTo(5, 9);
  });

  // 12 g in 200 s and 6 g in 200 s: 18 g in 400 s, so 9 g more
  test("of all that was read, not of the last stretch", () => {
    const found = burnt(spirit, [added(40), lit, remaining(28, 200), remaining(22, 400), out]);
    expect(found.value).toBeCloseTo(27, 9);
  });
});

/**
 * 40 g put in (u 1 g), 28 g left at 200 s, 10 g put in then, 24 g left at 400 s, each weighed to 1 g: 12 g and 14 g burnt. The
 * reading between is an error of both, one way and the other.
 */
describe("several readings", () => {
  const entries = [
    added(40),
    lit,
    remaining(28, 200),
    added(10, 200),
    read(0),
    remaining(24, 400),
    outAt(400),
  ];
  const of = (...windows: [number, number][]) => fuelWith(spirit, entries).burntG(windows);

  test("each stretch bears the readings at both its ends and what was put in for it", () => {
    expect(of([0, 200]).value).toBeCloseTo(12, 9);
    expect(readings(of([0, 200]))).toBeCloseTo(Math.hypot(1, 1), 9);
    expect(of([200, 400]).value).toBeCloseTo(14, 9);
    expect(readings(of([200, 400]))).toBeCloseTo(Math.hypot(1, 1, 1), 9);
  });

  test("both together bear what was put in and the last reading only", () => {
    expect(of([0, 400]).value).toBeCloseTo(26, 9);
    expect(readings(of([0, 400]))).toBeCloseTo(Math.hypot(1, 1, 1), 9);
  });

  // half of either stretch: 0.5 of each filling, the reading between cancels, and 0.5 of the last
  test("like parts of both do not bear the reading between", () => {
    expect(of([0, 100], [300, 400]).value).toBeCloseTo(13, 9);
    expect(readings(of([0, 100], [300, 400]))).toBeCloseTo(0.5 * Math.hypot(1, 1, 1), 9);
  });
});

describe("readings that stand close", () => {
  test("two in one moment tell no rate between them", () => {
    const found = burnt(spirit, [added(20), lit, remaining(10, 300), remaining(10, 300), out, remaining(5)]);
    expect(found.value).toBeCloseTo(15, 9);
    // what was put in, both readings of that moment and the last
    expect(readings(found)).toBeCloseTo(2, 9);
  });
});
