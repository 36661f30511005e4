import { describe, expect, test } from "vitest";
import { softnessByShares } from "../../../src/analysis/cold-hold/air-share.ts";
import type { Pumped } from "../../../src/analysis/cold-hold/first-raising.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { standardUncertainty } from "../../../src/quantity/measured.ts";
import { rangeOf } from "../../../src/quantity/weighed-ways.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const ATMOSPHERE = 1.01325;
const shares = (pumped: Pumped[], pressureReadingBar = 0.03, pressureBiasBar = 0.03) => {
  const engine = { ...smallEngine(), instruments: { pressureReadingBar, pressureBiasBar } };
  const [lowest, highest] = [pumped[0], pumped.at(-1)] as [Pumped, Pumped];
  return softnessByShares(sourcesOf(engine, smallSteaming()), pumped, lowest, highest);
};
/** 0.25 ml/bar, and air that is squeezed. */
const taken = (airMl: number, barG: number): Pumped => ({
  barG,
  ml: 0.25 * barG + airMl * (1 - ATMOSPHERE / (ATMOSPHERE + barG)),
});
const byBars = (airMl: number, highest = 6) => Array.from({ length: highest }, (_, i) => taken(airMl, i + 1));

describe("what a boiler takes, by any share of air", () => {
  test.each([0.5, 2, 8])("with %d ml of air by fine readings: both are told apart", (airMl) => {
    const { softness, between } = shares(byBars(airMl), 0.001, 0.001);
    expect(softness.airMl / airMl).toBeCloseTo(1, 2);
    expect(softness.steadyMlPerBar).toBeCloseTo(0.25, 2);
    const ml = taken(airMl, 6).ml - taken(airMl, 2).ml;
    expect(between(6, 2).value / (ml / 4)).toBeCloseTo(1, 2);
  });

  // 0.5 ml from 3 to 6 bar: 0.167 ml/bar by metal and water; by air alone, which gives 1.013/(4.013 x 7.013) of itself a bar,
  // 4.63 ml of it, and between 6 and 1 bar 0.332 ml/bar
  test("by two pressures alone: between no air and nothing but air, and no further", () => {
    const figure = shares([
      { ml: 0.5, barG: 3 },
      { ml: 1, barG: 6 },
    ]).between(6, 1);
    const [low, high] = rangeOf(figure.lumps);
    expect(figure.value).toBeGreaterThan(0.167);
    expect(figure.value).toBeLessThan(0.332);
    expect(low).toBeGreaterThan(0.15);
    expect(low).toBeLessThan(0.175);
    expect(high).toBeGreaterThan(0.31);
    expect(high).toBeLessThan(0.345);
  });

  // pumped the other way about: stiffer at first than after, which no air can do; a straight line through it gives 0.2625
  test("never with less than no air", () => {
    const stiffening = [
      { ml: 0.45, barG: 2 },
      { ml: 0.95, barG: 4 },
      { ml: 1.5, barG: 6 },
    ];
    const { softness, between } = shares(stiffening, 0.1, 0.001);
    expect(softness.airMl).toBeGreaterThan(0);
    expect(between(6, 6).value).toBeLessThan(0.2625);
    expect(between(6, 6).value).toBeGreaterThan(0.24);
  });

  // as if every pressure had been read higher by a tenth of the dial's standard error
  test("the dial's bias moves it as its part says", () => {
    const at = (shift: number) =>
      shares(
        byBars(2).map(({ ml, barG }) => ({ ml, barG: barG + shift })),
        0.02,
        0.1,
      ).between(6, 6);
    const right = at(0);
    const dial = right.parts.find(({ source }) => source !== undefined)?.u ?? Number.NaN;
    const moved = (at(0.01).value - right.value) / 0.1;
    expect(moved / dial).toBeGreaterThan(0.85);
    expect(moved / dial).toBeLessThan(1.15);
  });

  test("errors of the readings move it as its parts say", () => {
    const pumped = byBars(2);
    const right = shares(pumped).between(6, 6);
    const moved = pumped.map((point, i) => {
      const other = pumped.with(i, { ...point, barG: point.barG + 0.003 });
      return (shares(other).between(6, 6).value - right.value) / 0.1;
    });
    const part = right.parts.find(({ name }) => name === "pressure readings")?.u ?? Number.NaN;
    expect(Math.hypot(...moved) / part).toBeGreaterThan(0.85);
    expect(Math.hypot(...moved) / part).toBeLessThan(1.15);
    expect(standardUncertainty(right)).toBeGreaterThanOrEqual(part);
  });

  test("by readings as fine as may be, and by many", () => {
    for (const pumped of [byBars(0), byBars(0, 40), byBars(3, 40)])
      for (const u of [1e-6, 0.03, 1]) {
        const { softness, between } = shares(pumped, u, u);
        for (const value of [softness.airMl, softness.steadyMlPerBar, between(5, 1).value])
          expect(value).toBeGreaterThanOrEqual(0);
        expect(between(6, 6).value).toBeLessThan(2);
      }
  });
});
