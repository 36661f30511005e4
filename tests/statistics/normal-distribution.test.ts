import { expect, test } from "vitest";
import { normalBelow } from "../../src/statistics/normal-distribution.ts";

test("the normal distribution is as tables have it, in the middle and in the tails", () => {
  expect(normalBelow(0)).toBe(0.5);
  // NIST/SEMATECH e-Handbook 1.3.6.7.1: area from 0 to 1.64, 1.96 and 3.00 (printed digits)
  expect(normalBelow(1.64)).toBeCloseTo(0.5 + 0.4495, 4);
  expect(normalBelow(1.96)).toBeCloseTo(0.5 + 0.475, 4);
  expect(normalBelow(3)).toBeCloseTo(0.5 + 0.49865, 5);
  // Abramowitz & Stegun table 26.2: Q(5) = 2.86652e-7
  expect(normalBelow(-5) / 2.86652e-7).toBeCloseTo(1, 5);
});

test("both halves and both ways of reckoning agree", () => {
  for (const z of [0.1, 1, 2.5, 3.9999, 4.0001, 6]) {
    expect(normalBelow(z) + normalBelow(-z)).toBeCloseTo(1, 13);
  }
  expect(normalBelow(4.0000001) - normalBelow(3.9999999)).toBeCloseTo(2e-7 * 1.3383e-4, 14);
});
