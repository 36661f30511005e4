import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { safetyValveOf } from "../../../src/analysis/valve/safety-valve.ts";
import type { Moment } from "../../../src/analysis/valve/valve-moment.ts";
import { poppingAt } from "../../../src/analysis/valve/valve-pops.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { type Figure, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** A valve that pops: straight up to its lift in 13 s, straight down to its reseat in 6, again and again. */
const RISES_S = 13;
const BLOWS_S = 6;
const EVERY_S = RISES_S + BLOWS_S;
const popping = (lift: number, reseat: number) => (atS: number) => {
  const s = ((atS % EVERY_S) + EVERY_S) % EVERY_S;
  return s < RISES_S
    ? reseat + ((lift - reseat) * s) / RISES_S
    : lift - ((lift - reseat) * (s - RISES_S)) / BLOWS_S;
};
const marks = (times: number, offS = (_: number) => 0): Entry[] =>
  Array.from({ length: times }, (_, i): Entry[] => [
    { kind: "valve", atS: EVERY_S * i + RISES_S + offS(2 * i), state: "lifts" },
    { kind: "valve", atS: EVERY_S * (i + 1) + offS(2 * i + 1), state: "reseats" },
  ]).flat();
/** Errors that no generator makes anew, of standard deviation 1. */
const stray = (i: number) => Math.SQRT2 * Math.sin(12.9898 * i * i);

const figures = (entries: Entry[], values?: number[], reading = 0.02) => {
  const engine = {
    ...smallEngine(),
    instruments: { pressureReadingBar: reading, pressureBiasBar: 0.001 },
  };
  const traces =
    values === undefined ? [] : [{ channel: "pressureBarG" as const, startS: 0, everyS: 0.2, values }];
  const sorted = entries.toSorted((a, b) => a.atS - b.atS);
  const sheet = safetyValveOf(
    sourcesOf(engine, { ...smallSteaming(), purpose: "safety-valve", entries: sorted, traces }),
  );
  const of = (figure: Figure | undefined) => {
    if (figure === undefined || !isMeasured(figure)) throw new Error("no figure");
    return { value: figure.value, u: standardUncertainty(figure) };
  };
  return { lift: () => of(sheet?.lift), reseat: () => of(sheet?.reseat), highest: () => of(sheet?.highest) };
};
const read = (barG: (atS: number) => number, times: number, apartS: number, strayFrom: number): Entry[] =>
  Array.from({ length: times }, (_, i) => ({
    kind: "pressure",
    atS: 5 + apartS * i,
    barG: barG(5 + apartS * i) + 0.02 * stray(i + strayFrom),
  }));

const meanOf = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const byDial = (barG: (atS: number) => number, offS: number) =>
  Array.from({ length: 12 }, (_, i) =>
    figures([...marks(40, (k) => offS * stray(k + 0.3 + 100 * i)), ...read(barG, 25, 31, 100 * i)]),
  );

test("moments written so far off that lifts and reseats change places do not bring the two nearer", () => {
  const told = byDial(popping(3.1, 2.8), 2.5);
  expect(Math.abs(meanOf(told.map((one) => one.lift().value)) - 3.1)).toBeLessThan(0.02);
  expect(Math.abs(meanOf(told.map((one) => one.reseat().value)) - 2.8)).toBeLessThan(0.02);
});

