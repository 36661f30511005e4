import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { demandBesidePump, demandEffects } from "../../../src/analysis/water/demand-effects.ts";
import {
  blurredByFeeding,
  madeBy,
  strayOfTiming,
  waterMoves,
} from "../../../src/analysis/water/feed-course.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Water at 15 °C, g/ml (handbooks). */
const COLD = 0.9991;
const movesWith = (entries: Entry[], engine: Partial<Locomotive> = {}) =>
  waterMoves(sourcesOf({ ...smallEngine(), ...engine }, { ...smallSteaming(), entries }), 0);
const level: Entry = { kind: "level", mm: 20, atS: 0 };

describe("water put in and let out", () => {
  test("a bottle's measure, a blow-down and a later filling, each with its error", () => {
    const moves = movesWith([
      level,
      { kind: "feed", by: "bottle", ml: 50, atS: 100 },
      { kind: "blowdown", ml: 20, atS: 200 },
      { kind: "fill", ml: 30, atS: 300 },
    ]);
    expect(moves.map(({ grams }) => grams)).toEqual([50, -20, 30].map((ml) => expect.closeTo(ml * COLD, 2)));
    expect(moves.map(({ isFeed }) => isFeed)).toEqual([true, false, false]);
    expect(moves.map(({ scaleRelative }) => scaleRelative)).toEqual([0.02, 0.02, 0.02]);
    expect(moves.map(({ uGrams }) => uGrams)).toEqual([1, 1, 1].map((ml) => expect.closeTo(ml * COLD, 3)));
    expect(moves.every(({ fromOutside }) => fromOutside)).toBe(true);
  });

  test("a hand pump has no measure of its own but its scale, and draws on the engine's tank where she has one", () => {
    const pumped: Entry[] = [level, { kind: "feed", by: "hand-pump", ml: 40, atS: 100 }];
    const [known] = movesWith(pumped, { handPump: { mlPerStroke: 2, uMlPerStroke: 0.1 }, waterTankMl: 500 });
    expect(known).toMatchObject({
      scaleRelative: 0.05,
      source: "hand pump of small",
      uGrams: 0,
      fromOutside: false,
    });
    const [unknown] = movesWith(pumped, { handPump: { mlPerStroke: 2 } });
    expect(unknown).toMatchObject({ scaleRelative: 0.02, source: "feed scale of small", fromOutside: true });
  });

  test("an axle pump's feed flowed while she ran, since it was last read; without a by-pass its timing is in doubt", () => {
    const moves = movesWith([
      level,
      { kind: "phase", name: "running", atS: 0 },
      { kind: "feed", by: "axle-pump", ml: 40, atS: 400 },
      { kind: "feed", by: "axle-pump", ml: 20, atS: 600 },
      { kind: "phase", name: "standing", atS: 700 },
      { kind: "pressure", barG: 2, atS: 900 },
    ]);
    expect(moves.map(({ over }) => over)).toEqual([[[0, 400]], [[400, 600]]]);
    expect(moves[0]?.uTimingG).toBeCloseTo(0.25 * 40 * COLD, 2);
    const [first] = moves;
    if (first === undefined) throw new Error("no move");
    expect([-10, 0, 100, 400, 500].map((atS) => madeBy(first, { atS }))).toEqual([0, 0, 0.25, 1, 1]);
  });

  test("what stands in the log before a reading was made by it; of a feed by hand that is written down just after it, half may be", () => {
    const [feed] = movesWith([
      level,
      { kind: "feed", by: "bottle", ml: 50, atS: 100 },
      { ...level, atS: 100 },
    ]);
    if (feed === undefined) throw new Error("no move");
    expect(madeBy(feed, { atS: 99 })).toBe(0);
    expect(madeBy(feed, { atS: 100 })).toBe(1);
    expect([0, 1, 2].map((order) => madeBy(feed, { atS: 100, order }))).toEqual([0.5, 1, 1]);
    expect([94, 95, 99].map((atS) => madeBy(feed, { atS, order: 0 }))).toEqual([0, 0.5, 0.5]);
    // half of it is carried, and half of it is in doubt
    expect(strayOfTiming(feed, 0.5)).toBeCloseTo(25 * COLD, 2);
  });

  test("a filling that was measured had none of the feed, a blow-down or a pump without a hand is in its place in the log", () => {
    const [feed, blowdown, injected] = movesWith([
      level,
      { kind: "feed", by: "bottle", ml: 50, atS: 100 },
      { kind: "blowdown", ml: 50, atS: 100 },
      { kind: "feed", by: "injector", ml: 50, atS: 100 },
    ]);
    if (feed === undefined || blowdown === undefined || injected === undefined) throw new Error("no move");
    expect(madeBy(feed, { atS: 100, order: 0, poured: true })).toBe(0);
    expect([blowdown, injected].map((move) => madeBy(move, { atS: 100, order: 0 }))).toEqual([0, 0]);
  });

  // 50 ml go in over 40 s; 10 s before it is written down three quarters of it may be in: half of that is in doubt
  test("a reading taken while a hand was feeding may have seen part of it", () => {
    const moves = movesWith([level, { kind: "feed", by: "bottle", ml: 50, atS: 100 }]);
    const reading = (atS: number) => ({
      atS,
      order: 0,
      grams: 100,
      uGrams: 3,
      of: "contents" as const,
      shared: [],
    });
    const [long, during, just, after] = blurredByFeeding([59, 90, 100, 101].map(reading), moves);
    expect(during?.uGrams).toBeCloseTo(Math.hypot(3, 0.5 * 50 * COLD * 0.75), 2);
    expect([long, just, after].map((one) => one?.uGrams)).toEqual([3, 3, 3]);
  });
});

