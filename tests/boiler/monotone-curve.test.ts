import { describe, expect, test } from "vitest";
import { monotoneCurve } from "../../src/boiler/monotone-curve.ts";

/**
 * By hand, points (0, 0), (1, 2), (3, 3); chords rise 2 and 1/2.
 *   start: the parabola through all three is 2.5 x - 0.5 x^2, slope 2.5
 *   middle: Fritsch and Butland's alpha = (1 + 2/3)/3 = 5/9, slope 2 x 0.5/(5/9 x 0.5 + 4/9 x 2) = 6/7
 *   end: the parabola falls there (slope -0.5), the last chord rises: kept at half the chord's, 0.25
 *   half-way through a piece: mean of its ends + width x (slope at its start - slope at its end)/8
 */
describe("curve by hand through three points", () => {
  const curve = monotoneCurve([
    { x: 0, y: 0 },
    { x: 1, y: 2 },
    { x: 3, y: 3 },
  ]);

  test.each([
    [-1, -2.5],
    [0, 0],
    [0.5, 1 + (2.5 - 6 / 7) / 8],
    [1, 2],
    [2, 2.5 + (2 * (6 / 7 - 0.25)) / 8],
    [3, 3],
    [5, 3.5],
  ])("at %d it is %d", (x, wanted) => {
    expect(curve.at(x)).toBeCloseTo(wanted, 12);
  });

  test.each([
    [-1, 2.5],
    [0, 2.5],
    [0.5, 1.5 * 2 - (2.5 + 6 / 7) / 4],
    [1, 6 / 7],
    [2, 1.5 * 0.5 - (6 / 7 + 0.25) / 4],
    [3, 0.25],
    [5, 0.25],
  ])("its slope at %d is %d", (x, wanted) => {
    expect(curve.slopeAt(x)).toBeCloseTo(wanted, 12);
  });
});

describe("any curve", () => {
  const points = [0, 4, 5, 5, 2, 1.5, 6].map((y, i) => ({ x: i + i ** 2 / 10, y }));
  const curve = monotoneCurve(points);

  test("stays between its neighbouring points, level at a top, at a bottom and along a plain", () => {
    points.slice(1).forEach((end, i) => {
      const start = points[i] ?? end;
      const [low, high] = [Math.min(start.y, end.y), Math.max(start.y, end.y)];
      for (let k = 0; k <= 20; k++) {
        const y = curve.at(start.x + ((end.x - start.x) * k) / 20);
        expect(y).toBeGreaterThan(low - 1e-12);
        expect(y).toBeLessThan(high + 1e-12);
      }
    });
    for (const k of [2, 3, 5]) expect(curve.slopeAt(points[k]?.x ?? 0)).toBeCloseTo(0, 12);
  });

  test("its slope is that of its values, and has no step at a point", () => {
    for (let x = -1; x < 10; x += 0.0371) {
      const slope = (curve.at(x + 1e-6) - curve.at(x - 1e-6)) / 2e-6;
      expect(curve.slopeAt(x)).toBeCloseTo(slope, 4);
    }
    for (const { x } of points) expect(curve.slopeAt(x - 1e-9)).toBeCloseTo(curve.slopeAt(x + 1e-9), 6);
  });

  // the parabola through these starts at 3 and ends at -5; the chords rise 1 and fall 3
  test("its ends are no steeper than twice their chord", () => {
    const steep = monotoneCurve([
      { x: 0, y: 0 },
      { x: 1, y: 1 },
      { x: 2, y: -2 },
    ]);
    expect(steep.slopeAt(0)).toBeCloseTo(2, 12);
    expect(steep.slopeAt(2)).toBeCloseTo(-5, 12);
  });

  test("begins level where its first two points are level, whatever comes after", () => {
    const level = monotoneCurve([
      { x: 0, y: 1 },
      { x: 1, y: 1 },
      { x: 2, y: 4 },
    ]);
    expect([-3, 0, 0.5, 1].map((x) => level.at(x))).toEqual([1, 1, 1, 1]);
    expect(level.slopeAt(-3)).toBe(0);
  });

  // widths 2 and 1, chords 1 and 4: alpha = (1 + 1/3)/3 = 4/9, slope 1 x 4/(4/9 x 4 + 5/9 x 1) = 12/7
  test("its middle slope leans to the chord of the wider piece", () => {
    const curve = monotoneCurve([
      { x: 0, y: 0 },
      { x: 2, y: 2 },
      { x: 3, y: 6 },
    ]);
    expect(curve.slopeAt(2)).toBeCloseTo(12 / 7, 12);
  });

  test("stays level where all its points are", () => {
    const level = monotoneCurve([0, 1, 2].map((x) => ({ x, y: 5 })));
    expect([-1, 0.5, 1, 3].map((x) => [level.at(x), level.slopeAt(x)])).toEqual(Array(4).fill([5, 0]));
  });

  test("no points are refused", () => {
    expect(() => monotoneCurve([])).toThrow(/monotoneCurve: 0 points, wanted 1 or more/);
  });
});
