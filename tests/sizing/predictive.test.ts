import { describe, expect, test } from "vitest";
import { type Observation, predictiveOf } from "../../src/sizing/predictive.ts";

const none = { sharedU: 0, assumedSpread: 0 };
const plainly = (...values: number[]): Observation[] => values.map((value) => ({ value, u: 0 }));

describe("what one future run may need", () => {
  test("is the published prediction limit where the runs' own errors are nothing", () => {
    // USEPA Unified Guidance 2009, example 18-1: mean 27.51667, one-sided 95 % for one future value 59.48248
    const runs = plainly(12.6, 30.8, 52, 28.1, 33.3, 44, 3, 12.8, 58.1, 12.6, 17.6, 25.3);
    const predictive = predictiveOf(runs, none);
    expect(predictive.mean).toBeCloseTo(27.51667, 5);
    expect(predictive.quantile(0.95)).toBeCloseTo(59.48248, 4);
    expect(predictive.degreesOfFreedom).toBe(11);
  });

  test("keeps to Student's t where two runs tell almost nothing", () => {
    // t(0.95, 1) = 6.313752, s = 0.7071068, sqrt(1 + 1/2)
    const bound = predictiveOf(plainly(1, 2), none).quantile(0.95);
    expect(bound).toBeCloseTo(1.5 + 6.313752 * Math.SQRT1_2 * Math.sqrt(1.5), 4);
  });

  test("follows a line in the load, with the classical limit of a line", () => {
    // six points on y = x + 70: a line leaves no spread
    const line = [60, 61, 62, 63, 64, 65].map((load): Observation => ({ value: load + 70, u: 0, load }));
    const predictive = predictiveOf(line, { ...none, atLoad: 70 });
    expect(predictive.mean).toBeCloseTo(140, 9);
    // with scatter: the classical limit of a line, by hand. x 1..5, y 2, 4, 5, 4, 5: 2.2 + 0.6 x, s2 = 0.8, at x = 6
    const scattered = [2, 4, 5, 4, 5].map((value, i): Observation => ({ value, u: 0, load: i + 1 }));
    const t3 = 2.353363;
    const byHand = 2.2 + 0.6 * 6 + t3 * Math.sqrt(0.8 * (1 + 1 / 5 + (6 - 3) ** 2 / 10));
    expect(predictiveOf(scattered, { ...none, atLoad: 6 }).quantile(0.95)).toBeCloseTo(byHand, 4);
  });

  test("one run alone takes its own error, the assumed spread and what is shared", () => {
    const predictive = predictiveOf([{ value: 8, u: 0.3 }], { sharedU: 0.4, assumedSpread: 1.2 });
    expect(predictive.quantile(0.95)).toBeCloseTo(8 + 1.644854 * 1.3, 5);
    expect(predictive.degreesOfFreedom).toBeNull();
  });

  test("a shared error widens the bound and no number of runs takes it away", () => {
    const many = Array.from({ length: 60 }, (_, i): Observation => ({ value: 8 + (i % 2) * 0.02, u: 0.001 }));
    const alone = predictiveOf(many, none).quantile(0.95) - 8.01;
    const shared = predictiveOf(many, { ...none, sharedU: 0.5 }).quantile(0.95) - 8.01;
    expect(alone).toBeLessThan(0.03);
    expect(shared).toBeCloseTo(1.644854 * 0.5, 2);
  });

  test("scatter that the runs' own errors explain is not charged to the future twice", () => {
    const values = [7.6, 8.3, 8.1, 7.7, 8.4, 7.9, 8.0, 8.2];
    const rough = predictiveOf(
      values.map((value) => ({ value, u: 0.3 })),
      none,
    );
    const exact = predictiveOf(plainly(...values), none);
    expect(rough.quantile(0.95)).toBeLessThan(exact.quantile(0.95));
    expect(rough.spread).toBeLessThan(exact.spread);
    expect(rough.quantile(0.95)).toBeGreaterThan(rough.mean);
  });

  test("two runs alike to within their errors are not taken to differ wildly", () => {
    // all scatter explained: the mean's error alone, 1.644854 x 0.35/sqrt(2)
    const alike = [4.2, 4.2].map((value) => ({ value, u: 0.35 }));
    expect(predictiveOf(alike, none).quantile(0.95)).toBeCloseTo(4.2 + (1.644854 * 0.35) / Math.SQRT2, 4);
  });

  test("each run weighs by its own error: a poor one in line with the good never moves the bound out", () => {
    const good = [4.0, 4.4, 4.2, 4.6, 4.3].map((value): Observation => ({ value, u: 0.1 }));
    for (const runs of [2, 3, 5]) {
      const some = good.slice(0, runs);
      const alone = predictiveOf(some, none);
      const withPoor = predictiveOf([...some, { value: 4.3, u: 0.8 }], none);
      expect(withPoor.quantile(0.95)).toBeLessThan(alone.quantile(0.95));
      const withWorthless = predictiveOf([...some, { value: 9, u: 1e5 }], none);
      expect(withWorthless.quantile(0.95)).toBeCloseTo(alone.quantile(0.95), 6);
      expect(withWorthless.mean).toBeCloseTo(alone.mean, 8);
    }
    // read 1.6 too high with an error of 0.8: hardly
    const high = predictiveOf([...good.slice(0, 3), { value: 5.8, u: 0.8 }], none).quantile(0.95);
    expect(high).toBeLessThan(1.02 * predictiveOf(good.slice(0, 3), none).quantile(0.95));
  });

  test("probability and quantile are each other's inverse, and rise together", () => {
    const predictive = predictiveOf(
      [7, 8, 9.5].map((value) => ({ value, u: 0.2 })),
      { sharedU: 0.1, assumedSpread: 1 },
    );
    let before = Number.NEGATIVE_INFINITY;
    for (const p of [0.05, 0.3, 0.5, 0.8, 0.95, 0.99]) {
      const q = predictive.quantile(p);
      expect(predictive.probabilityBelow(q)).toBeCloseTo(p, 6);
      expect(q).toBeGreaterThan(before);
      before = q;
    }
  });

  test("runs that do not differ at all bound at their mean; none at all is refused", () => {
    expect(predictiveOf(plainly(5, 5, 5), none).quantile(0.95)).toBeCloseTo(5, 9);
    expect(() => predictiveOf([], none)).toThrow("0 observations, wanted 1 or more");
    expect(() => predictiveOf(plainly(1, 2), none).quantile(1)).toThrow(
      "permitted more than 0 and less than 1",
    );
  });

  describe("with a usual spread thought likely beforehand", () => {
    const usualSpread = { median: 0.5, logSd: 0.7 };
    const believed = (values: number[], u = 0) =>
      predictiveOf(
        values.map((value) => ({ value, u })),
        { ...none, usualSpread },
      );

    test("two runs that happen to agree are not taken to spread as little, nor two that differ as much, as they show", () => {
      const agreeing = believed([8, 8.02]);
      expect(agreeing.quantile(0.95) - agreeing.mean).toBeGreaterThan(
        5 * (predictiveOf(plainly(8, 8.02), none).quantile(0.95) - 8.01),
      );
      const differing = believed([7, 9]);
      expect(differing.quantile(0.95)).toBeLessThan(predictiveOf(plainly(7, 9), none).quantile(0.95));
    });

    test("many runs tell for themselves", () => {
      const values = Array.from({ length: 200 }, (_, i) => 8 + Math.sin(i));
      const plain = predictiveOf(plainly(...values), none);
      expect(believed(values).quantile(0.95)).toBeCloseTo(plain.quantile(0.95), 2);
    });

    test("the error of the mean alone decides where it drowns every spread thought likely", () => {
      // sd of one future run: the mean's error sqrt(1e6/2) and far below it any spread
      const { probabilityBelow } = believed([8, 9], 1000);
      expect(probabilityBelow(8.5 + 1000 / Math.SQRT2)).toBeCloseTo(0.8413, 4);
    });
  });
});
