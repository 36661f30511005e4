import { describe, expect, test } from "vitest";
import type { FuelCourse } from "../../../src/analysis/fuel/fuel-course.ts";
import {
  type BurntPart,
  oneIn,
  thoughtOf,
  timesPart,
  toldByHeat,
} from "../../../src/analysis/fuel/left-unread.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { exact, isMeasured, measured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { phase } from "../water/water-log.ts";

const mean = (thought: BurntPart) => thought.reduce((sum, { part, chance }) => sum + part * chance, 0);
const spreadOf = (thought: BurntPart) =>
  Math.sqrt(thought.reduce((sum, { part, chance }) => sum + chance * (part - mean(thought)) ** 2, 0));

describe("how much of the fuel was burnt, by how the fire ended", () => {
  /**
   * Put out, a part x of all is left with density 2 (1 - x): a third on the mean, give or take root 1/18. Burnt dry with chance d,
   * what is left is (1 - d)/3 on the mean and its square (1 - d)/6.
   */
  test.each([0, 0.4, 0.95, 1])("a tank, burnt dry with chance %d", (dryChance) => {
    const thought = thoughtOf({ dryChance });
    const left = (1 - dryChance) / 3;
    expect(mean(thought)).toBeCloseTo(1 - left, 3);
    expect(spreadOf(thought)).toBeCloseTo(Math.sqrt((1 - dryChance) / 6 - left ** 2), 3);
  });

  test("a grate that was kept up has its bed, one never fired again anything up to all that was laid", () => {
    const kept = thoughtOf({ bedPart: 0.3, uBedPart: 0.05 });
    expect(mean(kept)).toBeCloseTo(0.7, 6);
    // 3 u to either side
    expect(spreadOf(kept)).toBeCloseTo(0.05, 2);
    const laid = thoughtOf({ laidPart: 0.5 });
    expect(mean(laid)).toBeCloseTo(0.75, 9);
    expect(spreadOf(laid)).toBeCloseTo(0.5 / Math.sqrt(12), 3);
  });

  test("never all of it is left, and never less than nothing", () => {
    for (const ending of [
      { dryChance: 0 },
      { laidPart: 1 },
      { bedPart: 0.02, uBedPart: 0.1 },
      { bedPart: 0.9, uBedPart: 0.1 },
    ]) {
      const parts = thoughtOf(ending).map(({ part }) => part);
      expect(Math.min(...parts)).toBeGreaterThan(0);
      expect(Math.max(...parts)).toBeLessThanOrEqual(1);
    }
  });
});

describe("what the heat tells of it", () => {
  const usual = { efficiency: 0.4, factor: 0.3 };
  const either: BurntPart = [
    { part: 0.5, chance: 0.5 },
    { part: 1, chance: 0.5 },
  ];

  // had all been burnt 0.2: by half of it the usual 0.4; by all ln 2 / 0.3 off it
  test("the less useful heat the less was burnt, as boilers of a kind differ", () => {
    const odds = Math.exp((Math.log(2) / 0.3) ** 2 / 2);
    const [half, all] = toldByHeat(either, 0.2, usual);
    expect((half?.chance ?? 0) / (all?.chance ?? 1)).toBeCloseTo(odds, 9);
    expect((half?.chance ?? 0) + (all?.chance ?? 0)).toBeCloseTo(1, 9);
    expect(mean(toldByHeat(either, 0.4, usual))).toBeGreaterThan(0.9);
  });

  test("heat that tells nothing, or what cannot be, leaves what was thought", () => {
    for (const ifAll of [0, -0.1, Number.NaN, 40]) expect(toldByHeat(either, ifAll, usual)).toBe(either);
  });
});

