import { describe, expect, test } from "vitest";
import { condensed } from "../../../src/analysis/water/condense.ts";
import type { MassReading } from "../../../src/analysis/water/mass-reading.ts";
import { balanceInput, rateWithin, reading } from "./balance-by-hand.ts";

const evenly = (count: number, more: (i: number) => Partial<MassReading> = () => ({})) =>
  Array.from({ length: count }, (_, i) => reading(10 * i, 1000 - i, more(i)));
/** Which readings came together: those whose own number moves the mean of a group. */
function groupsOf(readings: readonly MassReading[], effects = [rateWithin(0, 1e6)]): number[][] {
  const together = condensed(balanceInput(readings, { effects }), new Float64Array(readings.length).fill(1));
  const shares = readings.map((_, i) =>
    together.mean(Float64Array.from(readings, (__, j) => (i === j ? 1 : 0))),
  );
  return Array.from(together.noise, (__, g) =>
    readings.flatMap((_, i) => ((shares[i]?.[g] ?? 0) > 0 ? [i] : [])),
  );
}

describe("readings put together with their neighbours", () => {
  test("up to twenty stay by themselves", () => {
    expect(groupsOf(evenly(20))).toEqual(Array.from({ length: 20 }, (_, i) => [i]));
  });

  test("from there on two by two, the first and the last apart", () => {
    const pairs = Array.from({ length: 11 }, (_, i) => [2 * i + 1, 2 * i + 2]);
    expect(groupsOf(evenly(24))).toEqual([[0], ...pairs, [23]]);
    expect(groupsOf(evenly(25))).toEqual([[0], ...pairs, [23], [24]]);
    expect(groupsOf(evenly(41)).slice(0, 3)).toEqual([[0], [1, 2, 3], [4, 5, 6]]);
    expect(groupsOf(evenly(41)).slice(-2)).toEqual([[37, 38, 39], [40]]);
  });

  test("never across the beginning or end of a steady part of the demand", () => {
    // readings 3 and 4 stand at 30 and 40 s: what begins at the later of them lies between, what begins at the earlier does not
    const from = (atS: number) => groupsOf(evenly(24), [rateWithin(atS, 1e6)]).slice(2, 4);
    expect(from(35)).toEqual([[3], [4, 5]]);
    expect(from(40)).toEqual([[3], [4, 5]]);
    expect(from(30)).toEqual([
      [3, 4],
      [5, 6],
    ]);
    expect(groupsOf(evenly(24), [rateWithin(-1, 55)]).slice(2, 5)).toEqual([[3, 4], [5], [6, 7]]);
  });

  test("never a level with a weighing", () => {
    const mixed = evenly(24, (i) => ({ of: i < 8 ? "contents" : "whole engine" }));
    expect(groupsOf(mixed).slice(3, 6)).toEqual([[5, 6], [7], [8, 9]]);
  });

  // weights as 1/u2: of variances 1 and 1/4 they are 0.2 and 0.8, and the mean's variance is 1/(1 + 4)
  test("by the weights of their errors", () => {
    const readings = evenly(24);
    const noise = Float64Array.from(readings, (_, i) => (i % 2 === 0 ? 0.25 : 1));
    const { mean, noise: left } = condensed(balanceInput(readings), noise);
    expect(mean(Float64Array.from(readings, (_, i) => i))[1]).toBeCloseTo(0.2 * 1 + 0.8 * 2, 12);
    expect(left[1]).toBeCloseTo(0.2, 12);
    expect([left[0], left.at(-1)]).toEqual([0.25, 1]);
  });
});
