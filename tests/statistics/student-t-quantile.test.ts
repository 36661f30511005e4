import byLibrary from "@stdlib/stats-base-dists-t-quantile";
import { expect, test } from "vitest";
import { studentTQuantile } from "../../src/statistics/student-t-quantile.ts";

const probabilities = [0.5005, 0.6, 0.75, 0.9, 0.95, 0.975, 0.995, 0.99995];
const degrees = [0.3, 1, 1.3, 2, 2.7, 3, 5, 8.5, 17, 30, 59.9, 100, 1000, 12_345.6, 1e6];

/** Relative; both are worked out in double precision, by different ways. */
const CLOSE = 1e-10;

test.each(degrees)("at %d degrees of freedom the quantiles are those of an independent library", (n) => {
  for (const p of probabilities) {
    expect(Math.abs(studentTQuantile(p, n) / byLibrary(p, n) - 1), `p ${p}`).toBeLessThan(CLOSE);
  }
});

test.each(probabilities)("at probability %d one and two degrees of freedom have their closed forms", (p) => {
  const one = Math.tan(Math.PI * (p - 0.5));
  const two = (2 * p - 1) / Math.sqrt(2 * p * (1 - p));
  expect(Math.abs(studentTQuantile(p, 1) / one - 1)).toBeLessThan(CLOSE);
  expect(Math.abs(studentTQuantile(p, 2) / two - 1)).toBeLessThan(CLOSE);
});

test("what is no probability above a half, or no degrees of freedom, is refused by name", () => {
  expect(() => studentTQuantile(0.5, 3)).toThrow("probability 0.5");
  expect(() => studentTQuantile(1, 3)).toThrow("probability 1");
  expect(() => studentTQuantile(0.9, 0)).toThrow("0 degrees of freedom");
});
