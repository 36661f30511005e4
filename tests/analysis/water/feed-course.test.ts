import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import {
  blurredByFeeding,
  densityGPerMl,
  madeBy,
  strayOfTiming,
  waterMoves,
} from "../../../src/analysis/water/feed-course.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { saturatedWater } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { move, reading } from "./balance-by-hand.ts";
import { bar, bypass, phase } from "./water-log.ts";

/** Water at 15 °C, g/ml (handbooks). */
const COLD = 0.9991;
const sources = (entries: Entry[], of: Partial<Locomotive> = {}) =>
  sourcesOf({ ...smallEngine(), ...of }, { ...smallSteaming(), entries });
const moves = (entries: Entry[], of: Partial<Locomotive> = {}, knownFrom = 0) =>
  waterMoves(sources(entries, of), knownFrom);
const only = (...given: Parameters<typeof moves>) => {
  const [first, ...rest] = moves(...given);
  if (first === undefined || rest.length > 0) throw new Error("wanted one move");
  return first;
};
const level: Entry = { kind: "level", mm: 20, atS: 0 };
const feed = (by: "bottle" | "hand-pump" | "axle-pump" | "injector", ml: number, atS: number): Entry => ({
  kind: "feed",
  by,
  ml,
  atS,
});

describe("who fed it", () => {
  test("what an injector took is one measure of the tank, and no hand feeds", () => {
    const by = feed("injector", 40, 100);
    expect(only([level, by])).toMatchObject({
      grams: expect.closeTo(40 * COLD, 2),
      over: null,
      isFeed: true,
      byHand: false,
      uGrams: expect.closeTo(COLD, 3),
      uTimingG: 0,
      source: "feed scale of small",
      fromOutside: true,
    });
    expect(only([level, by], { waterTankMl: 300 }).fromOutside).toBe(false);
  });

  test("a bottle comes from outside whatever tank she has, and its scale is not the hand pump's", () => {
    const of = { waterTankMl: 300, handPump: { mlPerStroke: 2, uMlPerStroke: 0.1 } };
    expect(only([level, feed("bottle", 40, 100)], of)).toMatchObject({
      fromOutside: true,
      byHand: true,
      source: "feed scale of small",
      sourceName: "scale of the feed measure",
      scaleRelative: 0.02,
    });
  });

  test("a hand pump is worked by hand, with the error of its stroke where that is known", () => {
    const pumped = [level, feed("hand-pump", 40, 100)];
    expect(only(pumped, { handPump: { mlPerStroke: 2, uMlPerStroke: 0.1 } })).toMatchObject({
      byHand: true,
      sourceName: "hand pump's ml a stroke",
      scaleRelative: 0.05,
    });
    expect(only(pumped)).toMatchObject({ source: "feed scale of small", scaleRelative: 0.02 });
  });

  test("what is poured in or let out is neither feed nor in doubt of its time", () => {
    expect(only([level, { kind: "blowdown", ml: 20, atS: 100 }])).toMatchObject({
      grams: expect.closeTo(-20 * COLD, 2),
      isFeed: false,
      uTimingG: 0,
      byHand: true,
      over: null,
      source: "feed scale of small",
    });
  });
});

describe("fillings and drainings", () => {
  test("a filling counts from where the water is known", () => {
    const fills: Entry[] = [10, 20, 30].map((ml, i) => ({ kind: "fill", ml, atS: 10 * i }));
    expect(moves(fills, {}, 0).map(({ grams }) => grams)).toEqual(
      [20, 30].map((ml) => expect.closeTo(ml * COLD, 2)),
    );
    expect(moves(fills, {}, 2)).toEqual([]);
  });

  test("of an engine that was weighed every filling since is a move", () => {
    const weighed: Entry = { kind: "weight", g: 3000, atS: 5 };
    const fill = (ml: number, atS: number): Entry => ({ kind: "fill", ml, atS });
    const grams = (entries: Entry[]) => moves(entries, {}, Number.POSITIVE_INFINITY).map((one) => one.grams);
    expect(grams([weighed, fill(30, 10)])).toEqual([expect.closeTo(30 * COLD, 2)]);
    expect(grams([fill(20, 0), weighed, fill(30, 10)])).toEqual([expect.closeTo(30 * COLD, 2)]);
    expect(grams([fill(20, 0)])).toEqual([]);
  });

  test("water let out counts but for the last time, which tells what there was", () => {
    const drained = (ml: number, atS: number): Entry => ({ kind: "drained", ml, atS });
    expect(
      moves([level, drained(15, 100), drained(25, 200), drained(40, 300)]).map(({ grams }) => grams),
    ).toEqual([-15, -25].map((ml) => expect.closeTo(ml * COLD, 2)));
    expect(moves([level, drained(40, 300)])).toEqual([]);
  });
});

