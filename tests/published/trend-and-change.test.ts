import { describe, expect, test } from "vitest";
import { cusum } from "../../src/statistics/cusum.ts";
import { firstReaching, fitGrowth } from "../../src/statistics/growth-fit.ts";
import { kendall } from "../../src/statistics/kendall.ts";
import { predictionBound } from "../../src/statistics/prediction-bound.ts";
import { rankSum } from "../../src/statistics/rank-sum.ts";
import { theilSen } from "../../src/statistics/theil-sen.ts";
import { spreadOf, welch } from "../../src/statistics/welch.ts";
import { relativeError } from "./closeness.ts";
import {
  cusumExample,
  inverseExample,
  kendallExample,
  predictionExample,
  rankSumExample,
  sen,
  sleep,
  usepaTrend,
} from "./trend-and-change.ts";

describe("Sen 1968", () => {
  const { slope, intercept, interval } = theilSen(sen.t, sen.y, sen.level);
  const got = {
    slope,
    "intercept, median of y - slope t": intercept,
    "lower end": interval?.[0] ?? Number.NaN,
    "upper end": interval?.[1] ?? Number.NaN,
  };
  test.each(sen.wanted)("$what: $number", ({ what, number }) => {
    expect(relativeError(got[what], number)).toBeLessThan(sen.tolerance);
  });
});

describe("USEPA Unified Guidance, example 17-6", () => {
  const { slope, interval } = theilSen(usepaTrend.t, usepaTrend.y);
  const { z, pTwoSided } = kendall(usepaTrend.t, usepaTrend.y);
  const got = {
    slope,
    z,
    p: pTwoSided,
    "lower end": interval?.[0] ?? Number.NaN,
    "upper end": interval?.[1] ?? Number.NaN,
  };
  test.each(usepaTrend.wanted)("$what: $number", ({ what, number }) => {
    expect(relativeError(got[what], number)).toBeLessThan(usepaTrend.tolerance);
  });
});

describe("Kendall, Hollander & Wolfe p. 187", () => {
  const { tau, pUpper, exact } = kendall(kendallExample.x, kendallExample.y);
  const got = { tau, "one-sided p, exact": pUpper };
  test.each(kendallExample.wanted)("$what: $number", ({ what, number, tolerance }) => {
    expect(Math.abs(got[what] - number)).toBeLessThan(tolerance);
    expect(exact).toBe(true);
  });
});

describe("CUSUM, NIST/SEMATECH e-Handbook 6.3.2.3", () => {
  const { target, k, h, values } = cusumExample;
  const { steps, firstAbove, firstBelow } = cusum(values, target, k, h);
  test.each(cusumExample.wanted)("$side sum at $place: $sum", ({ side, place, sum }) => {
    expect(Math.abs((steps[place - 1]?.[side] ?? Number.NaN) - sum)).toBeLessThan(cusumExample.tolerance);
  });
  test("first signal upwards at 14, none downwards", () => {
    expect((firstAbove ?? -1) + 1).toBe(cusumExample.firstSignalAt);
    expect(firstBelow).toBeNull();
  });
});

describe("Prediction bound, USEPA Unified Guidance, example 18-1", () => {
  const { values } = predictionExample;
  const { mean, sd } = spreadOf(values);
  const got = {
    mean,
    "standard deviation": sd,
    "bound for the next one": predictionBound(values),
    "bound for the next four": predictionBound(values, 0.95, 4),
  };
  test.each(predictionExample.wanted)("$what: $number", ({ what, number }) => {
    expect(Math.abs(got[what] - number)).toBeLessThan(predictionExample.tolerance);
  });
});

describe("Welch, Student's sleep data", () => {
  const { t, df, pTwoSided, interval } = welch(sleep.first, sleep.second);
  const got = {
    t,
    "degrees of freedom": df,
    p: pTwoSided,
    "lower end": interval[0],
    "upper end": interval[1],
  };
  test.each(sleep.wanted)("$what: $number", ({ what, number, tolerance }) => {
    expect(Math.abs(got[what] - number)).toBeLessThan(tolerance);
  });
});

describe("Rank sum, Hollander & Wolfe p. 69", () => {
  const { w, pUpper, shift, exact } = rankSum(rankSumExample.first, rankSumExample.second);
  const got = { W: w, "one-sided p, exact": pUpper, shift };
  test.each(rankSumExample.wanted)("$what: $number", ({ what, number, tolerance }) => {
    expect(Math.abs(got[what] - number)).toBeLessThanOrEqual(tolerance);
    expect(exact).toBe(true);
  });
});

describe("Inverse prediction, Graybill & Iyer p. 431", () => {
  const { x, y, reads } = inverseExample;
  const fit = fitGrowth(x.map((at, i) => ({ x: at, y: y[i] ?? Number.NaN, sd: 1 })));
  test.each(inverseExample.wanted)("$what: $number", ({ chance, number, tolerance }) => {
    const at = firstReaching((t) => fit.chanceAbove(t, reads, 1), chance, 50, 200);
    expect(Math.abs((at ?? Number.NaN) - number)).toBeLessThan(tolerance);
  });
});

test("no row was dropped", () => {
  const rows = [
    sen,
    usepaTrend,
    kendallExample,
    cusumExample,
    predictionExample,
    sleep,
    rankSumExample,
    inverseExample,
  ].map(({ wanted }) => wanted.length);
  expect(rows).toEqual([4, 5, 2, 5, 4, 5, 3, 3]);
  const counts = [sen.t, usepaTrend.t, kendallExample.x, cusumExample.values, predictionExample.values];
  expect(counts.map((list) => list.length)).toEqual([7, 23, 9, 20, 12]);
  expect([sleep.first.length, rankSumExample.first.length, inverseExample.x.length]).toEqual([10, 10, 8]);
});
