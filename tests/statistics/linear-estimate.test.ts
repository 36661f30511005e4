import { describe, expect, test } from "vitest";
import { fittedLine } from "../../src/statistics/line-fit.ts";
import { linearEstimator } from "../../src/statistics/linear-estimate.ts";

const of = (...values: number[]) => Float64Array.from(values);

describe("best linear estimate", () => {
  // one reading of a thing known beforehand to 2: weight 4/(4 + 1), what is left of it 2 x (1 - 0.8)
  test("weighs a reading against what was known beforehand", () => {
    const { value, left, uNoise } = linearEstimator({ y: of(10), noise: of(1), causes: [of(2)] }).estimate([
      2,
    ]);
    expect(value).toBeCloseTo(8, 12);
    expect(left[0]).toBeCloseTo(0.4, 12);
    expect(uNoise).toBeCloseTo(0.8, 12);
  });

  test("with wide priors is the weighted straight line, errors and all", () => {
    const points = [
      { x: 1, y: 3.3, uY: 0.5 },
      { x: 2, y: 5.6, uY: 0.4 },
      { x: 4, y: 9.3, uY: 0.5 },
      { x: 6, y: 12.1, uY: 0.7 },
    ];
    const wide = 1e4;
    const estimator = linearEstimator({
      y: Float64Array.from(points, ({ y }) => y),
      noise: Float64Array.from(points, ({ uY }) => uY ** 2),
      causes: [Float64Array.from(points, () => wide), Float64Array.from(points, ({ x }) => wide * x)],
    });
    const line = fittedLine(points);
    const slope = estimator.estimate([0, wide]);
    expect(slope.value).toBeCloseTo(line.slope, 5);
    expect(slope.uNoise).toBeCloseTo(line.uSlope, 5);
    expect(estimator.misfit).toBeCloseTo(line.chiSquared, 3);
  });

  // two readings that share an error of 3: their difference is free of it, their mean keeps it
  test("an error that readings share leaves their difference alone", () => {
    const shared = { y: of(5, 9), noise: of(1, 1), causes: [of(3, 3), of(1000, 0), of(0, 1000)] };
    const difference = linearEstimator(shared).estimate([0, -1000, 1000]);
    expect(difference.value).toBeCloseTo(4, 2);
    expect(difference.left[0]).toBeCloseTo(0, 2);
    const mean = linearEstimator(shared).estimate([0, 500, 500]);
    expect(Math.abs(mean.left[0] ?? 0)).toBeCloseTo(3, 2);
  });

  test("a wander is told apart from the readings' own errors", () => {
    const wander = of(4, 0, 0, 4);
    const mean = linearEstimator({ y: of(1, 3), noise: of(0, 0), causes: [of(100, 100)], wander }).estimate([
      100,
    ]);
    expect(mean.value).toBeCloseTo(2, 2);
    expect(mean.uWander).toBeCloseTo(Math.sqrt(2), 2);
    expect(mean.uNoise).toBe(0);
  });

  // known to 0 +/- 2 beforehand, read 10 +/- 1: the reading without its error is the thing, 8 +/- sqrt(0.8)
  test("a reading free of its own error is what it read of", () => {
    const estimator = linearEstimator({ y: of(10), noise: of(1), causes: [of(2)] });
    const { value, left, uNoise } = estimator.estimate([0], of(1));
    expect(value).toBeCloseTo(8, 12);
    expect(Math.hypot(left[0] ?? 0, uNoise)).toBeCloseTo(Math.sqrt(0.8), 12);
    expect(estimator.estimate([-2], of(1)).value).toBeCloseTo(0, 12);
  });

  // a reading of 3 that shares a wander of variance 4 with none: 4/(4 + 1) of it, and 4 x (1 - 0.8)^2 is left of the wander
  test("and the wander in it is wanted with it", () => {
    const estimator = linearEstimator({ y: of(3), noise: of(1), causes: [], wander: of(4) });
    const { value, uNoise, uWander } = estimator.estimate([], of(1));
    expect(value).toBeCloseTo(2.4, 12);
    expect(uNoise).toBeCloseTo(0.8, 12);
    expect(uWander).toBeCloseTo(0.4, 12);
  });

  test("readings that fit are likelier than readings that do not", () => {
    const likelihood = (y: number) =>
      linearEstimator({ y: of(y), noise: of(1), causes: [of(1)] }).logLikelihood;
    expect(likelihood(0) - likelihood(2)).toBeCloseTo(1, 12); // 2^2/(2 x (1 + 1))
  });
});
