import fc from "fast-check";
import { expect, test } from "vitest";
import {
  gapBetween,
  heldAndNeeded,
  inHundred,
  ofHundred,
  roundedDown,
  roundedUp,
  toDigits,
} from "../../src/sizing/rounding.ts";

test("a need goes up and a capacity down, and what lies on a step stays on it", () => {
  expect(roundedUp(144.02, 0)).toBe(145);
  expect(roundedDown(144.98, 0)).toBe(144);
  expect(roundedUp(0.1 + 0.2, 1)).toBe(0.3);
  expect(roundedDown(0.3 - 1e-12, 1)).toBe(0.3);
  expect(toDigits(169.93, 3, "up")).toBe(170);
  expect(toDigits(169.93, 3, "down")).toBe(169);
  expect(toDigits(16.94, 3, "up")).toBe(17);
  expect(toDigits(1234.5, 3, "down")).toBe(1234);
});

test("what is held and what is needed are never told the wrong way round", () => {
  expect(heldAndNeeded(169.97, 169.93)).toEqual({ held: 169.97, needed: 169.93, decimals: 2 });
  expect(heldAndNeeded(171.2, 169.93)).toEqual({ held: 171, needed: 170, decimals: 0 });
  expect(heldAndNeeded(108.95, 109.04)).toEqual({ held: 108.95, needed: 109.04, decimals: 2 });
  // what is short by a breath alone is still short
  expect(heldAndNeeded(999.9999999, 1000)).toEqual({ held: 999.99, needed: 1000, decimals: 2 });
  const ml = fc.double({ min: 0, max: 1000, noNaN: true });
  fc.assert(
    fc.property(ml, fc.double({ min: -2, max: 2, noNaN: true }), (needed, more) => {
      const held = Math.max(0, needed + more);
      // what differs by less than a billionth of a ml may be told either way
      fc.pre(Math.abs(held - needed) > 1e-8 || held === needed);
      const told = heldAndNeeded(held, needed);
      expect(told.held >= told.needed).toBe(held >= needed);
    }),
  );
});

test("no probability below 1 is told as 100 of 100, and none above 0 as none", () => {
  expect([0.95, 0.999, 0.9985, 0.5].map(inHundred)).toEqual(["95", "99.9", "99.85", "50"]);
  expect([0.9996, 0.994, 0.5, 0.002].map(ofHundred)).toEqual(["more than 99", "99", "50", "fewer than 1"]);
});

test("a gap is the difference of what is printed, and no less than the true one", () => {
  expect(gapBetween(88.4, 162.06)).toBe("75");
  expect(gapBetween(162.3, 162.9)).toBe("0.6");
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 500, noNaN: true }),
      fc.double({ min: 0.01, max: 500, noNaN: true }),
      (held, more) => {
        expect(Number(gapBetween(held, held + more))).toBeGreaterThan(more - 0.006);
      },
    ),
  );
});
