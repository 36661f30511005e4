import { describe, expect, test } from "vitest";
import { cooledExcessK, lossMeasure, STILL_AIR_POWER } from "../../src/boiler/surface-loss.ts";

describe("the law of loss in still air", () => {
  test("goes with the power 1.25 of the excess over the air, and is nothing below it", () => {
    expect(STILL_AIR_POWER).toBe(1.25);
    expect(lossMeasure(373, 292)).toBeCloseTo(81 ** 1.25, 9); // 81^1.25 = 243: 81 is 3^4
    expect(lossMeasure(373, 292)).toBeCloseTo(243, 9);
    expect(lossMeasure(290, 292)).toBe(0);
    expect(lossMeasure(302, 292, 2)).toBeCloseTo(100, 9);
  });

  // 81 K, rate 4/3 per 1000 s: 81^-0.25 = 1/3; 1/3 + 0.25 x 0.001333 x 500 = 1/3 + 1/6 = 1/2; 2^4 = 16
  test("closed cooling curve by hand", () => {
    expect(cooledExcessK(81, 4 / 3000, 500)).toBeCloseTo(16, 9);
    expect(cooledExcessK(81, 4 / 3000, 0)).toBeCloseTo(81, 9);
  });

  test("closed cooling curve obeys the law it comes from", () => {
    const rate = 2e-4;
    const at = (seconds: number) => cooledExcessK(120, rate, seconds);
    const slope = (at(600.5) - at(599.5)) / 1;
    expect(slope).toBeCloseTo(-rate * at(600) ** 1.25, 8);
  });

  test("refuses a power of one and a body no warmer than the air", () => {
    expect(() => cooledExcessK(80, 1, 1, 1)).toThrow(RangeError);
    expect(() => cooledExcessK(0, 1, 1)).toThrow(RangeError);
  });
});