describe("the steady parts of the demand", () => {
  const effectsWith = (entries: Entry[]) => {
    const { timeline, phases, pressure } = sourcesOf(smallEngine(), { ...smallSteaming(), entries });
    return demandEffects(timeline, phases, pressure, (atS) => atS).map(({ name, within, prior }) => [
      name,
      within,
      prior,
    ]);
  };
  const marks: Entry[] = [
    { kind: "pressure", barG: 2, atS: 0 },
    { kind: "phase", name: "standing", atS: 0 },
    { kind: "phase", name: "running", atS: 300 },
    { kind: "phase", name: "standing", atS: 600 },
    { kind: "pressure", barG: 2, atS: 900 },
  ];

  test("one rate for each phase, and no second one for the only run", () => {
    expect(effectsWith(marks)).toEqual([
      ["standing", [[0, 300]], 1],
      ["standing", [[600, 900]], 1],
      ["all running", [[300, 600]], 10],
      ["cold cylinders", [[300, 390]], 1],
    ]);
  });

  test("two runs share a rate and each may depart from it", () => {
    const two = effectsWith([
      ...marks.slice(0, 4),
      { kind: "phase", name: "running", atS: 800 },
      ...marks.slice(4),
    ]);
    expect(two).toEqual([
      ["standing", [[0, 300]], 1],
      ["running", [[300, 600]], 0.5],
      ["standing", [[600, 800]], 1],
      ["running", [[800, 900]], 0.5],
      [
        "all running",
        [
          [300, 600],
          [800, 900],
        ],
        10,
      ],
      ["cold cylinders", [[300, 390]], 1],
    ]);
  });

  test("a fire put out parts the phase, but not a run", () => {
    const out = (atS: number): Entry => ({ kind: "fire", state: "out", atS });
    expect(effectsWith([...marks.slice(0, 4), out(700), ...marks.slice(4)]).slice(1, 3)).toEqual([
      ["standing", [[600, 700]], 1],
      ["standing", [[700, 900]], 1],
    ]);
    expect(effectsWith([...marks.slice(0, 3), out(400), ...marks.slice(3)])).toHaveLength(4);
  });

  test("beside a pump nobody measured: what she draws more or less while it feeds", () => {
    const withPump = (entries: Entry[]) => {
      const { timeline, phases } = sourcesOf(smallEngine(), { ...smallSteaming(), entries });
      return demandBesidePump(timeline, phases, [[400, 500]]);
    };
    const within = [[400, 500]];
    expect(withPump(marks)).toEqual({ name: "while pumping", within, prior: 0.25 });
    const valve: Entry = { kind: "valve", state: "lifts", atS: 100 };
    const noted = withPump([...marks.slice(0, 2), valve, ...marks.slice(2)]);
    expect(noted).toEqual({ name: "while pumping", within, prior: 0.15 });
    // with nothing to say when she ran she may have stood while it did not feed
    expect(withPump(marks.filter((one) => one.kind !== "phase" || one.name !== "running")).prior).toBe(3);
  });

  test("her cylinders are cold for ninety seconds at most, from the first time she is under way", () => {
    const cold = (entries: Entry[]) => effectsWith(entries).filter(([name]) => name === "cold cylinders");
    expect(cold(marks)).toEqual([["cold cylinders", [[300, 390]], 1]]);
    const standing: Entry = { kind: "phase", name: "standing", atS: 350 };
    expect(cold([...marks.slice(0, 3), standing, ...marks.slice(4)])[0]?.[1]).toEqual([[300, 350]]);
    const open: Entry = { kind: "regulator", state: "open", atS: 330 };
    expect(cold([...marks.slice(0, 3), open, ...marks.slice(3)])[0]?.[1]).toEqual([[330, 420]]);
    expect(cold(marks.filter(({ kind, atS }) => kind !== "phase" || atS !== 300))).toEqual([]);
  });

  test("safety valve, blower and a regulator shut while running draw by themselves", () => {
    const found = effectsWith([
      ...marks.slice(0, 2),
      { kind: "valve", state: "lifts", atS: 100 },
      { kind: "valve", state: "reseats", atS: 130 },
      { kind: "blower", state: "on", atS: 200 },
      { kind: "blower", state: "off", atS: 250 },
      { kind: "phase", name: "running", atS: 300 },
      { kind: "regulator", state: "open", atS: 320 },
      { kind: "regulator", state: "shut", atS: 500 },
      ...marks.slice(3),
    ]);
    expect(found).toContainEqual(["safety valve", [[100, 130]], 3]);
    expect(found).toContainEqual(["blower", [[200, 250]], 1]);
    expect(found).toContainEqual([
      "regulator shut",
      [
        [300, 320],
        [500, 600],
      ],
      10,
    ]);
  });
});
