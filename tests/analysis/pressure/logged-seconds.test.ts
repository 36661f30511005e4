import { describe, expect, test } from "vitest";
import { bySeconds, oneRiseAndFall, type Second } from "../../../src/analysis/pressure/logged-seconds.ts";
import type { PressureReading } from "../../../src/analysis/pressure/pressure-points.ts";

const sample = (atS: number, barG: number): PressureReading => ({ atS, barG, uBar: 0.01, by: "logger" });

describe("samples about a moment", () => {
  test("are the mean of each second that ends then, from the first moment asked for to the last", () => {
    const samples = [97, 98.5, 99, 99.25, 100, 100.5, 102, 103].map((atS, i) => sample(atS, i));
    expect(bySeconds(samples, 100, -1.5, 2)).toEqual([
      { atS: -1.25, barG: 1.5, samples: 2 },
      { atS: -0.375, barG: 3.5, samples: 2 },
      { atS: 0.5, barG: 5, samples: 1 },
      { atS: 2, barG: 6, samples: 1 },
    ]);
  });

  test("of none there are none", () => {
    expect(bySeconds([], 100, -5, 5)).toEqual([]);
    expect(bySeconds([sample(90, 3)], 100, -5, 5)).toEqual([]);
  });
});

/** A pressure each second from -4 s on. */
const course = (...bars: number[]): Second[] => bars.map((barG, i) => ({ atS: i - 4, barG, samples: 1 }));
const within = (seconds: Second[], withinS: number, uBar = 0.01) =>
  oneRiseAndFall(seconds, withinS, () => uBar).map(({ atS, barG }) => [atS, barG]);

describe("one rise and fall", () => {
  const single = course(2.6, 2.7, 2.8, 2.9, 3, 2.9, 2.8, 2.7, 2.6);

  test("is all of it where the pressure turns up nowhere else, each second once", () => {
    expect(within(single, 2)).toEqual(single.map(({ atS, barG }) => [atS, barG]));
  });

  // lowest at -2 s and at 3 s; beyond them it stands higher by more than five errors of 0.01 bar
  test("ends to either side at the lowest before the pressure turns up again", () => {
    const several = course(2.9, 2.8, 2.7, 2.9, 3, 2.8, 2.7, 2.6, 2.9);
    expect(within(several, 1)).toEqual([
      [-2, 2.7],
      [-1, 2.9],
      [0, 3],
      [1, 2.8],
      [2, 2.7],
      [3, 2.6],
    ]);
  });

  test("turns up again by more than five errors of a second's mean, and by less it only scatters", () => {
    const scattered = (by: number) => course(2.6, 2.7, 2.8, 2.9, 3, 2.8, 2.7, 2.7 + by, 2.6);
    expect(within(scattered(0.049), 1)).toHaveLength(9);
    expect(within(scattered(0.051), 1).at(-1)).toEqual([2, 2.7]);
  });

  test("is about the highest near the moment, whatever stands higher further off", () => {
    const higher = course(3.2, 2.7, 2.8, 2.9, 3, 2.9, 2.8, 2.7, 3.1);
    expect(within(higher, 3)).toEqual([
      [-3, 2.7],
      [-2, 2.8],
      [-1, 2.9],
      [0, 3],
      [1, 2.9],
      [2, 2.8],
      [3, 2.7],
    ]);
    expect(within(higher, 4)[0]).toEqual([-4, 3.2]);
    expect(within(course(2.6, 2.7, 2.8, 3.1, 3), 1).map(([atS]) => atS)).toEqual([-4, -3, -2, -1, 0]);
  });
});