describe.each([
  ["a tenth", 3.1, 2.8],
  ["a fifth", 3.2, 2.6],
])("a valve that pops, falling by %s of working pressure", (_, lift, reseat) => {
  const barG = popping(lift, reseat);

  test("is told by a dial read twice a minute, its moments written a second off", () => {
    const told = byDial(barG, 1);
    for (const [of, truth] of [
      [told.map((one) => one.lift()), lift],
      [told.map((one) => one.reseat()), reseat],
    ] as const) {
      for (const { value, u } of of) expect(Math.abs(value - truth)).toBeLessThan(2 * u);
      expect(Math.abs(meanOf(of.map(({ value }) => value)) - truth)).toBeLessThan(0.03);
      // they are told from each other
      for (const { u } of of) expect(u).toBeLessThan(0.06);
    }
  });

  test("is told by a logger at the turns of the pressure, as sharp as they are", () => {
    const values = Array.from({ length: 1500 }, (_, i) => barG(i * 0.2) + 0.01 * stray(i));
    for (const offS of [() => 0, (i: number) => 1.5 * stray(i + 0.3)]) {
      const told = figures(marks(15, offS), values);
      expect(Math.abs(told.lift().value - lift)).toBeLessThan(0.015);
      expect(Math.abs(told.reseat().value - reseat)).toBeLessThan(0.015);
      for (const { u } of [told.lift(), told.reseat()]) expect(u).toBeLessThan(0.01);
    }
  });
});

test("every moment counts: readings beside the twentieth tell as much as beside the first", () => {
  const barG = popping(3.1, 2.8);
  const atEnd = figures([
    ...marks(20),
    { kind: "pressure", atS: 19 * EVERY_S + 11, barG: barG(11) },
    { kind: "pressure", atS: 19 * EVERY_S + 16, barG: barG(16) },
  ]);
  expect(Math.abs(atEnd.lift().value - 3.1)).toBeLessThan(2 * atEnd.lift().u);
});

test("a fall that goes on after the reseat by cold feed is no turn of the valve's, however close its marks stand", () => {
  const fed: Entry[] = [
    { kind: "valve", atS: 60, state: "lifts" },
    { kind: "feed", atS: 63, ml: 30, by: "hand-pump" },
    { kind: "valve", atS: 64, state: "reseats" },
  ];
  const barG = (s: number) => {
    if (s < 60) return 3.1 - 0.004 * (60 - s);
    if (s < 64) return 3.1 - 0.05 * (s - 60);
    return s < 70 ? 2.9 - 0.05 * (s - 64) : 2.6 + 0.01 * (s - 70);
  };
  const values = Array.from({ length: 600 }, (_, i) => barG(i * 0.2) + 0.01 * stray(i));
  const { reseat } = figures(fed, values);
  expect(reseat().value).toBeGreaterThan(2.7);
  expect(Math.abs(reseat().value - 2.9)).toBeLessThan(2 * reseat().u);
});

test("the highest is never below what the dial clearly showed, whatever lift was written down after it", () => {
  for (const shown of [3.2, 3.3, 3.5, 4]) {
    const { highest } = figures([
      { kind: "pressure", atS: 0, barG: 2.9 },
      { kind: "pressure", atS: 40, barG: shown },
      { kind: "pressure", atS: 90, barG: 3.05 },
      { kind: "pressure", atS: 99, barG: 3.09 },
      { kind: "valve", atS: 100, state: "lifts" },
      { kind: "pressure", atS: 110, barG: 3 },
    ]);
    expect(highest().value).toBeGreaterThan(shown - 3 * 0.02);
  }
});

test("beside a logger of hours of pops the figure is as of all of them, first and last", () => {
  const drifting = (atS: number) => popping(3.1, 2.8)(atS) + (atS < 1900 ? 0 : 0.1);
  const values = Array.from({ length: 19_000 }, (_, i) => drifting(i * 0.2) + 0.01 * stray(i));
  // as many lifts at 3.1 bar as at 3.2
  expect(figures(marks(200), values).lift().value).toBeCloseTo(3.15, 2);
});

test("a lift and a reseat written in one second are as far apart as moments are written off", () => {
  const told = figures([
    { kind: "pressure", atS: 90, barG: 3 },
    { kind: "valve", atS: 100, state: "lifts" },
    { kind: "valve", atS: 100, state: "reseats" },
    { kind: "pressure", atS: 100, barG: 3 },
    { kind: "pressure", atS: 112, barG: 2.9 },
  ]);
  for (const { value, u } of [told.lift(), told.reseat(), told.highest()]) {
    expect(value).toBeGreaterThan(2.5);
    expect(value).toBeLessThan(3.3);
    expect(u).toBeGreaterThan(0.01);
    expect(u).toBeLessThan(0.3);
  }
});