describe("a figure by what was burnt", () => {
  const either: BurntPart = [
    { part: 0.5, chance: 0.5 },
    { part: 1, chance: 0.5 },
  ];

  test("is the mean of what it may be, with the spread of that as a doubt of its own", () => {
    const found = timesPart(measured(40, 2, "g", "scale"), either, "left");
    expect(found.value).toBeCloseTo(30, 9);
    expect(found.parts).toEqual([
      { name: "scale", u: 1.5 },
      { name: "left", u: 10 },
    ]);
    // a fortieth of all: a twentieth of either by itself, 1.645 errors below the one and above the other
    const [low, high] = found.range95 ?? [];
    expect(low).toBeCloseTo(20 * (1 - 1.645 * 0.05), 2);
    expect(high).toBeCloseTo(40 * (1 + 1.645 * 0.05), 2);
  });

  // one in 0.5 and one in 1: 2 and 1
  test("over what was burnt is the mean of its own", () => {
    const found = timesPart(exact(0.2, "1"), oneIn(either), "left");
    expect(found.value).toBeCloseTo(0.3, 9);
    expect(standardUncertainty(found)).toBeCloseTo(0.1, 9);
    expect(found.range95).toEqual([expect.closeTo(0.2, 4), expect.closeTo(0.4, 4)]);
    expect(timesPart(exact(-0.2, "1"), oneIn(either), "left").range95).toEqual([
      expect.closeTo(-0.4, 4),
      expect.closeTo(-0.2, 4),
    ]);
  });

  // 0.9 at 1 and a tenth evenly below: nothing lies beyond all of it, so what may be beyond the range lies below
  test("most likely of all that was put in has its range end there, and all but a hair of the twentieth beyond it below", () => {
    const steps = Array.from({ length: 50 }, (_, i) => ({ part: (i + 0.5) / 50, chance: 0.1 / 50 }));
    const [low, high] = timesPart(exact(1, "g"), [...steps, { part: 1, chance: 0.9 }], "left").range95 ?? [];
    expect(low).toBeCloseTo(0.45, 1);
    expect(high).toBeCloseTo(1, 4);
    const [least, most] =
      timesPart(
        exact(1, "g"),
        [...steps.map(({ part, chance }) => ({ part: 2 - part, chance })), { part: 1, chance: 0.9 }],
        "left",
      ).range95 ?? [];
    expect(least).toBeCloseTo(1, 4);
    expect(most).toBeCloseTo(1.55, 1);
  });

  test("of nothing is nothing", () => {
    expect(timesPart(exact(0, "g"), either, "left")).toEqual({
      value: 0,
      unit: "g",
      parts: [],
      range95: [0, 0],
    });
  });
});

type Fuel = Locomotive["fuel"];
const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const outAt = (atS: number): Entry => ({ kind: "fire", state: "out", atS });
const added = (g: number, atS = 0): Entry => ({ kind: "fuel", action: "added", g, atS });
const read = (atS: number): Entry => ({ kind: "pressure", barG: 2, atS });
const burntIn = (kind: Fuel["kind"], entries: Entry[]): FuelCourse =>
  sourcesOf(
    { ...smallEngine(), fuel: { kind }, instruments: { massReadingG: 1 } },
    { ...smallSteaming(), entries },
  ).fuel;
const of = (kind: Fuel["kind"], entries: Entry[], window: [number, number] = [0, 9000]) => {
  const found = burntIn(kind, entries).burntG([window]);
  if (!isMeasured(found)) throw new Error(found.why);
  return found;
};

