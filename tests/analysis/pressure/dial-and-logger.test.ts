import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { broughtTogether, offsetBetween } from "../../../src/analysis/pressure/offset.ts";
import { meanOver } from "../../../src/analysis/pressure/pressure-over-time.ts";
import { scatterOf } from "../../../src/analysis/pressure/trace-samples.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine = {
  ...smallEngine(),
  instruments: { pressureReadingBar: 0.06, pressureBiasBar: 0.05, levelReadingMm: 0.6 },
};
const steady = (value: number) => Array.from({ length: 121 }, (_, i) => ({ atS: i * 10, value }));
const u = { ofReading: 0.06, ofSample: 0 };
const reads = (...values: number[]) => values.map((value, i) => ({ id: `r${i}`, atS: 100 * (i + 1), value }));
/** a steady 2.5 bar by a logger to 1200 s, and the dial at each hundred */
const steaming = (dial: readonly number[], logged = 2.5) => ({
  ...smallSteaming(),
  entries: dial.map((barG, i): Entry => ({ kind: "pressure", atS: 100 * (i + 1), barG, id: `d${i}` })),
  traces: [
    { channel: "pressureBarG" as const, startS: 0, everyS: 10, values: steady(logged).map((s) => s.value) },
  ],
});
const codes = (dial: readonly number[]) =>
  analyse(engine, steaming(dial)).warnings.filter((warning) => warning.code === "dial-and-logger-differ");

