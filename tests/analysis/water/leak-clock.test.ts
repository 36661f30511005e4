import { describe, expect, test } from "vitest";
import { leakClock } from "../../../src/analysis/water/leak-clock.ts";

type Points = readonly (readonly [number, number])[];
const linear = (barG: number) => barG / 4;
const clock = (points: Points, away: Points = []) => leakClock({ points, away }, linear);

describe("a clock that runs as a leak flows", () => {
  test("goes with time at working pressure, half as fast where half as much flows", () => {
    const steady = clock([
      [0, 4],
      [100, 4],
    ]);
    expect(steady(100) - steady(40)).toBeCloseTo(60, 9);
    const half = clock([
      [0, 2],
      [100, 2],
    ]);
    expect(half(100) - half(40)).toBeCloseTo(30, 9);
  });

  test("between two readings it goes as the pressure falls: 4 to 2 bar in 100 s are 75 s, 43.75 of them in the first half", () => {
    const falling = clock([
      [0, 4],
      [100, 2],
    ]);
    expect(falling(100) - falling(0)).toBeCloseTo(75, 9);
    expect(falling(50) - falling(0)).toBeCloseTo(43.75, 9);
  });

  test("a flow that is no straight line of the pressure is taken at the ends and the middle: of its square exactly", () => {
    const square = leakClock(
      {
        points: [
          [0, 3],
          [90, 1],
        ],
        away: [],
      },
      (barG) => barG ** 2,
    );
    // the mean of p squared from 1 to 3 is 13/3
    expect(square(90) - square(0)).toBeCloseTo((90 * 13) / 3, 9);
  });

  test("before the first reading and after the last it goes on as there, along what is thought of her cooling by then", () => {
    const two = clock(
      [
        [100, 4],
        [200, 2],
      ],
      [[300, 1]],
    );
    expect(two(100) - two(0)).toBeCloseTo(100, 9);
    expect(two(300) - two(200)).toBeCloseTo(37.5, 9);
    expect(two(400) - two(300)).toBeCloseTo(25, 9);
  });

  test("stands still without pressure, and is time where none was read", () => {
    const gone = clock([
      [0, 0],
      [100, 0],
    ]);
    expect(gone(100) - gone(0)).toBe(0);
    const none = clock([]);
    expect(none(70) - none(30)).toBe(40);
  });
});
