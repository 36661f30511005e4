import { expect, test } from "vitest";
import { chiSquaredBelow } from "../../src/statistics/chi-squared.ts";
import { normalBelow } from "../../src/statistics/normal-distribution.ts";

const xs = [1e-6, 0.02, 0.4, 1, 2.5, 3.9, 4.1, 9, 40];

test.each(xs)("at %d one, two and four degrees of freedom have their closed forms", (x) => {
  const half = x / 2;
  expect(chiSquaredBelow(x, 1)).toBeCloseTo(2 * normalBelow(Math.sqrt(x)) - 1, 12);
  expect(chiSquaredBelow(x, 2)).toBeCloseTo(-Math.expm1(-half), 12);
  expect(chiSquaredBelow(x, 4)).toBeCloseTo(1 - Math.exp(-half) * (1 + half), 12);
});

test("has the tabled 95 % points", () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: upper critical values, 3 decimals
  for (const [n, x] of [
    [3, 7.815],
    [11, 19.675],
    [50, 67.505],
    [100, 124.342],
  ] as const) {
    expect(chiSquaredBelow(x, n), `${n}`).toBeCloseTo(0.95, 4);
  }
});

test("degrees of freedom between whole ones lie between them; the ends are 0 and 1", () => {
  for (const x of xs.slice(2, -1)) {
    expect(chiSquaredBelow(x, 2.4)).toBeLessThan(chiSquaredBelow(x, 2));
    expect(chiSquaredBelow(x, 2.4)).toBeGreaterThan(chiSquaredBelow(x, 3));
  }
  expect(chiSquaredBelow(0, 3)).toBe(0);
  expect(chiSquaredBelow(Number.POSITIVE_INFINITY, 3)).toBe(1);
  expect(() => chiSquaredBelow(1, 0)).toThrow("0 degrees of freedom");
});
