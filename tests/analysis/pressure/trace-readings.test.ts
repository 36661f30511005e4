import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { traceReadings } from "../../../src/analysis/pressure/trace-readings.ts";
import { strayOf } from "../../../src/analysis/pressure/trace-samples.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { interval, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const trace = (values: (number | null)[], everyS = 1): Trace => ({
  channel: "massG",
  startS: 100,
  everyS,
  values,
});
const falling = (count: number) => Array.from({ length: count }, (_, i) => 2000 - 0.1 * i);

describe("a trace put together", () => {
  // 1201 samples a second apart: 1199 between the ends, by 21; eleven of each within 5 s of its middle
  test("keeps its first and last sample, and between them means over ten seconds, each of the middle of its share", () => {
    const readings = traceReadings(trace(falling(1201)), 0.5);
    expect(readings).toHaveLength(60);
    expect(readings[0]).toEqual({ atS: 100, value: 2000, u: 0.5 });
    expect(readings.at(-1)).toEqual({ atS: 1300, value: expect.closeTo(1880, 9), u: 0.5 });
    // of the first 21 after it, the middle is 11 s on
    expect(readings[1]?.atS).toBeCloseTo(111, 9);
    expect(readings[1]?.value).toBeCloseTo(2000 - 1.1, 9);
    expect(readings[1]?.u).toBeCloseTo(0.5 / Math.sqrt(11), 9);
    for (const { atS, value } of readings) expect(value).toBeCloseTo(2000 - 0.1 * (atS - 100), 9);
  });

  test("is each of its samples where they are few, its gaps left out", () => {
    const readings = traceReadings(trace([5, null, 4, 3], 30), 0.5);
    expect(readings).toEqual([
      { atS: 100, value: 5, u: 0.5 },
      { atS: 160, value: 4, u: 0.5 },
      { atS: 190, value: 3, u: 0.5 },
    ]);
    expect(traceReadings(trace([null, 7, null]), 0.5)).toEqual([{ atS: 101, value: 7, u: 0.5 }]);
    expect(traceReadings(trace([null]), 0.5)).toEqual([]);
  });

  // second differences of +/- 8 about the fall: 8 / 0.6745 / sqrt(6)
  test("that scatters more than was declared has the error of its scatter, never less than declared", () => {
    const scattered = falling(1201).map((value, i) => value + (i % 2 === 0 ? 2 : -2));
    const u = 8 / 0.6745 / Math.sqrt(6);
    expect(traceReadings(trace(scattered), 0.5)[0]?.u).toBeCloseTo(u, 3);
    expect(traceReadings(trace(scattered), 0.5)[1]?.u).toBeCloseTo(u / Math.sqrt(11), 3);
    expect(traceReadings(trace(scattered), 10)[0]?.u).toBe(10);
  });

  // a metre a sample is no scatter, however coarse: it lies on the line of its neighbours
  test("that falls fast does not scatter", () => {
    expect(strayOf(Array.from({ length: 20 }, (_, i) => -1000 * i))).toBe(0);
    expect(strayOf(Array.from({ length: 11 }, (_, i) => i % 2))).toBeNull();
  });
});

/** A drawn weight of 60 g in ten minutes, even; what a logger reads of it strays by chance, with a seed. */
describe("water drawn, by a logger that scatters more than was declared", () => {
  const DECLARED = 0.5;
  const engine = { ...smallEngine(), instruments: { massReadingG: DECLARED } };
  // her fire is out, so that what she loses is water alone
  const regulator: Entry[] = [
    { kind: "fire", atS: 0, state: "out" },
    { kind: "pressure", atS: 0, barG: 3 },
    { kind: "regulator", atS: 0, state: "open" },
    { kind: "regulator", atS: 600, state: "shut" },
    { kind: "pressure", atS: 600, barG: 3 },
  ];
  const normalOf = (seed: number) => {
    let state = seed;
    const uniform = () => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  };
  const drawn = (times: number, seed: number) => {
    const normal = normalOf(seed);
    const values = Array.from({ length: 601 }, (_, i) => 2000 - 0.1 * i + times * DECLARED * normal());
    const { totals } = analyse(engine, {
      ...smallSteaming(),
      entries: regulator,
      traces: [{ channel: "massG", startS: 0, everyS: 1, values }],
    });
    const figure = totals?.waterDrawn;
    if (figure === undefined || !isMeasured(figure)) throw new Error("no figure");
    return { figure, totals };
  };

  test("runs from the first sample to the last", () => {
    const { totals } = drawn(0, 1);
    expect(totals?.fromS).toBe(0);
    expect(totals?.toS).toBe(600);
    expect(totals?.waterDrawn.value).toBeCloseTo(60, 4);
  });

  test("holds the truth though they stray by eight times what was declared, and says that it is worse", () => {
    const seeds = Array.from({ length: 24 }, (_, i) => 101 + 17 * i);
    const held = seeds.filter((seed) => {
      const [low, high] = interval(drawn(8, seed).figure);
      return low <= 60 && high >= 60;
    });
    // 95 of 100: fewer than 20 of 24 comes once in a hundred times
    expect(held.length).toBeGreaterThanOrEqual(20);
    const [asDeclared, worse] = [1, 8].map((times) => standardUncertainty(drawn(times, 5).figure));
    expect((worse ?? 0) / (asDeclared ?? 1)).toBeGreaterThan(3);
  });
});

test("an engine only weighed has no efficiency: how much water took up the heat is not known", () => {
  const log: Entry[] = [
    { kind: "fire", atS: 0, state: "lit" },
    { kind: "fuel", atS: 0, action: "added", g: 20 },
    { kind: "weight", atS: 0, g: 2000 },
    ...[0, 1, 2, 3].map((barG, i): Entry => ({ kind: "pressure", atS: 200 * i, barG })),
    { kind: "weight", atS: 900, g: 1960 },
    { kind: "fire", atS: 900, state: "out" },
    { kind: "fuel", atS: 910, action: "remaining", g: 5 },
  ];
  const of = (entries: Entry[]) => analyse(smallEngine(), { ...smallSteaming(), entries });
  const weighed = of(log);
  expect(weighed.heat?.efficiency).toEqual({
    value: null,
    why: expect.stringContaining("not how much there was"),
  });
  expect(weighed.raising?.power).toEqual({ value: null, why: expect.stringContaining("filled in") });
  expect(weighed.totals?.waterDrawn.value).not.toBeNull();
  expect(of([{ kind: "fill", atS: 0, ml: 150 }, ...log]).heat?.efficiency.value).not.toBeNull();
});
