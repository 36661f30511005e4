import { describe, expect, test } from "vitest";
import { averaged, rangeOf, type WeighedWay, weighedWays } from "../../src/quantity/weighed-ways.ts";
import {
  type LinearEstimate,
  type LinearEstimator,
  linearEstimator,
} from "../../src/statistics/linear-estimate.ts";

const way = (logLikelihood: number, estimate: Partial<LinearEstimate> = {}): LinearEstimator => ({
  misfit: 0,
  logLikelihood,
  likelierBy: () => ({ noise: new Float64Array(1), causes: [] }),
  estimate: () => ({
    value: 0,
    left: [],
    ofNoise: Float64Array.of(estimate.uNoise ?? 0),
    uNoise: 0,
    uWander: 0,
    ...estimate,
  }),
});
const weightsOf = (ways: readonly WeighedWay[]) => ways.map(({ weight }) => weight);

describe("ways in which things may have been", () => {
  test("are weighed by how likely the readings make them, and come to 1", () => {
    // likelihoods 1 and 3, however small both are
    for (const far of [0, -2000]) {
      const weights = weightsOf(weighedWays([0, Math.log(3)], (log) => way(far + log)));
      expect(weights).toEqual([expect.closeTo(0.25, 9), expect.closeTo(0.75, 9)]);
    }
  });

  test("and by how likely they were beforehand", () => {
    const beforehand = (log: number) => (log === 0 ? 6 : 1);
    const weights = weightsOf(weighedWays([0, Math.log(3)], way, beforehand));
    expect(weights).toEqual([expect.closeTo(2 / 3, 9), expect.closeTo(1 / 3, 9)]);
  });
});

describe("a figure averaged over them", () => {
  const names = { readings: "readings", wander: "wander", ways: "which way it was" };
  const estimators = [
    way(0, { value: 10, left: [2, -1], uNoise: 3, uWander: 1 }),
    way(0, { value: 14, left: [-1, 3], uNoise: 1, uWander: 2 }),
  ];
  const weighed = [0.75, 0.25].map((weight, i) => ({ weight, estimator: estimators[i] as LinearEstimator }));
  const figure = averaged(weighed, {
    ofWanted: [],
    unit: "g",
    parts: [{ name: "own" }, { name: "scale", source: "scale of small" }],
    names,
  });

  // 0.75 x 10 + 0.25 x 14 = 11; the ways stray from it by 1 and 3; an error of the reading moves 0.75 x 3 + 0.25 x 1
  test("is the mean by weight; a reading moves it by the mean of what it does, a doubt is the root of the mean square", () => {
    expect([figure.value, figure.unit]).toEqual([11, "g"]);
    const u = Object.fromEntries(figure.parts.map((part) => [part.name, part.u]));
    expect(u.readings).toBeCloseTo(2.5, 9);
    expect(u.wander).toBeCloseTo(Math.sqrt(0.75 + 0.25 * 4), 9);
    expect(u.own).toBeCloseTo(Math.sqrt(0.75 * 4 + 0.25), 9);
    expect(figure.left[0]).toBeCloseTo(Math.sqrt(0.75 * 4 + 0.25), 9);
    // of the shared cause -1 and 3 are left, in the mean none: all of it is what the ways disagree about
    expect(u.scale).toBeUndefined();
    expect(u["which way it was"]).toBeCloseTo(
      Math.sqrt(3 + (0.75 * 9 + 0.25 - 2.5 ** 2) + (0.75 + 0.25 * 9)),
      9,
    );
  });

  // each way by itself strays by all its causes, and by how far it is from the mean: 0.75 x (15 + 1) + 0.25 x (15 + 9)
  test("all parts together come to the spread of the mixture", () => {
    expect(figure.parts.reduce((sum, { u }) => sum + u ** 2, 0)).toBeCloseTo(0.75 * 16 + 0.25 * 24, 9);
  });

  test("an error moves it as trying it shows: by what each way gives, and by how likely it makes each", () => {
    const y = Float64Array.of(1.3, 0.4, 2.2);
    const noise = Float64Array.of(0.2, 0.3, 0.1);
    const [offset, tilt] = [Float64Array.of(1, 1, 1), Float64Array.of(0, 1, 2)];
    const parts = [{ name: "tilt" }, { name: "offset", source: "dial of small" }];
    const reckoned = (readings: Float64Array) =>
      averaged(
        weighedWays([0.2, 2], (size) =>
          linearEstimator({ y: readings, noise, causes: [tilt.map((one) => size * one), offset] }),
        ),
        {
          ofWanted: (place) => [[0.2, 2][place] ?? 0, 0],
          thought: (place) => place,
          unit: "g",
          parts,
          names,
        },
      );
    const moved = (by: (i: number) => number) => {
      const STEP = 1e-5;
      const off = (sign: number) => reckoned(y.map((one, i) => one + sign * STEP * by(i))).value;
      return (off(1) - off(-1)) / (2 * STEP);
    };
    const uOf = (name: string) => reckoned(y).parts.find((part) => part.name === name)?.u;
    const each = [0, 1, 2].map((place) => moved((i) => (i === place ? Math.sqrt(noise[i] ?? 0) : 0)));
    expect(uOf("readings")).toBeCloseTo(Math.hypot(...each), 7);
    expect(uOf("offset")).toBeCloseTo(
      moved(() => 1),
      7,
    );
  });

  test("a shared cause has the sign with which it moves the figure", () => {
    const signed = (left: readonly [number, number]) => {
      const one = left.map((value) => way(0, { left: [value] }));
      const { parts } = averaged(
        one.map((estimator) => ({ weight: 0.5, estimator })),
        { ofWanted: [], unit: "g", parts: [{ name: "scale", source: "scale of small" }], names },
      );
      return parts[0]?.u;
    };
    expect(signed([-1, -2])).toBeCloseTo(1.5, 9);
    expect(signed([1, 2])).toBeCloseTo(-1.5, 9);
    expect(signed([-3, 1])).toBeCloseTo(1, 9);
    expect(signed([3, -1])).toBeCloseTo(-1, 9);
  });

  test("the doubt of a cause of its own has no sign, and what is certain has no part", () => {
    const [part, ...rest] = averaged([{ weight: 1, estimator: way(0, { left: [2] }) }], {
      ofWanted: [],
      unit: "g",
      parts: [{ name: "own" }],
      names,
    }).parts;
    expect(part).toEqual({ name: "own", u: 2 });
    expect(rest).toEqual([]);
  });

  test("what is wanted is asked of every way", () => {
    const asked: unknown[] = [];
    const curious: LinearEstimator = {
      ...way(0),
      estimate: (...wanted) => {
        asked.push(wanted);
        return way(0, { value: 1 }).estimate([]);
      },
    };
    const ofReadings = Float64Array.of(1, 2);
    averaged([{ weight: 1, estimator: curious }], { ofWanted: [5], ofReadings, unit: "g", parts: [], names });
    expect(asked).toEqual([[[5], ofReadings]]);
  });
});

