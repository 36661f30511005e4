import { describe, expect, test } from "vitest";
import { seedsFrom } from "./calibrate.ts";
import { attendedInTime, falselyAttended, forecastsHeld, percentOf, toldApart } from "./care-leaks.ts";

/**
 * A short gate of what `npm run verify` prints at length, on seasons the method was not built on. Bounds are the
 * promises themselves.
 */
const FIRST = 50_001;

describe("the Fitter's book on simulated seasons", () => {
  test("a gland that grows to its limit in 10 to 40 h is attend before 1.25 of it in 95 of 100", () => {
    expect(percentOf(attendedInTime(seedsFrom(FIRST, 60)))).toBeGreaterThanOrEqual(95);
  });

  test("a sound fitting is attend in fewer than 2 of 100 seasons", () => {
    expect(percentOf(falselyAttended(seedsFrom(FIRST, 100), "catches"))).toBeLessThanOrEqual(2);
    expect(percentOf(falselyAttended(seedsFrom(FIRST, 300), "looks"))).toBeLessThanOrEqual(2);
  });

  test("the 80 % interval of hours to the limit holds the truth about 80 times in 100", () => {
    const { held80, given } = forecastsHeld(seedsFrom(FIRST, 600));
    expect(percentOf(held80)).toBeGreaterThan(75);
    expect(percentOf(held80)).toBeLessThan(85);
    expect(percentOf(given)).toBeGreaterThan(80);
  });

  test("a true repack is told apart within four steamings, a mock one is not", () => {
    expect(percentOf(toldApart(seedsFrom(FIRST, 200), "true"))).toBeGreaterThanOrEqual(90);
    expect(percentOf(toldApart(seedsFrom(FIRST, 300), "mock"))).toBeLessThan(6);
  });
});
