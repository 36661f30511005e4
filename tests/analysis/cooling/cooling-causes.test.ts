import { describe, expect, test } from "vitest";
import {
  causesOf,
  gusts,
  leakHeat,
  letOut,
  wayOf,
  wholeLeakOf,
} from "../../../src/analysis/cooling/cooling-causes.ts";
import type { CoolingModel } from "../../../src/analysis/cooling/cooling-model.ts";
import type { Drop } from "../../../src/analysis/cooling/shut-in-water.ts";
import type { LeakThought } from "../../../src/analysis/leaks/leak-thought.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const sources = sourcesOf(smallEngine(), smallSteaming());
const SECONDS = [0, 100, 300];
/** Round numbers, so that all below is worked in the head: 150 of the measure of loss in 300 s, 5 at working pressure. */
const model: CoolingModel = {
  seconds: Float64Array.from(SECONDS),
  storedJ: Float64Array.of(1000, 900, 600),
  uJ: Float64Array.of(1, 2, 3),
  lossMeasures: Float64Array.of(0, 50, 150),
  perLeakJ: Float64Array.of(0, 10, 40),
  perLeakSteamJ: Float64Array.of(0, 100, 400),
  dialJ: (K) => Float64Array.of(K, 2 * K, 3 * K),
  airJ: (K) => Float64Array.of(4 * K, 5 * K, 6 * K),
  metalShare: 0.3,
  dyingShare: (diesS) => Float64Array.from(SECONDS, (s) => 1 - Math.exp(-s / diesS)),
  workingMeasure: 5,
  workingExcessK: 120,
  meanExcessK: 100,
  latentJPerG: 2000,
};
const leak: LeakThought = { size: 0.5, doubt: 0.2, steam: 0.5, steamDoubt: 0.25, weight: 1 };
const drop: Drop = {
  left: {
    value: 3,
    unit: "g",
    parts: [
      { name: "readings", u: 0.6 },
      { name: "volume of the boiler", u: 0.8 },
    ],
  },
  perLeakG: 5,
  uG: 0.7,
  ifWaterG: 4,
  dialG: 0.3,
};
const close = (values: number[]) => values.map((value) => expect.closeTo(value, 9));

describe("a way in which she may have cooled", () => {
  test("the leak whose steam carries off a loss of 100 W: 3 g/min at 2000 J/g", () => {
    expect(wholeLeakOf(model, 100)).toBeCloseTo(3, 12);
  });

  test("half steam, a leak takes the heat of the water and half of what steam takes more", () => {
    expect([...leakHeat(model, 0.5)]).toEqual([0, 60, 240]);
  });

  test("between the readings of the water a leak of 1 g/min lets out what steam does, and for its part of water what that is more", () => {
    expect(letOut(drop, { steam: 1 })).toBe(5);
    expect(letOut(drop, { steam: 0.25 })).toBe(8);
    expect(letOut(null, { steam: 0.25 })).toBe(0);
  });

  // half of 0.03 g/min a watt takes 240 J x 0.015 = 3.6 J beside the surface's 150 / 5 = 30
  test("surface and leak together take what goes", () => {
    const way = wayOf(model, 100, 60, leak);
    expect(way.lossW).toBeCloseTo((100 * 30) / 33.6, 9);
    expect(way.leakGPerMin).toBeCloseTo(0.015 * way.lossW, 12);
    expect(way.leakDoubtGPerMin).toBeCloseTo(0.2 * 0.03 * way.lossW, 12);
    expect([way.diesS, way.leak]).toEqual([60, leak]);
  });

  test("a leak never brings heat, so that the loss is not above all that goes", () => {
    const rising = { ...model, perLeakJ: Float64Array.of(0, -10, -800) };
    expect(wayOf(rising, 100, 60, leak).lossW).toBe(100);
  });
});

