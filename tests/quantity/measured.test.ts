import { describe, expect, test } from "vitest";
import {
  combined,
  degreesOfFreedom,
  difference,
  exact,
  gathered,
  interval,
  type Measured,
  measured,
  measuredWithShared,
  scaled,
  standardUncertainty,
  sum,
} from "../../src/quantity/measured.ts";
import { product, quotient } from "../../src/quantity/product-and-quotient.ts";
import { seededNormal } from "./seeded-normal.ts";

/** A figure with a random part of its own and a part that stands behind others too. */
const withBoth = (value: number, randomU: number, sharedU: number, unit = "g"): Measured => ({
  value,
  unit,
  parts: [
    { name: "reading", u: randomU },
    { name: "scale", u: sharedU, source: "scale" },
  ],
});

describe("parts", () => {
  test("random parts add in quadrature, whatever their names", () => {
    const made = sum(measured(1, 3, "g", "one"), measured(1, 4, "g", "other"));
    expect(standardUncertainty(made)).toBeCloseTo(5, 12);
    expect(standardUncertainty(sum(measured(1, 3, "g", "same"), measured(1, 4, "g", "same")))).toBeCloseTo(
      5,
      12,
    );
  });

  test("parts of one source add as numbers, and averaging does not shrink them", () => {
    const readings = Array.from({ length: 100 }, () => withBoth(50, 1, 0.5));
    const mean = combined(
      50,
      "g",
      readings.map((reading) => [reading, 1 / 100] as const),
    );
    expect(standardUncertainty(mean)).toBeCloseTo(Math.hypot(0.1, 0.5), 12);
  });

  test("a difference is free of what its sides owe to one source, and of nothing else", () => {
    expect(standardUncertainty(difference(withBoth(60, 3, 0.5), withBoth(50, 4, 0.5)))).toBeCloseTo(5, 12);
    const otherScale = measuredWithShared(50, 0.5, "g", "scale", "another scale");
    const made = difference(measuredWithShared(60, 0.5, "g", "scale", "scale"), otherScale);
    expect(standardUncertainty(made)).toBeCloseTo(0.5 * Math.SQRT2, 12);
  });

  test("a source may act in opposite senses: then a sum is free of it", () => {
    const made = sum(withBoth(60, 3, 0.5), withBoth(50, 4, -0.5));
    expect(standardUncertainty(made)).toBeCloseTo(5, 12);
    expect(gathered(made.parts).map((part) => part.name)).toEqual(["reading"]);
  });

  test("the order of combining does not matter", () => {
    const [a, b, c] = [withBoth(3, 0.1, 0.2), withBoth(5, 0.2, -0.1), withBoth(7, 0.3, 0.3)];
    const [left, right] = [sum(sum(a, b), c), sum(a, sum(b, c))];
    expect(standardUncertainty(left)).toBeCloseTo(standardUncertainty(right), 12);
  });

  test("degrees of freedom come through a sum step by step as they do at once", () => {
    const [a, b, c] = [4, 7, 9].map(
      (df, i): Measured => ({ value: 1, unit: "g", parts: [{ name: "same", u: i + 1, df }] }),
    );
    if (a === undefined || b === undefined || c === undefined) throw new Error("three figures were made");
    const u4 = 14 ** 2;
    expect(degreesOfFreedom(sum(sum(a, b), c))).toBeCloseTo(u4 / (1 / 4 + 16 / 7 + 81 / 9), 9);
  });

  test("without samples the interval is the normal's, without error it is the value alone", () => {
    const [low, high] = interval(measured(10, 1, "g", "reading"));
    expect([low, high]).toEqual([expect.closeTo(8.04004, 4), expect.closeTo(11.95996, 4)]);
    expect(interval(exact(10, "g"))).toEqual([10, 10]);
  });
});

describe("what cannot be", () => {
  test.each([-1, Number.NaN])("a u of %d is refused, not taken for none", (u) => {
    expect(() => measured(1, u, "g", "reading")).toThrow(/u of reading is .*, permitted 0 or more/);
    expect(() => measuredWithShared(1, u, "g", "scale", "scale")).toThrow(RangeError);
  });

  test("a u of 0 is no part", () => expect(measured(1, 0, "g", "reading").parts).toEqual([]));

  test("unlike units do not add", () => {
    expect(() => sum(exact(1, "g"), exact(1, "ml"))).toThrow(/a figure in g and one in ml do not add/);
    expect(() => difference(exact(1, "g"), exact(1, "ml"))).toThrow(TypeError);
  });

  test("nothing is divided by 0", () => {
    expect(() => quotient(exact(1, "g"), exact(0, "min"), "g/min")).toThrow(/quotient: the divisor is 0 min/);
  });
});

