import { describe, expect, test } from "vitest";
import { LEAKS_UNSEEN, type LeakThought, leaksUpTo } from "../../src/analysis/leak-thought.ts";
import { rangeOf } from "../../src/analysis/weighed-ways.ts";

const lumps = (leaks: readonly LeakThought[]) => {
  const total = leaks.reduce((sum, { weight }) => sum + weight, 0);
  return leaks.map(({ size, doubt, weight }) => ({ value: size, u: doubt, weight: weight / total }));
};
const mean = (leaks: readonly LeakThought[], of: (leak: LeakThought) => number) =>
  leaks.reduce((sum, leak) => sum + leak.weight * of(leak), 0) /
  leaks.reduce((sum, { weight }) => sum + weight, 0);

describe("what a leak nobody saw is thought to be", () => {
  test("two in three between a fifteenth and a third of the heat through the surface, one in a hundred as much as that", () => {
    const [low, high] = rangeOf(lumps(LEAKS_UNSEEN), 0, 2 / 3);
    expect(low).toBeGreaterThan(0.055);
    expect(low).toBeLessThan(0.075);
    expect(high).toBeGreaterThan(0.28);
    expect(high).toBeLessThan(0.37);
    const [, seldom] = rangeOf(lumps(LEAKS_UNSEEN), 0, 0.98);
    expect(seldom).toBeGreaterThan(0.8);
    expect(seldom).toBeLessThan(1.2);
  });

  test("never below none, but for one in a hundred that the normals of its sizes leave there", () => {
    expect(rangeOf(lumps(LEAKS_UNSEEN), 0, 0.98)[0]).toBeGreaterThan(0);
  });

  test("more of it steam than water, at any size", () => {
    for (const leaks of [LEAKS_UNSEEN, leaksUpTo(0.5), LEAKS_UNSEEN.filter(({ size }) => size > 1)])
      expect(mean(leaks, ({ steam }) => steam)).toBeCloseTo(0.625, 9);
  });

  // of all the heat an eighth, three, five and seven eighths of 0.8: 0.1 of it beside 0.9 through the surface, and so on
  test("up to a known most of all the heat, any alike likely", () => {
    const leaks = leaksUpTo(0.8);
    const sizes = [0.1 / 0.9, 0.3 / 0.7, 0.5 / 0.5, 0.7 / 0.3];
    expect([...new Set(leaks.map(({ size }) => size))]).toEqual(sizes.map((size) => expect.closeTo(size, 9)));
    for (const size of sizes)
      expect(mean(leaks, (leak) => (Math.abs(leak.size - size) < 1e-9 ? 1 : 0))).toBeCloseTo(0.25, 9);
    // a fifth of all the heat over the root of 12, where half of it leaks: four times as much of what is left
    expect(leaks.find(({ size }) => Math.abs(size - 1) < 1e-9)?.doubt).toBeCloseTo(
      (4 * 0.2) / Math.sqrt(12),
      9,
    );
  });
});