describe("what each cause does to the readings", () => {
  const way = { diesS: 60, leak, lossW: 80, leakGPerMin: 1.5, leakDoubtGPerMin: 0.4 };
  // 80 W over 5 of the measure: 16
  const K = 16;
  const causes = (of: Drop | null, logDoubt = 0.2, one = model) =>
    causesOf(sources, one, of, way, 100, logDoubt);
  const named = (name: string, of: Drop | null = drop, place = 0) => {
    const cause = causes(of).filter(({ part }) => part.name === name)[place];
    if (cause === undefined) throw new Error(`no cause ${name}`);
    return { column: [...cause.column], ofDrop: cause.ofDrop, source: cause.part.source };
  };

  test("loss and leak may be three times what is thought, both alike, and let out as much more", () => {
    const { column, ofDrop } = named("few readings");
    expect(column).toEqual(close([0, -2 * (K * 50 + 1.5 * 60), -2 * (K * 150 + 1.5 * 240)]));
    expect(ofDrop).toBeCloseTo(2 * 1.5 * 7, 9);
    expect(named("few readings", null).ofDrop).toBe(0);
  });

  test("the leak has a doubt beside the loss's, in heat and in water", () => {
    const { column, ofDrop } = named("leak not known");
    expect(column).toEqual(close([-0, -0.4 * 60, -0.4 * 240]));
    expect(ofDrop).toBeCloseTo(0.4 * 7, 9);
  });

  test("a quarter of it more may be steam", () => {
    expect(named("whether steam or water leaked")).toMatchObject({
      column: close([-0, -0.375 * 100, -0.375 * 400]),
      ofDrop: 0,
    });
  });

  test("what she held at first is not known beforehand: ten times the whole fall at the least, whichever way it goes", () => {
    const { column } = named("few readings", drop, 1);
    expect(new Set(column).size).toBe(1);
    expect(column[0]).toBeCloseTo(10 * 400 + 100 * 100, 9);
    const risen = { ...model, storedJ: Float64Array.of(600, 900, 1000) };
    const [, , , first] = causes(drop, 0.2, risen);
    expect(first?.column[0]).toBeCloseTo(14_000, 9);
  });

  test("the dial moves heat and loss, and what was let out the other way; the air the loss alone", () => {
    expect(named("bias of the pressure dial")).toEqual({
      column: [K, 2 * K, 3 * K],
      ofDrop: expect.closeTo(-1.5 * 0.3, 12),
      source: "dial of small",
    });
    expect(Math.abs(named("bias of the pressure dial", null).ofDrop)).toBe(0);
    expect(named("temperature of the air").column).toEqual([4 * K, 5 * K, 6 * K]);
  });

  test("a dying fire gives two times 100 W for its 60 s, and may give none or twice that", () => {
    const { column } = named("heat of the dying fire");
    expect(column).toEqual(close(SECONDS.map((s) => 2 * 100 * 60 * (1 - Math.exp(-s / 60)))));
  });

  test("and may die sooner or later: half of what that makes between the two", () => {
    const given = (s: number, diesS: number) => 2 * 100 * diesS * (1 - Math.exp(-s / diesS));
    const { column } = named("heat of the dying fire", drop, 1);
    const [late, soon] = [60 * Math.exp(0.2), 60 * Math.exp(-0.2)];
    expect(column).toEqual(close(SECONDS.map((s) => (given(s, late) - given(s, soon)) / 2)));
    expect([...(causes(drop, 0)[7]?.column ?? [])]).toEqual([0, 0, 0]);
  });

  test("the water that left is as sure as its readings; what a leak lets out as its course", () => {
    expect(named("water that left")).toMatchObject({ column: [0, 0, 0], ofDrop: expect.closeTo(1, 12) });
    expect(named("pressure not read")).toMatchObject({
      column: [0, 0, 0],
      ofDrop: expect.closeTo(1.5 * 0.7, 12),
    });
    for (const name of ["water that left", "pressure not read"]) expect(named(name, null).ofDrop).toBe(0);
  });
});

// a random walk: what two readings share is what had gone by the earlier
test("gusts grow with time, and touch the heat alone", () => {
  const [wander, variance] = [gusts(model, 10, 4), (s: number) => 100 * 0.3 * s];
  const rows = [0, 1, 2, 3].map((i) => [...wander.slice(4 * i, 4 * i + i + 1)]);
  expect(rows).toEqual([
    [0],
    close([0, variance(100)]),
    close([0, variance(100), variance(300)]),
    [0, 0, 0, 0],
  ]);
});
