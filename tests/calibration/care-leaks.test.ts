import { describe, expect, test } from "vitest";
import { seedsFrom } from "./calibrate.ts";
import {
  attendedInTime,
  falselyAttended,
  forecastsHeld,
  percentOf,
  steadyAttended,
  toldApart,
} from "./care-leaks.ts";

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
    expect(percentOf(falselyAttended(seedsFrom(FIRST, 100), "catches"))).toBeLessThan(2);
    expect(percentOf(falselyAttended(seedsFrom(FIRST, 300), "looks"))).toBeLessThan(2);
  });

  test("and so in the first life that is logged of it, begun at an age that nobody knows", () => {
    expect(percentOf(attendedInTime(seedsFrom(FIRST, 200), "first"))).toBeGreaterThanOrEqual(95);
    expect(percentOf(falselyAttended(seedsFrom(FIRST, 300), "catches", "first"))).toBeLessThan(2);
    expect(percentOf(falselyAttended(seedsFrom(FIRST, 300), "looks", "first"))).toBeLessThan(2);
    const { held80 } = forecastsHeld(seedsFrom(FIRST, 600), () => true, "first");
    expect(percentOf(held80)).toBeGreaterThan(75);
    expect(percentOf(held80)).toBeLessThan(85);
  });

  test("a leak that stays at 0.8 of its limit is attend in fewer than 5 of 100 seasons", () => {
    expect(percentOf(steadyAttended(seedsFrom(FIRST, 300), 0.8))).toBeLessThan(5);
  });

  // of some 550 forecasts that hold 80 times in 100 the share strays by 1.7 % (binomial): 75 and 85 stand 2.9 of it off,
  // so a true 80 fails 4 times in 1000 draws of seeds, and a true 70 or 90 passes about as seldom
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
