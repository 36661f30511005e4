import { describe, expect, test } from "vitest";
import { willansLine } from "../../src/compare/willans-line.ts";
import { degreesOfFreedom, interval, measured, standardUncertainty } from "../../src/quantity/measured.ts";

const runs = (points: readonly (readonly [watts: number, gPerMin: number])[], u: number, uWatts = 0) =>
  points.map(([watts, gPerMin]) => ({
    power: measured(watts, uWatts, "W", "power"),
    steamingRate: measured(gPerMin, u, "g/min", "readings"),
  }));

const lineOf = (...given: Parameters<typeof runs>) => {
  const line = willansLine(runs(...given));
  if ("why" in line) throw new Error(line.why);
  return line;
};

describe("the Willans line", () => {
  test("gives back the line that runs lie on", () => {
    const line = lineOf(
      [1, 2, 3.5, 5].map((watts) => [watts, 4.2 + 1.3 * watts] as const),
      0.2,
    );
    expect(line.noLoad.value).toBeCloseTo(4.2, 10);
    expect(line.perWatt.value).toBeCloseTo(1.3, 10);
  });

  test("is the weighted line of ISO/TS 28037:2010 where the runs scatter less than they may", () => {
    const line = lineOf(
      [
        [1, 3.3],
        [2, 5.6],
        [3, 7.1],
        [4, 9.3],
        [5, 10.7],
        [6, 12.1],
      ],
      0.5,
    );
    expect(line.noLoad.value).toBeCloseTo(1.866667, 6);
    expect(line.perWatt.value).toBeCloseTo(1.757143, 6);
    expect(standardUncertainty(line.noLoad)).toBeCloseTo(0.4654747, 6);
    expect(standardUncertainty(line.perWatt)).toBeCloseTo(0.1195229, 6);
  });

  test("takes its doubt from the scatter, with Student's t, where runs scatter more than declared", () => {
    const points = [
      [1, 5],
      [2, 8],
      [3, 7],
      [4, 10],
    ] as const;
    // by hand: slope 1.4, intercept 4, residuals -0.4, 1.2, -1.2, 0.4, s2 = 3.2/2 = 1.6, u(slope) = sqrt(1.6/5)
    const line = lineOf(points, 0.01);
    expect(line.perWatt.value).toBeCloseTo(1.4, 10);
    expect(standardUncertainty(line.perWatt)).toBeCloseTo(Math.sqrt(1.6 / 5), 8);
    expect(degreesOfFreedom(line.perWatt)).toBeCloseTo(2, 8);
    const [low, high] = interval(line.perWatt);
    expect((high - low) / 2 / Math.sqrt(1.6 / 5)).toBeCloseTo(4.303, 3);
  });

  test("counts the doubt of the power too", () => {
    const points = [1, 2, 3, 4].map((watts) => [watts, 4 + 2 * watts] as const);
    const exact = standardUncertainty(lineOf(points, 0.3).perWatt);
    expect(standardUncertainty(lineOf(points, 0.3, 0.2).perWatt)).toBeCloseTo(
      (exact * Math.hypot(0.3, 2 * 0.2)) / 0.3,
      6,
    );
  });

  test("is not drawn through three runs, nor through runs at one load", () => {
    expect(
      willansLine(
        runs(
          [
            [1, 5],
            [2, 6],
            [3, 7],
          ],
          0.2,
        ),
      ),
    ).toMatchObject({ value: null });
    expect(
      willansLine(
        runs(
          [
            [1, 5],
            [1, 6],
            [1, 7],
            [1, 5],
          ],
          0.2,
        ),
      ),
    ).toMatchObject({
      value: null,
      why: "all runs were at the same load",
    });
  });
});
