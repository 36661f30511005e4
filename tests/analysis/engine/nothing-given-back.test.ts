import { describe, expect, test } from "vitest";
import { randomOf } from "../../../sample-data/simulator/random.ts";
import { nothingGivenBack } from "../../../src/analysis/engine/nothing-given-back.ts";
import { measured, standardUncertainty } from "../../../src/quantity/measured.ts";

const grams = (value: number, u: number) => measured(value, u, "g", "readings");

describe("what the engine drew beside a safety valve", () => {
  test("stays as it is where the valve plainly took some", () => {
    const engine = nothingGivenBack(grams(40, 1), grams(50, 1), grams(90, 1));
    expect(engine.value).toBeCloseTo(40, 0);
    expect(standardUncertainty(engine)).toBeCloseTo(1, 6);
  });

  // 57 g in all, known well; 124 by the time clear of the valve, give or take 40: no more than all of it was hers
  test("is no more than all that was drawn", () => {
    const engine = nothingGivenBack(grams(124, 40), grams(-67, 40), grams(57, 1));
    expect(engine.value).toBeGreaterThan(20);
    expect(engine.value).toBeLessThan(57);
    expect(standardUncertainty(engine)).toBeLessThan(40);
  });

  // of 100 g a valve takes a fifth, as an exponential strays; the engine's share is told by the clear time to 20 g, all to 2 g
  test("of many runs its mean and its u are just", () => {
    const random = randomOf(1, "valves beside an engine");
    const misses = Array.from({ length: 2000 }, () => {
      const engineG = 100 + 20 * Math.log(1 - (1 - Math.exp(-5)) * random.uniform());
      const [byClearG, allG] = [engineG + 20 * random.normal(), 100 + 2 * random.normal()];
      const others = grams(allG - byClearG, Math.hypot(20, 2));
      const told = nothingGivenBack(grams(byClearG, 20), others, grams(allG, 2));
      return (told.value - engineG) / standardUncertainty(told);
    });
    const mean = misses.reduce((a, b) => a + b, 0) / misses.length;
    const spread = Math.sqrt(misses.reduce((sum, miss) => sum + (miss - mean) ** 2, 0) / misses.length);
    expect(Math.abs(mean)).toBeLessThan(0.15);
    expect(spread).toBeGreaterThan(0.7);
    expect(spread).toBeLessThan(1.2);
  });
});
