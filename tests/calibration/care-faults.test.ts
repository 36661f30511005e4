import { describe, expect, test } from "vitest";
import { atLeast } from "./binomial.ts";
import { seedsFrom } from "./calibrate.ts";
import { faultsFound, soundUnaccused, together } from "./care-faults.ts";

/**
 * A short gate of what `npm run verify` prints at length, on engines that no method saw before. The bounds are the
 * promises themselves, so a method that falls well short of one gets through by luck less than once in twenty: by the
 * binomial law, which each test reckons.
 */
const LUCK = 0.05;

describe("planted faults in two engines, and none", () => {
  const rows = faultsFound([60_001, 60_002, 60_003]);
  const sound = soundUnaccused(seedsFrom(60_001, 12));

  test("stand first in 70 of 100", () => {
    const { hits, of } = together(rows, "first");
    expect({ of, wanted: Math.ceil(0.7 * of) }).toEqual({ of: 39, wanted: 28 });
    expect(atLeast(28, 39, 0.55)).toBeLessThan(LUCK);
    expect(hits).toBeGreaterThanOrEqual(28);
  });

  test("stand among the first two in 90 of 100", () => {
    const { hits, of } = together(rows, "firstTwo");
    expect({ of, wanted: Math.ceil(0.9 * of) }).toEqual({ of: 39, wanted: 36 });
    expect(atLeast(36, 39, 0.8)).toBeLessThan(LUCK);
    expect(hits).toBeGreaterThanOrEqual(36);
  });

  test("are named with few others beside them", () => {
    const listed = rows.reduce((sum, row) => sum + row.listed, 0);
    expect(listed / 39).toBeLessThan(2);
  });

  test("a sound engine names no suspect in 95 of 100 seasons", () => {
    const { hits, of } = sound;
    expect({ of, wanted: Math.ceil(0.95 * of) }).toEqual({ of: 24, wanted: 23 });
    expect(atLeast(23, 24, 0.8)).toBeLessThan(LUCK);
    expect(hits).toBeGreaterThanOrEqual(23);
  });
});

test("the binomial tail is reckoned right", () => {
  // of three at even chances: one in eight all, seven in eight one or more
  expect(atLeast(3, 3, 0.5)).toBeCloseTo(1 / 8, 12);
  expect(atLeast(1, 3, 0.5)).toBeCloseTo(7 / 8, 12);
  expect(atLeast(0, 40, 0.3)).toBeCloseTo(1, 9);
});
