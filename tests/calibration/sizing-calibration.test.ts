import { describe, expect, test } from "vitest";
import { binned, futuresOf } from "./sizing-futures.ts";

/**
 * 1000 simulated futures that the method was not built on. `npm run verify` prints the same over more. A tank that
 * suffices 95 times in 100 is found outside 93 to 97 % about 4 times in 1000 such sets (binomial, sd 0.69 %).
 */
const futures = futuresOf(40_001, 1000);

describe("over 1000 simulated futures", () => {
  test("a tank made to the 95 % bound suffices in 93 to 97 of 100", () => {
    const share = futures.filter(({ suffices }) => suffices).length / futures.length;
    expect(share).toBeGreaterThanOrEqual(0.93);
    expect(share).toBeLessThanOrEqual(0.97);
  });

  test("and is not made safe by being huge: half are less than 1.4 times what was drawn", () => {
    const over = futures.map(({ roomOverNeed }) => roomOverNeed).sort((a, b) => a - b);
    expect(over[500]).toBeLessThan(1.4);
  });

  /** A bin of 100 has a standard error of up to 5 points: three bins of a third keep it under 3. */
  test.each([
    ["which ends first", futures.map(({ fuelFirst }) => fuelFirst)],
    ["whether the water lasts", futures.map(({ waterLasts }) => waterLasts)],
  ])("said probabilities of %s come true within 5 points", (_, pairs) => {
    const whole = pairs.reduce((sum, { said, came }) => sum + said - Number(came), 0) / pairs.length;
    expect(Math.abs(whole)).toBeLessThan(0.03);
    const bins = binned(pairs);
    const thirds = [bins.slice(0, 1), bins.slice(1, 4), bins.slice(4)];
    for (const third of thirds) {
      const count = third.reduce((sum, bin) => sum + bin.count, 0);
      const miss = third.reduce((sum, bin) => sum + bin.count * (bin.said - bin.came), 0) / count;
      expect(count).toBeGreaterThan(150);
      expect(Math.abs(miss)).toBeLessThan(0.05);
    }
  });
});
