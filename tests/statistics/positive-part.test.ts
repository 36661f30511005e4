import { describe, expect, test } from "vitest";
import { positivePart } from "../../src/statistics/positive-part.ts";

describe("what lies above 0 of a normal variable", () => {
  // the greater of two normals alike, of sd 1: mean 1/root(pi), variance 1 - 1/pi (closed form). B + (A - B)+, of which
  // B and half of the difference A - B, of sd root 2, move it along a straight line: variance 1/2
  test("makes the greater of two alike", () => {
    const { mean, share, uBent } = positivePart(0, Math.SQRT2);
    expect(mean).toBeCloseTo(1 / Math.sqrt(Math.PI), 12);
    expect(share).toBeCloseTo(0.5, 12);
    expect(uBent ** 2 + 0.5).toBeCloseTo(1 - 1 / Math.PI, 12);
  });

  // E max(X, 0) of X with mean 1 and sd 2: Phi(0.5) + 2 phi(0.5) = 0.691462 + 0.704131
  test("is more than the mean, the nearer to 0 the more", () => {
    const near = positivePart(1, 2);
    expect(near.mean).toBeCloseTo(0.691462 + 0.704131, 5);
    expect(near.share).toBeCloseTo(0.691462, 6);
    // second moment (1 + 4) Phi + 2 phi = 3.457310 + 0.704131 less the squares of the mean and of 2 Phi
    expect(near.uBent ** 2).toBeCloseTo(4.161441 - 1.395593 ** 2 - 1.382924 ** 2, 4);
  });

  test("far above it is the variable, far below it nothing", () => {
    expect(positivePart(2, 0.1)).toEqual({ mean: 2, share: 1, uBent: expect.closeTo(0, 6) });
    expect(positivePart(-2, 0.1)).toEqual({
      mean: expect.closeTo(0, 12),
      share: expect.closeTo(0, 12),
      uBent: expect.closeTo(0, 6),
    });
  });

  test("of a constant is that constant, or nothing; of no sense is an error", () => {
    expect(positivePart(2, 0)).toEqual({ mean: 2, share: 1, uBent: 0 });
    expect(positivePart(-2, 0)).toEqual({ mean: 0, share: 0, uBent: 0 });
    expect(() => positivePart(0, -1)).toThrow("sd -1, permitted 0 or more");
  });
});
