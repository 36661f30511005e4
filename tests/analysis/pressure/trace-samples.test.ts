import { describe, expect, test } from "vitest";
import { offsetBetween } from "../../../src/analysis/pressure/offset.ts";
import { samplesOf, scatterOf, strayOf } from "../../../src/analysis/pressure/trace-samples.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { smallSteaming } from "../../support/small-logbook.ts";

const timeline = (...traces: Trace[]) => timelineOf({ ...smallSteaming(), traces });
const trace = (
  startS: number,
  values: (number | null)[],
  channel: Trace["channel"] = "pressureBarG",
): Trace => ({
  channel,
  startS,
  everyS: 10,
  values,
});

describe("samples of a channel", () => {
  test("stand at their own times, gaps and other channels left out", () => {
    const of = samplesOf(timeline(trace(5, [1, null, 3]), trace(0, [9], "levelMm")), "pressureBarG");
    expect(of).toEqual([
      { atS: 5, value: 1 },
      { atS: 25, value: 3 },
    ]);
  });

  test("of several traces are put in order of time", () => {
    const of = samplesOf(timeline(trace(100, [3, 4]), trace(0, [1, 2])), "pressureBarG");
    expect(of.map(({ atS, value }) => [atS, value])).toEqual([
      [0, 1],
      [10, 2],
      [100, 3],
      [110, 4],
    ]);
  });
});

describe("how samples scatter", () => {
  test("is told from twelve on", () => {
    const wave = (count: number) => Array.from({ length: count }, (_, i) => i % 2);
    expect(strayOf(wave(11))).toBeNull();
    expect(strayOf(wave(12))).toBeCloseTo(2 / 0.6745 / Math.sqrt(6), 12);
    expect(scatterOf(wave(11))).toBeNull();
  });

  test("a kink or a slip does not count: the median of how they stray", () => {
    const kinked = Array.from({ length: 40 }, (_, i) => (i < 20 ? 0 : 5 * (i - 20)) + (i === 7 ? 90 : 0));
    expect(strayOf(kinked)).toBe(0);
  });

  // steps of 0.25 and 0.5: the least of them is the rounding; a millionth is of binary fractions
  test("is never below that of the least step", () => {
    const stepped = Array.from({ length: 40 }, (_, i) => [0, 0.25, 0.75][Math.floor(i / 14)] ?? 0);
    expect(scatterOf(stepped)).toBeCloseTo(0.25 / Math.sqrt(12), 12);
    expect(scatterOf(Array.from({ length: 40 }, (_, i) => (i === 20 ? 1e-7 : 0)))).toBe(0);
  });
});

/** Hand readings beside a logger that shows 0.01 bar more each second. */
describe("what the samples show at the moment of a reading", () => {
  const rising = (everyS: number, count: number) =>
    Array.from({ length: count }, (_, i) => ({ atS: everyS * i, value: 0.01 * everyS * i }));
  const by = (
    samples: { atS: number; value: number }[],
    atS: number,
    u = { ofReading: 0.06, ofSample: 0.03 },
  ) => offsetBetween([{ id: "r", atS, value: 5 }], samples, u);
  const stamp = 0.02; // two seconds of 0.01 bar

  // seven samples within three seconds either side: 0.03 / sqrt(7)
  test("is their mean where several were taken about then, each within three seconds", () => {
    const found = by(rising(1, 600), 300);
    expect(found?.value).toBeCloseTo(5 - 3, 9);
    expect(found?.u).toBeCloseTo(Math.hypot(0.06, 0.03 / Math.sqrt(7), stamp), 9);
    // between two of them six are that near, and the mean is carried to the moment
    expect(by(rising(1, 600), 300.5)?.value).toBeCloseTo(5 - 3.005, 9);
    expect(by(rising(1, 600), 300.5)?.u).toBeCloseTo(Math.hypot(0.06, 0.03 / Math.sqrt(6), stamp), 9);
    // at the beginning four are on one side only
    expect(by(rising(1, 600), 0)?.value).toBeCloseTo(5, 9);
    expect(by(rising(1, 600), 0)?.u).toBeCloseTo(Math.hypot(0.06, 0.03 / Math.sqrt(4), stamp), 9);
  });

  test("is the straight line between two that are further apart, up to a minute, or the one at that moment", () => {
    expect(by(rising(10, 60), 303)?.value).toBeCloseTo(5 - 3.03, 9);
    expect(by(rising(10, 60), 303)?.u).toBeCloseTo(Math.hypot(0.06, 0.03, stamp), 9);
    expect(by(rising(10, 60), 300)?.value).toBeCloseTo(2, 9);
    expect(by(rising(60, 10), 330)?.value).toBeCloseTo(5 - 3.3, 9);
    expect(by(rising(61, 10), 330)).toBeNull();
    // a sample of that very moment stands, whatever the gap beside it
    expect(by(rising(61, 10), 305)?.value).toBeCloseTo(5 - 3.05, 9);
  });

  test("the pace is that of a quarter of a minute either side", () => {
    // steady until 300 s, then up by 0.04 bar a second
    const kinked = Array.from({ length: 120 }, (_, i) => ({ atS: 5 * i, value: 0.2 * Math.max(0, i - 60) }));
    const u = (atS: number) => by(kinked, atS, { ofReading: 0.06, ofSample: 0 })?.u;
    expect(u(280)).toBeCloseTo(0.06, 9);
    // at 300 s: from 280 s, the last before 285, to 315 s: 0.6 bar in 35 s
    expect(u(300)).toBeCloseTo(Math.hypot(0.06, (2 * 0.6) / 35), 9);
    expect(u(340)).toBeCloseTo(Math.hypot(0.06, 2 * 0.04), 9);
    expect(u(595)).toBeCloseTo(Math.hypot(0.06, 2 * 0.04), 9);
  });

  test("one sample alone has no pace", () => {
    expect(by([{ atS: 300, value: 3 }], 300)?.value).toBe(2);
    expect(by([{ atS: 300, value: 3 }], 300)?.u).toBeCloseTo(Math.hypot(0.06, 0.03), 9);
    expect(by([{ atS: 300, value: 3 }], 301)).toBeNull();
    expect(by([], 301)).toBeNull();
  });
});

describe("of many readings beside a logger", () => {
  const flat = Array.from({ length: 100 }, (_, i) => ({ atS: 10 * i, value: 2 }));
  const u = { ofReading: 0.1, ofSample: 0 };
  const reads = (...values: number[]) =>
    values.map((value, i) => ({ id: `r${i}`, atS: 100 + 50 * i, value }));

  test("what lies beyond five uncertainties of the median is a slip: 0.5 bar here", () => {
    expect(offsetBetween(reads(2, 2, 2, 2.49), flat, u)?.entries).toHaveLength(4);
    expect(offsetBetween(reads(2, 2, 2, 2.51), flat, u)?.entries).toEqual(["r0", "r1", "r2"]);
  });

  test("of two that lie that far apart nobody knows which is the slip", () => {
    expect(offsetBetween(reads(2, 9), flat, u)).toBeNull();
  });

  // median of four: half way between the middle two
  test("the median of an even number lies between the two in the middle", () => {
    expect(offsetBetween(reads(2, 2.4, 2.6, 2.69), flat, u)?.entries).toHaveLength(4);
    expect(offsetBetween(reads(1.98, 2.4, 2.6, 2.69), flat, u)?.entries).toEqual(["r1", "r2", "r3"]);
  });
});
