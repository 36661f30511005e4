import { describe, expect, test } from "vitest";
import {
  abscissaOf,
  fittedLine,
  fromScatter,
  heightAt,
  lineThroughOrigin,
} from "../../src/statistics/line-fit.ts";

const exactly = [0, 1, 3, 4].map((x) => ({ x, y: 2 - 3 * x, uY: 0.5 }));

describe("a straight line through points", () => {
  test("is found exactly where the points lie on one, whatever is in error", () => {
    for (const uX of [0, 0.3]) {
      const line = fittedLine(exactly.map((point) => ({ ...point, uX })));
      expect(line.slope).toBeCloseTo(-3, 12);
      expect(line.intercept).toBeCloseTo(2, 12);
      expect(line.chiSquared).toBeCloseTo(0, 12);
    }
  });

  test("errors of the abscissae make it less certain", () => {
    const [without, withThem] = [0, 0.3].map((uX) => fittedLine(exactly.map((point) => ({ ...point, uX }))));
    expect(withThem?.uSlope).toBeGreaterThan(1.5 * (without?.uSlope ?? Number.POSITIVE_INFINITY));
  });

  test("a point of little weight hardly moves it", () => {
    const line = fittedLine([...exactly, { x: 2, y: 100, uY: 1e4 }]);
    expect(line.slope).toBeCloseTo(-3, 5);
  });

  test("is surest where its points are", () => {
    const line = fittedLine(exactly);
    expect(heightAt(line, 2).u).toBeCloseTo(0.25, 12); // 0.5 over the root of 4
    expect(heightAt(line, 20).u).toBeGreaterThan(1);
  });

  test("refuses what has no slope, no weight or no way back", () => {
    expect(() => fittedLine([{ x: 1, y: 1, uY: 1 }])).toThrow(RangeError);
    expect(() =>
      fittedLine([
        { x: 1, y: 1, uY: 1 },
        { x: 1, y: 2, uY: 1 },
      ]),
    ).toThrow(RangeError);
    expect(() => fittedLine(exactly.map((point) => ({ ...point, uY: 0 })))).toThrow(RangeError);
    expect(() => fromScatter(fittedLine(exactly.slice(0, 2)))).toThrow(RangeError);
    expect(() => abscissaOf(fittedLine(exactly.map((point) => ({ ...point, y: 1 }))), 1, 0)).toThrow(
      RangeError,
    );
    expect(() => lineThroughOrigin([{ x: 0, y: 1, uY: 1 }])).toThrow(RangeError);
  });
});