describe("an axle pump's feed", () => {
  const trial = [
    bar(3, 0),
    phase("standing", 0),
    phase("running", 200),
    phase("standing", 500),
    bar(3, 1000),
  ];
  const over = (entries: Entry[]) =>
    moves([level, ...entries].sort((a, b) => a.atS - b.atS)).map((one) => one.over);

  test("flowed while the by-pass was shut and she ran, and then its time is known", () => {
    const pumped = [
      level,
      ...trial.slice(0, 3),
      bypass("shut", 300),
      bypass("open", 400),
      ...trial.slice(3, 4),
      feed("axle-pump", 30, 600),
      ...trial.slice(4),
    ];
    expect(only(pumped)).toMatchObject({ over: [[300, 400]], uTimingG: 0, byHand: false });
  });

  test("in all that its by-pass was shut where laps alone say when she ran, as far as that is longer", () => {
    const laps = [100, 200, 300, 400].map((atS): Entry => ({ kind: "lap", count: 1, atS }));
    const pumped = (...told: Entry[]) =>
      only([level, bar(3, 0), ...told, bypass("shut", 50), ...laps, feed("axle-pump", 40, 500)]);
    expect(pumped()).toMatchObject({
      over: [[50, 400]],
      uTimingG: expect.closeTo((1 - 350 / 450) * 40 * COLD, 3),
    });
    expect(pumped({ kind: "regulator", state: "open", atS: 40 }).uTimingG).toBe(0);
    expect(pumped(phase("running", 40)).uTimingG).toBe(0);
  });

  test("is a measure of what the tank lost, each time as well as the owner reads it", () => {
    const read = [feed("axle-pump", 30, 600), feed("axle-pump", 20, 900)];
    const within = { instruments: { volumeReadingMl: 2 } };
    expect(moves([level, ...read], within).map(({ uGrams }) => uGrams)).toEqual([
      expect.closeTo(2 * COLD, 3),
      expect.closeTo(2 * COLD, 3),
    ]);
  });

  test("while she ran, where the by-pass was never shut in it", () => {
    expect(over([...trial, bypass("open", 100), feed("axle-pump", 30, 600)])).toEqual([[[200, 500]]]);
  });

  test("since it was last read where nothing says that she ran by then, in the last minute where it was not, and its time is in doubt", () => {
    expect(over([...trial, feed("axle-pump", 30, 100)])).toEqual([[[40, 100]]]);
    const later = [...trial, feed("axle-pump", 30, 600), feed("axle-pump", 5, 900)];
    const [, last] = moves([level, ...later, bypass("shut", 150)].sort((a, b) => a.atS - b.atS));
    expect(last?.uTimingG).toBeCloseTo(0.25 * 5 * COLD, 3);
    expect(
      over([...trial, feed("axle-pump", 30, 600), feed("axle-pump", 5, 630), feed("axle-pump", 5, 900)]),
    ).toEqual([[[200, 500]], [[600, 630]], [[630, 900]]]);
  });

  test("another's feed in between is no reading of it", () => {
    expect(over([...trial, feed("bottle", 20, 300), feed("axle-pump", 30, 500)])).toEqual([
      null,
      [[200, 500]],
    ]);
  });

  // 0.25 x 40 g may have flowed early or late half way through, nothing at the ends: 4 x share x rest
  test("may be early or late most half way through", () => {
    const pumped = move(0, 40, { uTimingG: 10 });
    expect([0, 0.25, 0.5, 1].map((made) => strayOfTiming(pumped, made))).toEqual([0, 7.5, 10, 0]);
  });

  test("of stretches together the part that has passed has flowed", () => {
    const twice = move(0, 40, {
      over: [
        [100, 200],
        [400, 700],
      ],
    });
    expect([50, 150, 300, 550, 800].map((atS) => madeBy(twice, { atS }))).toEqual([0, 0.125, 0.25, 0.625, 1]);
  });
});

describe("readings while a hand feeds", () => {
  const blurred = (fed: ReturnType<typeof move>[], atS: number) =>
    blurredByFeeding([reading(atS, 100, { uGrams: 3 })], fed)[0]?.uGrams;

  test("are blurred for the forty seconds before it is written down", () => {
    const fed = [move(100, 40)];
    expect(blurred(fed, 60)).toBe(3);
    expect(blurred(fed, 61)).toBeCloseTo(Math.hypot(3, 0.5 * 40 * (1 / 40)), 9);
    expect(blurred(fed, 94)).toBeCloseTo(Math.hypot(3, 0.5 * 40 * (34 / 40)), 9);
    // from here on the doubt is the feed's own
    expect([95, 99, 100].map((atS) => blurred(fed, atS))).toEqual([3, 3, 3]);
  });

  test("of two feeds by both, of a pump by none", () => {
    expect(blurred([move(100, 40), move(110, 20)], 90)).toBeCloseTo(
      Math.hypot(3, 0.5 * 40 * 0.75, 0.5 * 20 * 0.5),
      9,
    );
    expect(blurred([move(100, 40, { byHand: false })], 90)).toBe(3);
  });
});

describe("cold water's density", () => {
  test("is that of boiling water where the air lets it be no hotter", () => {
    const { around } = sourcesOf(smallEngine(), {
      ...smallSteaming(),
      conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 700 },
    });
    // at 700 hPa water boils at 89.9 °C
    const boiling = 1e-3 / saturatedWater(70_000).volumeM3PerKg;
    expect(densityGPerMl(98, around)).toBeCloseTo(boiling, 6);
    expect(densityGPerMl(15, around)).toBeCloseTo(COLD, 4);
    expect(densityGPerMl(80, around)).toBeGreaterThan(boiling);
  });
});