describe("a fire of which nobody looked at what was left", () => {
  const running = [added(100), lit, phase("running", 300), outAt(900), read(1200)];

  /** Of 100 g (1 - d)/3 is left where it burnt dry with chance d: by what was thought before, and how often so of either. */
  const burntG = (before: number, dry: number, putOut: number) =>
    100 - (100 / 3) * (1 - (before * dry) / (before * dry + (1 - before) * putOut));

  test("has mostly burnt dry, gas less often, for it has a tap; and where she ran on with the fire out", () => {
    const stopped = [added(100), lit, phase("running", 300), outAt(900), phase("standing", 902), read(1200)];
    expect(of("spirit", stopped).value).toBeCloseTo(burntG(0.7, 0.25, 0.7), 1);
    for (const kind of ["butane", "other"] as const) {
      expect(of(kind, stopped).value).toBeCloseTo(burntG(0.4, 0.25, 0.7), 1);
      expect(of(kind, running).value).toBeCloseTo(burntG(0.4, 0.35, 0.01), 1);
    }
    expect(of("spirit", running).value).toBeGreaterThan(99.5);
    expect(burntIn("butane", running).leftUnread).toBe(true);
  });

  /**
   * 60 g laid, 30 g fired at 600 s; 30 g were burnt in 600 s of standing, so 15 g in 300 s more: 45 g lie there of 90, give or take
   * three in twenty of 60 and a fifth of 15.
   */
  test("on a grate leaves what it was kept to when last fired, less what burnt since", () => {
    const kept = [
      added(40),
      lit,
      added(20, 300),
      phase("standing", 0),
      added(30, 600),
      outAt(900),
      read(900),
    ];
    const found = of("coal", kept);
    expect(found.value).toBeCloseTo(45, 1);
    const doubt = found.parts.find(({ name }) => name === "what was left, which nobody looked at");
    expect(doubt?.u).toBeCloseTo(Math.hypot(9, 3), 0);
    const putIn = found.parts.find(({ name }) => name === "fuel readings");
    expect(putIn?.u).toBeCloseTo(0.5 * Math.sqrt(3), 1);
  });

  test("on a grate never fired again leaves anything from nothing to all", () => {
    expect(of("coal", [added(100), lit, added(20, 300), outAt(900)]).value).toBeCloseTo(60, 6);
    expect(of("charcoal", [added(80), lit, outAt(600)]).value).toBeCloseTo(40, 6);
  });

  test("on a grate that is lit still is anything, and no figure is given", () => {
    const live = burntIn("coal", [added(100), lit, phase("running", 300), added(20, 600), read(900)]);
    expect(live.burntG([[0, 9000]])).toEqual({
      value: null,
      why: "what fuel was left was not recorded, and the fire was still lit: measure what is left",
    });
    expect(live.leftUnread).toBe(false);
  });

  test("what burns unevenly widens the range of a part of the time to both sides", () => {
    const dry = [added(100), lit, phase("running", 0), outAt(900), read(1800)];
    const [, most] = of("spirit", dry, [0, 450]).range95 ?? [];
    // half of 100 g: 0.2 x 50 x 0.5 g uneven, 0.5 g as put in
    expect(most).toBeGreaterThan(50 + 1.85 * Math.hypot(5, 0.5));
    expect(most).toBeLessThan(50 + 2 * Math.hypot(5, 0.5));
  });

  test("is told by the heat: the lower the efficiency by all of it, the less was burnt", () => {
    const course = burntIn(
      "spirit",
      running.slice(0, 3).concat(outAt(900), phase("standing", 902), read(1200)),
    );
    const at = (ifAll: number) =>
      course.toldByHeat({ ifAll: { value: ifAll, uRelative: 0.03 }, underWay: null }).burntG([[0, 9000]])
        .value ?? Number.NaN;
    expect(at(0.05)).toBeLessThan(at(0.15));
    expect(at(0.15)).toBeLessThan(at(0.3));
    expect(at(0.3)).toBeLessThan(100);
    const seen = burntIn("spirit", [
      added(100),
      lit,
      outAt(900),
      { kind: "fuel", action: "remaining", g: 0, atS: 950 },
    ]);
    expect(
      seen.toldByHeat({ ifAll: { value: 0.05, uRelative: 0.03 }, underWay: null }).burntG([[0, 9000]]),
    ).toEqual(seen.burntG([[0, 9000]]));
  });
});

describe("a grate found in steam, as trials begin", () => {
  const trial = (barG: number, kind: Fuel["kind"] = "coal") =>
    of(kind, [{ kind: "pressure", barG, atS: 0 }, lit, added(100, 1), added(50, 600), read(900), outAt(900)]);

  // working pressure 3 bar: half of it; all alike to a tenth of what was fired, each filling to 1 g
  test("is left as it was found: all that was fired is burnt, give or take a tenth", () => {
    const found = trial(1.5);
    expect(found.value).toBeCloseTo(150, 6);
    expect(standardUncertainty(found)).toBeCloseTo(Math.hypot(15, Math.SQRT2), 6);
    expect(trial(1.4).value).toBeLessThan(140);
  });

  test("so too where nobody says that it is out, but not while she runs", () => {
    const entries = (name: "standing" | "running"): Entry[] => [
      { kind: "pressure", barG: 3, atS: 0 },
      lit,
      phase("running", 0),
      added(100, 1),
      phase(name, 800),
      read(900),
    ];
    expect(of("coal", entries("standing")).value).toBeCloseTo(100, 6);
    expect(burntIn("coal", entries("running")).burntG([[0, 900]]).value).toBeNull();
  });

  test("no other fire is, and none of which the left was read", () => {
    expect(trial(3, "spirit").value).toBeLessThan(150);
    const seen = of("coal", [
      { kind: "pressure", barG: 3, atS: 0 },
      lit,
      added(100, 1),
      outAt(900),
      { kind: "fuel", action: "remaining", g: 40, atS: 900 },
    ]);
    expect(seen.value).toBeCloseTo(60, 9);
    expect(standardUncertainty(seen)).toBeCloseTo(Math.SQRT2, 9);
  });
});