describe("the range of a figure that may have been in several ways", () => {
  test("of one way it is 1.96 standard uncertainties to either side, what stands beside in quadrature", () => {
    const [low, high] = rangeOf([{ weight: 1, value: 10, u: 3 }], 4);
    expect([low, high]).toEqual([expect.closeTo(10 - 1.95996 * 5, 4), expect.closeTo(10 + 1.95996 * 5, 4)]);
    // 1.64485 for 90 in 100
    expect(rangeOf([{ weight: 1, value: 0, u: 1 }], 0, 0.9)[1]).toBeCloseTo(1.64485, 4);
  });

  // far apart, nine in ten at 0 and one at 100: beyond the upper end a quarter of the hundredth part, beyond the lower 1/36
  test("of several it leaves as much beyond either end, and is uneven where they are", () => {
    const [low, high] = rangeOf([
      { weight: 0.9, value: 0, u: 1 },
      { weight: 0.1, value: 100, u: 2 },
    ]);
    expect(low).toBeCloseTo(-1.91451, 3);
    expect(high).toBeCloseTo(100 + 2 * 0.67449, 3);
  });

  test("a way without a doubt is a step", () => {
    const [low, high] = rangeOf([
      { weight: 0.5, value: 1, u: 0 },
      { weight: 0.5, value: 2, u: 0 },
    ]);
    expect([low, high]).toEqual([expect.closeTo(1, 6), expect.closeTo(2, 6)]);
  });

  // 3 in 100 are none at all, so that the end with 2.5 in 100 beyond it is none, not a little more
  test("a lower end that falls on such a step takes it in", () => {
    const [low] = rangeOf([
      { weight: 0.03, value: 0, u: 0 },
      { weight: 0.97, value: 50, u: 3 },
    ]);
    expect(low).toBeLessThanOrEqual(0);
    expect(low).toBeCloseTo(0, 6);
  });
});

test("what is wanted may differ by the way, and be thought something in each before anything was read", () => {
  const asked: (readonly number[])[] = [];
  const estimator = (value: number): LinearEstimator => ({
    ...way(0),
    estimate: (ofWanted) => {
      asked.push(ofWanted);
      return way(0, { value, left: [0] }).estimate([]);
    },
  });
  const figure = averaged(
    [1, 2].map((value) => ({ weight: 0.5, estimator: estimator(value) })),
    {
      ofWanted: (place) => [10 * place],
      thought: (place) => 100 * place,
      unit: "W",
      parts: [{ name: "own" }],
      names: { readings: "readings", wander: "wander", ways: "ways" },
    },
  );
  expect(asked).toEqual([[0], [10]]);
  expect(figure.value).toBe((1 + 102) / 2);
  expect(figure.lumps.map(({ weight, value }) => [weight, value])).toEqual([
    [0.5, 1],
    [0.5, 102],
  ]);
});