test("a reading in the same second as a lift may be of what the valve had let out by then, and does not take the lift for it", () => {
  // up in 50 s from 2.8 to 3.1, down in 20 s; each reading 10 s before a lift, at 3.04
  const cycle = (i: number): Entry[] => [
    { kind: "valve", atS: 70 * i, state: "lifts" },
    { kind: "valve", atS: 70 * i + 20, state: "reseats" },
    { kind: "pressure", atS: 70 * i - 10, barG: 3.04 },
  ];
  const cycles = Array.from({ length: 8 }, (_, i) => cycle(i + 1)).flat();
  const lift = (entries: Entry[]) => figures(entries).lift();
  expect(Math.abs(lift(cycles).value - 3.1)).toBeLessThan(0.05);
  const low = lift([...cycles, { kind: "pressure", atS: 70 * 4, barG: 2.9 }]);
  expect(Math.abs(low.value - 3.1)).toBeLessThan(1.96 * low.u);
});

describe("what is thought of a reading beside a pop, as parts of working pressure", () => {
  // lift 1.03, reseat 0.91; a moment stands 2 s from itself in the mean of its writing's size
  const WAY = 0.91 - 1.03;
  const lift = (atS: number): Moment => ({ atS, mark: "lift" });
  const reseat = (atS: number): Moment => ({ atS, mark: "reseat" });
  const of = (moments: Moment[], place: number, sinceS: number) => poppingAt(moments, place, sinceS, []);

  test("it is so far on the straight way to the other mark, which may bend by 0.15 of the whole in its middle", () => {
    const share = Math.hypot(2, 2) / 10;
    const thought = of([lift(0), reseat(10)], 0, 2);
    expect(thought?.towards).toEqual({ mark: "reseat", share: expect.closeTo(share, 12) });
    expect(thought?.usual).toBeCloseTo(1.03 + share * WAY, 12);
    // a parabola through nothing at either end
    expect(thought?.uBend).toBeCloseTo(0.15 * WAY * (1 - (2 * share - 1) ** 2), 12);
    expect(thought?.perS).toBeCloseTo(WAY / 10, 12);
    expect(thought?.uMoving).toBe(0);
  });

  test("in the moment's own second it is moved by the moment as any before it", () => {
    expect(of([reseat(0), lift(40)], 1, 0)?.perS).toBeCloseTo(-WAY / 40, 12);
    expect(of([reseat(0), lift(40)], 1, -1)?.perS).toBeCloseTo(-WAY / 40, 12);
  });

  test("between two like marks it is anywhere on the way, all alike likely", () => {
    const thought = of([lift(0), lift(30)], 0, 5);
    expect(thought?.usual).toBeCloseTo(1.03 + WAY / 2, 12);
    expect(thought?.uMoving).toBeCloseTo(WAY / Math.sqrt(12), 12);
    expect([thought?.uBend, thought?.perS]).toEqual([0, 0]);
  });

  test("a blow of 12 s and a rise of 60 s are a pop's, longer ones are not", () => {
    expect(of([lift(0), reseat(12)], 0, 3)).not.toBeNull();
    expect(of([lift(0), reseat(12.1)], 0, 3)).toBeNull();
    expect(of([reseat(0), lift(60)], 0, 3)).not.toBeNull();
    expect(of([reseat(0), lift(60.1)], 0, 3)).toBeNull();
    // between two lifts the valve shut and came up again
    expect(of([lift(0), lift(60)], 0, 3)).not.toBeNull();
  });

  test("the highest reading is no mark of a valve that pops", () => {
    const top: Moment = { atS: 10, mark: "top" };
    expect(of([lift(0), top], 0, 3)).toBeNull();
    expect(of([top, lift(20)], 0, 3)).toBeNull();
  });
});