describe("a dial beside a logger", () => {
  // differences 0.1, 0.2, 0.3 bar: mean 0.2; errors 0.06 each: 0.06 / sqrt(3), but they stray by 0.1, so 0.1 / sqrt(3)
  test("what it stood above it is the mean of the pairs, its doubt what they stray by, if that is more than declared", () => {
    const offset = offsetBetween(reads(2.6, 2.7, 2.8), steady(2.5), u);
    expect(offset?.value).toBeCloseTo(0.2, 10);
    expect(offset?.u).toBeCloseTo(0.1 / Math.sqrt(3), 10);
    const close = offsetBetween(reads(2.69, 2.7, 2.71), steady(2.5), u);
    expect(close?.u).toBeCloseTo(0.06 / Math.sqrt(3), 10);
    expect([offset?.df, close?.df]).toEqual([2, Number.POSITIVE_INFINITY]);
    expect(close?.entries).toEqual(["r0", "r1", "r2"]);
  });

  test("a slip of the pen is no bias", () => {
    expect(offsetBetween(reads(2.5, 2.52, 25, 2.48, 2.5), steady(2.5), u)?.value).toBeCloseTo(0, 10);
  });

  // 0.01 bar a second: two seconds off in writing is 0.02 bar, beside 0.06 of the reading
  test("while the pressure rises, the moment of a reading counts too", () => {
    const rising = Array.from({ length: 121 }, (_, i) => ({ atS: i * 10, value: 0.1 * i }));
    const offset = offsetBetween([{ id: "r", atS: 500, value: 5.2 }], rising, u);
    expect(offset?.value).toBeCloseTo(0.2, 6);
    expect(offset?.u).toBeCloseTo(Math.hypot(0.06, 0.02), 6);
  });

  test("nothing is made of readings before the logger, after it, or in a gap", () => {
    const gap = [...steady(2.5).slice(0, 11), ...steady(2.5).slice(40)];
    expect(offsetBetween([{ id: "r", atS: 250, value: 3 }], gap, u)).toBeNull();
    expect(offsetBetween([{ id: "r", atS: 1300, value: 3 }], gap, u)).toBeNull();
  });

  const offset = (value: number, u = 0) => ({ value, u, df: 9, entries: [] });

  test("each is brought half way, and what is left is no less than half the difference", () => {
    expect(broughtTogether(offset(0.08), 0.05)).toEqual({
      lowerReadingsBy: 0.04,
      lowerSamplesBy: -0.04,
      uBias: 0.04,
    });
    expect(broughtTogether(offset(-0.4), 0.05).uBias).toBeCloseTo(0.2, 12);
    expect(broughtTogether(null, 0.05)).toEqual({ lowerReadingsBy: 0, lowerSamplesBy: 0, uBias: 0.05 });
  });

  // the mean of two independent errors of 0.05: 0.05 / root 2
  test("two that plainly err apart are surer together than either", () => {
    expect(broughtTogether(offset(0.06, 0.004), 0.05).uBias).toBeCloseTo(0.05 / Math.SQRT2, 3);
  });

  // alike against apart at no difference: 1 to u over root of 2 x 0.05^2 + u^2, here 0.0566 and so 5.4 % of half the variance less
  test("a logger that goes with the dial may have been set by it: nearly all of its bias is left", () => {
    const { uBias } = broughtTogether(offset(0, 0.004), 0.05);
    expect(uBias).toBeCloseTo(0.05 * Math.sqrt(1 - (0.0565 / 1.0565) * 0.498), 4);
    expect(broughtTogether(offset(0), 0.05).uBias).toBe(0.05);
  });

  test("of a difference that is not known at all, each keeps its own bias", () => {
    expect(broughtTogether(offset(0.01, 5), 0.05).uBias).toBeCloseTo(0.05, 5);
  });

  // as much doubt about the difference as about either bias: a third each, not a half
  test("a difference that is hardly known moves them less", () => {
    expect(broughtTogether({ value: 0.06, u: 0.05, df: 9, entries: [] }, 0.05).lowerReadingsBy).toBeCloseTo(
      0.02,
      12,
    );
  });

  test("the course of pressure is that of both, between them", () => {
    const { pressure, errors } = sourcesOf(engine, steaming(Array(10).fill(2.9)));
    expect(meanOver(pressure, 150, 1000)).toBeCloseTo(2.7, 2);
    expect(errors.pressureBiasBar).toBeCloseTo(0.2, 2);
  });

  test("it is said when it is told apart, with its range and the readings, and not otherwise", () => {
    const [warning, ...others] = codes([2.7, 2.71, 2.69, 2.7, 2.7]);
    expect(others).toEqual([]);
    // 0.06 / sqrt(5) = 0.0268; 1.96 of it: 0.2 +/- 0.053
    expect(warning?.text).toContain(
      "The dial stood 0.20 bar above the logger (0.15 to 0.25, from 5 readings)",
    );
    expect(warning?.entries).toEqual(["d0", "d1", "d2", "d3", "d4"]);
    expect(codes([2.55, 2.51, 2.49, 2.5, 2.52])).toEqual([]);
    expect(codes([2.9])).toEqual([]);
  });

  test("a glass and a level logger likewise, in millimetres", () => {
    const base = steaming([]);
    const { warnings } = analyse(engine, {
      ...base,
      entries: [200, 400, 600, 800].map((atS): Entry => ({ kind: "level", atS, mm: 9 })),
      traces: [{ channel: "levelMm", startS: 0, everyS: 10, values: Array(100).fill(11) }],
    });
    expect(warnings.find(({ code }) => code === "glass-and-logger-differ")?.text).toContain(
      "The glass stood 2.00 mm below the level logger",
    );
  });
});

describe("a logger's own error, from its samples", () => {
  test("of alternating samples: second differences 0.04, of which a normal error shows 0.6745 x sqrt(6) a unit", () => {
    const values = Array.from({ length: 40 }, (_, i) => (i % 2 === 0 ? 1 : 1.02));
    expect(scatterOf(values)).toBeCloseTo(0.04 / 0.6745 / Math.sqrt(6), 6);
  });

  test("is never below that of the rounding, and nothing is said of a few samples", () => {
    expect(scatterOf([...Array(20).fill(1), ...Array(20).fill(1.1)])).toBeCloseTo(0.1 / Math.sqrt(12), 6);
    expect(scatterOf([1, 2, 3])).toBeNull();
  });

  test("a straight rise is no error", () => {
    expect(scatterOf(Array.from({ length: 40 }, (_, i) => 0.25 * i))).toBeLessThanOrEqual(
      0.25 / Math.sqrt(12),
    );
  });
});