/**
 * Propagation by Monte Carlo, in the manner of JCGM 101:2008: draw the errors, reckon the model, take the spread.
 * With 200 000 draws the spread's own standard error is 1/sqrt(2 x 200 000) = 0.16 %; allowed are four of these and
 * 0.1 % for the terms of second order that the law of propagation leaves out (u about 1 % of the values).
 */
describe("against Monte Carlo", () => {
  const DRAWS = 200_000;
  const ALLOWED = 4 / Math.sqrt(2 * DRAWS) + 0.001;

  const cases: { name: string; a: Measured; b: Measured; seed: number }[] = [
    { name: "a source in the same sense", a: withBoth(100, 1, 0.8), b: withBoth(40, 0.3, 0.35), seed: 1 },
    { name: "a source in opposite senses", a: withBoth(100, 1, 0.8), b: withBoth(40, 0.3, -0.35), seed: 2 },
    { name: "hardly anything random", a: withBoth(100, 0.05, 0.8), b: withBoth(40, 0.02, 0.35), seed: 3 },
    { name: "a negative value", a: withBoth(-100, 1, 0.8), b: withBoth(40, 0.3, 0.35), seed: 4 },
  ];
  const models = [
    {
      name: "quotient",
      made: (a: Measured, b: Measured) => quotient(a, b, "1"),
      model: (a: number, b: number) => a / b,
    },
    {
      name: "product",
      made: (a: Measured, b: Measured) => product(a, b, "g2"),
      model: (a: number, b: number) => a * b,
    },
    { name: "difference", made: difference, model: (a: number, b: number) => a - b },
    {
      name: "quotient of a sum by its part",
      made: (a: Measured, b: Measured) => quotient(sum(scaled(b, 2, "g"), exact(1, "g")), a, "1"),
      model: (a: number, b: number) => (2 * b + 1) / a,
    },
  ];
  const both = models.flatMap((model) =>
    cases.map((one) => ({ ...model, ...one, of: model.name, with: one.name })),
  );

  test.each(both)("u of a $of with $with", ({ made, model, a, b, seed }) => {
    const normal = seededNormal(seed);
    const [randomA, sharedA] = a.parts.map((part) => part.u);
    const [randomB, sharedB] = b.parts.map((part) => part.u);
    let [mean, squares] = [0, 0];
    for (let n = 1; n <= DRAWS; n++) {
      const shared = normal();
      const got = model(
        a.value + (randomA ?? 0) * normal() + (sharedA ?? 0) * shared,
        b.value + (randomB ?? 0) * normal() + (sharedB ?? 0) * shared,
      );
      const off = got - mean;
      mean += off / n;
      squares += off * (got - mean);
    }
    const spread = Math.sqrt(squares / (DRAWS - 1));
    const figure = made(a, b);
    expect(Math.abs(standardUncertainty(figure) / spread - 1)).toBeLessThan(ALLOWED);
    // the mean's standard error is spread/sqrt(draws); the curvature moves it by about 1 % of the spread at most
    expect(Math.abs(mean - figure.value)).toBeLessThan(spread * (4 / Math.sqrt(DRAWS) + 0.015));
  });

  /** A divisor in doubt by 8 %, and a divided that owes 5 % to the same source: of 20 000 draws the range holds 95 %, give or take 0.6. */
  test.each([
    ["the same sense", 2],
    ["opposite senses", -2],
  ])("the uneven range of a quotient holds what a source in %s makes of it", (_, sharedB) => {
    const [a, b] = [withBoth(100, 2, 5), withBoth(40, 2.4, sharedB)];
    const [low, high] = interval(quotient(a, b, "1"));
    const normal = seededNormal(11);
    let [below, above] = [0, 0];
    for (let n = 0; n < 20_000; n++) {
      const shared = normal();
      const got = (100 + 2 * normal() + 5 * shared) / (40 + 2.4 * normal() + sharedB * shared);
      if (got < low) below += 1;
      if (got > high) above += 1;
    }
    expect(1 - (below + above) / 20_000).toBeGreaterThan(0.944);
    expect(1 - (below + above) / 20_000).toBeLessThan(0.956);
  });
});
