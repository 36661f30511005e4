import { describe, expect, test } from "vitest";
import { greaterOfNormals } from "../../src/statistics/greater-of-normals.ts";

describe("the greater of two normals", () => {
  // known in closed form: mean 1/root(pi), variance 1 - 1/pi
  test("of two alike", () => {
    const { mean, sd } = greaterOfNormals({ mean: 0, sd: 1 }, { mean: 0, sd: 1 });
    expect(mean).toBeCloseTo(1 / Math.sqrt(Math.PI), 10);
    expect(sd ** 2).toBeCloseTo(1 - 1 / Math.PI, 10);
  });

  test("of two far apart is the higher one", () => {
    const { mean, sd } = greaterOfNormals({ mean: 3, sd: 0.1 }, { mean: 1, sd: 0.2 });
    expect(mean).toBeCloseTo(3, 9);
    expect(sd).toBeCloseTo(0.1, 6);
  });

  // E max(X, 0) of X with mean 1 and sd 2: Phi(0.5) + 2 phi(0.5) = 0.691462 + 0.704131
  test("of one and a constant", () => {
    expect(greaterOfNormals({ mean: 1, sd: 2 }, { mean: 0, sd: 0 }).mean).toBeCloseTo(0.691462 + 0.704131, 5);
  });

  test("of two constants, and of no sense", () => {
    expect(greaterOfNormals({ mean: 1, sd: 0 }, { mean: 2, sd: 0 })).toEqual({ mean: 2, sd: 0 });
    expect(() => greaterOfNormals({ mean: 1, sd: -1 }, { mean: 2, sd: 0 })).toThrow(RangeError);
  });
});
