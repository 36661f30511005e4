import { describe, expect, test } from "vitest";
import { decimalsBeside } from "../../src/quantity/digits-beside.ts";
import type { Reported } from "../../src/quantity/reported.ts";

const figure = (value: number, half: number): Reported => ({
  value,
  u: half / 1.96,
  lo95: value - half,
  hi95: value + half,
  unit: "bar",
});
const none: Reported = { value: null, why: "not read" };

describe("decimals of figures that are compared by eye", () => {
  test("are those of the one that is known best", () => {
    expect(decimalsBeside([figure(41, 0.02), figure(40, 3), none])).toBe(2);
    expect(decimalsBeside([figure(40, 3), figure(41, 0.02)])).toBe(2);
  });

  test("are so many that whole per cents between them can be seen", () => {
    expect(decimalsBeside([figure(3.17, 0.2), figure(2.85, 0.3)])).toBe(2);
    expect(decimalsBeside([figure(46, 3), figure(41, 4)])).toBe(1);
    expect(decimalsBeside([figure(317, 20), figure(285, 30)])).toBe(0);
    expect(decimalsBeside([figure(-3.17, 0.2)])).toBe(2);
    expect(decimalsBeside([figure(0, 20)])).toBe(0);
  });

  test("are nobody's where no figure with a range is to be had", () => {
    expect(decimalsBeside([none])).toBeNull();
    expect(decimalsBeside([figure(3, 0)])).toBeNull();
    expect(decimalsBeside([])).toBeNull();
  });
});
