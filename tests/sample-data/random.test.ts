import { describe, expect, it } from "vitest";
import { randomOf, wanderingFactor } from "../../sample-data/simulator/random.ts";

/**
 * Bounds are five standard deviations of the statistic itself, with the seed fixed: a right generator would
 * pass any seed but about one in two million.
 */
const N = 100_000;
const mean = (values: readonly number[]) => values.reduce((sum, x) => sum + x, 0) / values.length;
const drawn = (draw: () => number, n = N) => Array.from({ length: n }, draw);

describe("chance", () => {
  it("gives the same numbers for the same seed and stream, others for another seed or stream", () => {
    const first = drawn(randomOf(7, "fire").uniform, 50);
    expect(drawn(randomOf(7, "fire").uniform, 50)).toEqual(first);
    expect(drawn(randomOf(8, "fire").uniform, 50)).not.toEqual(first);
    expect(drawn(randomOf(7, "feed").uniform, 50)).not.toEqual(first);
  });

  it("draws evenly between 0 and 1: chi-square over 100 cells", () => {
    const cells = new Array<number>(100).fill(0);
    for (const x of drawn(randomOf(1, "even").uniform)) {
      const cell = Math.floor(x * 100);
      cells[cell] = (cells[cell] ?? 0) + 1;
    }
    const chiSquare = cells.reduce((sum, count) => sum + (count - N / 100) ** 2 / (N / 100), 0);
    // 99 degrees of freedom: mean 99, variance 198
    expect(Math.abs(chiSquare - 99)).toBeLessThan(5 * Math.sqrt(198));
  });

  it("draws neighbouring numbers and neighbouring seeds without correlation", () => {
    const values = drawn(randomOf(2, "serial").uniform).map((x) => (x - 0.5) * Math.sqrt(12));
    const serial = mean(values.slice(1).map((x, i) => x * (values[i] ?? 0)));
    expect(Math.abs(serial)).toBeLessThan(5 / Math.sqrt(N));
    const bySeed = Array.from({ length: 20_000 }, (_, seed) => randomOf(seed, "s").uniform() - 0.5);
    const acrossSeeds = mean(bySeed.slice(1).map((x, i) => x * (bySeed[i] ?? 0) * 12));
    expect(Math.abs(acrossSeeds)).toBeLessThan(5 / Math.sqrt(20_000));
  });

  it("draws normals of mean 0, variance 1 and fourth moment 3", () => {
    const values = drawn(randomOf(3, "normal").normal);
    expect(Math.abs(mean(values))).toBeLessThan(5 / Math.sqrt(N));
    expect(Math.abs(mean(values.map((x) => x ** 2)) - 1)).toBeLessThan(5 * Math.sqrt(2 / N));
    // variance of x^4 is 105 - 9
    expect(Math.abs(mean(values.map((x) => x ** 4)) - 3)).toBeLessThan(5 * Math.sqrt(96 / N));
  });

  it("wanders about 1 with the stated spread and correlation time, whatever the step", () => {
    const [sd, tauS, spells] = [0.15, 60, 4000];
    for (const dtS of [0.5, 20]) {
      const starts: number[] = [];
      const products: number[] = [];
      for (let seed = 0; seed < spells; seed += 1) {
        const step = wanderingFactor({ relativeSd: sd, correlationS: tauS }, randomOf(seed, "wander"));
        const first = Math.log(step(dtS)) + sd ** 2 / 2;
        let last = first;
        for (let s = 0; s < tauS; s += dtS) last = Math.log(step(dtS)) + sd ** 2 / 2;
        starts.push(first / sd);
        products.push((first * last) / sd ** 2);
      }
      expect(Math.abs(mean(starts))).toBeLessThan(5 / Math.sqrt(spells));
      expect(Math.abs(mean(starts.map((x) => x ** 2)) - 1)).toBeLessThan(5 * Math.sqrt(2 / spells));
      // one correlation time apart: 1/e; the product's variance is 1 + 1/e^2
      expect(Math.abs(mean(products) - Math.exp(-1))).toBeLessThan(5 * Math.sqrt(1.136 / spells));
    }
  });

  it("refuses a seed that is not a whole number", () => {
    expect(() => randomOf(0.5, "x")).toThrow(/whole number/);
  });
});
