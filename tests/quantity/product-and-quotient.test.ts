import { describe, expect, test } from "vitest";
import { interval, type Measured, measured, measuredWithShared } from "../../src/quantity/measured.ts";
import { product, quotient } from "../../src/quantity/product-and-quotient.ts";
import { seededNormal } from "./seeded-normal.ts";

/** A figure that is in doubt by a factor to either side, 95 times in 100. */
const byFactor = (value: number, factor: number): Measured => ({
  ...measured(value, (value * Math.log(factor)) / 1.96, "1", "a factor"),
  range95: [value / factor, value * factor],
});

describe("large factors are put together as logarithms", () => {
  test.each([
    ["product", product, (a: number, b: number) => a * b],
    ["quotient", quotient, (a: number, b: number) => a / b],
  ])("the range of a %s of bells of the logarithm holds 95 of 100 of 20 000 draws", (_, make, model) => {
    const [a, b] = [byFactor(6, 1.8), byFactor(3, 2.2)];
    const [low, high] = interval(make(a, b, "1"));
    const normal = seededNormal(7);
    let [below, above] = [0, 0];
    for (let n = 0; n < 20_000; n++) {
      const drawn = (value: number, factor: number) => value * factor ** (normal() / 1.96);
      const got = model(drawn(6, 1.8), drawn(3, 2.2));
      if (got < low) below += 1;
      if (got > high) above += 1;
    }
    // four standard errors of 2.5 in 100 are 0.44 in 100
    expect(Math.abs(below / 20_000 - 0.025)).toBeLessThan(0.0045);
    expect(Math.abs(above / 20_000 - 0.025)).toBeLessThan(0.0045);
  });

  test("two factors of 2 are one of 2 to the root of two, both ways", () => {
    const [low, high] = interval(product(byFactor(5, 2), byFactor(4, 2), "1"));
    expect(low).toBeCloseTo(20 / 2 ** Math.SQRT2, 9);
    expect(high).toBeCloseTo(20 * 2 ** Math.SQRT2, 9);
  });

  test("of figures below zero the like, mirrored", () => {
    const [low, high] = interval(product(byFactor(5, 2), byFactor(4, 3), "1"));
    const minus = { ...byFactor(5, 2), value: -5, range95: [-10, -2.5] as const };
    const [mirroredLow, mirroredHigh] = interval(product(minus, byFactor(4, 3), "1"));
    expect(mirroredLow).toBeCloseTo(-high, 9);
    expect(mirroredHigh).toBeCloseTo(-low, 9);
  });
});

describe("where a logarithm says nothing more", () => {
  test("small ones are as by straight lines", () => {
    const [low, high] = interval(product(byFactor(5, 1.003), byFactor(4, 1.004), "1"));
    expect(high / 20 - 1).toBeCloseTo(Math.hypot(0.003, 0.004), 4);
    expect(1 - low / 20).toBeCloseTo(Math.hypot(0.003, 0.004), 4);
  });

  test("a range that takes in zero keeps to straight lines", () => {
    const wide: Measured = { ...measured(5, 3, "1", "a reading"), range95: [-1, 12] };
    const [low, high] = interval(product(wide, byFactor(4, 2), "1"));
    expect(low).toBeCloseTo(20 - Math.hypot(24, 10), 9);
    expect(high).toBeCloseTo(20 + Math.hypot(28, 20), 9);
  });

  test("what both owe to one source makes the factors less, as it makes u less", () => {
    const shared = (value: number): Measured => ({
      ...measuredWithShared(value, 0.3 * value, "1", "scale", "scale"),
      range95: [value / 1.8, value * 1.8],
    });
    const [low, high] = interval(quotient(shared(6), shared(3), "1"));
    expect(low).toBeCloseTo(2, 9);
    expect(high).toBeCloseTo(2, 9);
  });
});
