import { describe, expect, test } from "vitest";
import { meanWithin } from "../../src/quantity/mean-within.ts";
import { interval, type Measured, measured, standardUncertainty } from "../../src/quantity/measured.ts";

const of = (value: number, u: number): Measured => measured(value, u, "1", "reading");

describe("a figure that must lie between two ends", () => {
  // half of a bell about 0: mean root(2/pi), standard deviation root(1 - 2/pi)
  test("is the mean of what it can be", () => {
    const half = meanWithin(of(0, 1), 0, 1e6);
    expect(half.value).toBeCloseTo(Math.sqrt(2 / Math.PI), 9);
    expect(standardUncertainty(half)).toBeCloseTo(Math.sqrt(1 - 2 / Math.PI), 9);
    expect(interval(half)[0]).toBe(0);
    expect(interval(half)[1]).toBeCloseTo(1.96, 2);
  });

  test("of which nothing is known between them lies in the middle, by a twelfth of their distance squared", () => {
    const flat = meanWithin(of(0.7, 1000), 0, 1);
    expect(flat.value).toBeCloseTo(0.5, 5);
    expect(standardUncertainty(flat)).toBeCloseTo(1 / Math.sqrt(12), 5);
    expect(interval(flat)).toEqual([0, 1]);
  });

  test("just above the higher end lies below it", () => {
    const cut = meanWithin(of(1.05, 0.1), 0, 1);
    expect(cut.value).toBeLessThan(1);
    expect(interval(cut)[1]).toBe(1);
  });

  test("stays as it is far from both, and where all its range lies beyond", () => {
    expect(meanWithin(of(0.5, 0.05), 0, 1).value).toBeCloseTo(0.5, 12);
    expect(meanWithin(of(0.5, 0.05), 0, 1).range95).toBeUndefined();
    for (const figure of [of(1.3, 0.1), of(-0.5, 0.2), of(0.4, 0)])
      expect(meanWithin(figure, 0, 1)).toBe(figure);
  });
});
