import { describe, expect, test } from "vitest";
import { fallenPressure, type HeldPoint } from "../../../src/analysis/cold-hold/cold-hold-fall.ts";
import { leakingMeasure, rootAtMeasure, type Softness } from "../../../src/analysis/cold-hold/softness.ts";

const BAR = 0.03;
const spring: Softness = { steadyMlPerBar: 0.25, airMl: 0, atmosphereBar: 1 };
/** 2 ml of air beside it: at no pressure 2.25 ml/bar, at 6 bar 0.29. */
const withAir: Softness = { ...spring, airMl: 2 };
const takenMl = ({ steadyMlPerBar, airMl }: Softness, barG: number) =>
  steadyMlPerBar * barG + airMl * (1 - 1 / (1 + barG));

/** Second by second from 6 bar, by Torricelli and Boyle: what leaks goes as the root of the pressure. */
function fallBySeconds(softness: Softness, mlPerMinAtOneBar: number, minutes: number) {
  const points: HeldPoint[] = [];
  let [barG, leakedMl] = [6, 0];
  for (let atS = 0; atS <= 60 * minutes; atS += 1) {
    if (atS % 60 === 0) points.push({ atS: 100 + atS, barG });
    const ml = (mlPerMinAtOneBar / 60) * Math.sqrt(barG);
    leakedMl += ml;
    barG -= ml / (softness.steadyMlPerBar + softness.airMl / (1 + barG) ** 2);
  }
  return { points, leakedMl };
}

describe("the fall of a pressure through which water leaks", () => {
  // root of 6.25 is 2.5, falling by 0.1 a minute: 0.25 bar at 20 minutes; 0.25 ml/bar x 6 bar
  test("by metal and water alone: the root of the pressure falls along a straight line", () => {
    const points = [0, 5, 10, 15, 20].map((minute) => ({
      atS: 60 * minute,
      barG: (2.5 - 0.1 * minute) ** 2,
    }));
    const fall = fallenPressure(points, BAR, spring);
    expect(fall.fromBar).toBeCloseTo(6.25, 9);
    expect(fall.toBar).toBeCloseTo(0.25, 9);
    expect(fall.leakingBar).toBeCloseTo(1.5 ** 2, 9);
    expect(fall.meanBar).toBeCloseTo((2.5 ** 3 - 0.5 ** 3) / (3 * 2), 9);
    expect(fall.lostMl).toBeCloseTo(0.25 * 6, 9);
  });

  test.each([
    ["no air", spring, 0.055],
    ["air", withAir, 0.1],
    ["air and a small leak", withAir, 0.01],
  ])("with %s: what it stands for is what leaked, second by second", (_, softness, atOneBar) => {
    const { points, leakedMl } = fallBySeconds(softness, atOneBar, 20);
    const fall = fallenPressure(points, BAR, softness);
    expect(fall.lostMl / leakedMl).toBeCloseTo(1, 2);
    expect(fall.toBar - (points.at(-1)?.barG ?? 0)).toBeCloseTo(0, 2);
    expect(takenMl(softness, fall.fromBar) - takenMl(softness, fall.toBar)).toBeCloseTo(fall.lostMl, 9);
    expect((atOneBar * Math.sqrt(fall.leakingBar) * 20) / leakedMl).toBeCloseTo(1, 2);
  });

  test("never goes below none", () => {
    const points = [2, 1.2, 0.6, 0.2, 0.02, 0.01].map((barG, i) => ({ atS: 60 * i, barG }));
    const fall = fallenPressure(points, BAR, spring);
    expect(fall.toBar).toBeGreaterThanOrEqual(0);
    expect(fall.toBar).toBeLessThan(0.1);
    expect(fall.fromBar).toBeCloseTo(2, 1);
  });

  test("may be a rise", () => {
    const fall = fallenPressure(
      [5, 5.1, 5.2].map((barG, i) => ({ atS: 60 * i, barG })),
      BAR,
      withAir,
    );
    expect(fall.lostMl).toBeLessThan(0);
    expect(fall.toBar - fall.fromBar).toBeCloseTo(0.2, 2);
  });

  test.each([
    ["no air", spring, 0.055],
    ["air", withAir, 0.1],
    ["air and a small leak", withAir, 0.01],
  ])("with %s: its doubt is what errors of the readings do", (_, softness, atOneBar) => {
    const { points } = fallBySeconds(softness, atOneBar, 20);
    const right = fallenPressure(points, BAR, softness);
    const moved = points.map((point, i) => {
      const other = points.with(i, { ...point, barG: point.barG + 0.001 });
      return ((fallenPressure(other, BAR, softness).lostMl - right.lostMl) * BAR) / 0.001;
    });
    expect(Math.hypot(...moved) / right.uLostMl).toBeCloseTo(1, 1);
  });
});

describe("the measure that falls steadily", () => {
  test("is told back to its pressure", () => {
    for (const softness of [spring, withAir, { ...withAir, steadyMlPerBar: 0.0025 }])
      for (const root of [0.01, 0.3, 1, 2.5, 5])
        expect(rootAtMeasure(softness, leakingMeasure(softness, root)) / root).toBeCloseTo(1, 9);
    expect(rootAtMeasure(withAir, -1)).toBe(0);
  });
});
