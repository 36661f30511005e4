import { expect, test } from "vitest";
import { normalBelow, normalDensity } from "../../src/statistics/normal-distribution.ts";

test("the normal distribution is as tables have it, in the middle and in the tails", () => {
  expect(normalBelow(0)).toBeCloseTo(0.5, 14);
  // NIST/SEMATECH e-Handbook 1.3.6.7.1: area from 0 to 1.64, 1.96 and 3.00 (printed digits)
  expect(normalBelow(1.64)).toBeCloseTo(0.5 + 0.4495, 4);
  expect(normalBelow(1.96)).toBeCloseTo(0.5 + 0.475, 4);
  expect(normalBelow(3)).toBeCloseTo(0.5 + 0.49865, 5);
  // Abramowitz & Stegun table 26.2: Q(5) = 2.86652e-7
  expect(normalBelow(-5) / 2.86652e-7).toBeCloseTo(1, 5);
});

test("it agrees with the series about 0 (Abramowitz & Stegun 26.2.11) to 13 digits", () => {
  for (const z of [0.05, 0.5, 1, 1.7, 2.5, 3.3, 4, 5]) {
    let [term, total] = [z, z];
    for (let k = 1; k < 200; k++) {
      term *= (z * z) / (2 * k + 1);
      total += term;
    }
    expect(normalBelow(z)).toBeCloseTo(0.5 + normalDensity(z) * total, 13);
    expect(normalBelow(z) + normalBelow(-z)).toBeCloseTo(1, 14);
  }
});

test("far out it comes to 0 and 1, and what is no number is refused", () => {
  expect([normalBelow(-40), normalBelow(40)]).toEqual([0, 1]);
  expect(() => normalBelow(Number.NaN)).toThrow("z is NaN");
});
