import { describe, expect, test } from "vitest";
import type { Measured } from "../../src/quantity/measured.ts";
import { WATER_G_PER_ML } from "../../src/sizing/bound.ts";
import { enduranceOf } from "../../src/sizing/endurance.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";
import { exactly, madeRun } from "./made-runs.ts";

const endurance = (
  runs: readonly RunFigures[],
  supplies: { waterG: number; fuelG: number },
  plan: { laps: number; trainMassKg?: number } = { laps: 20 },
) =>
  enduranceOf(
    runs,
    modelsOf([...runs], { locomotiveId: "small", plan }),
    { kind: "laps", amount: plan.laps, trainMassKg: plan.trainMassKg },
    { waterMl: supplies.waterG / WATER_G_PER_ML, fuelG: supplies.fuelG },
  );

const withShared = (value: number, relative: number, source: string): Measured => ({
  value,
  unit: "g",
  parts: [{ name: source, u: relative * value, source }],
});

describe("endurance", () => {
  // load costs water and fuel unlike: 2 + 0.5 kg g of water, 1 + 0.05 kg g of fuel a lap, 10 g beside it
  const withLoads = [2, 4, 6, 8, 10, 6].map((trainMassKg, i) =>
    madeRun(i, exactly(2 + 0.5 * trainMassKg), exactly(1 + 0.05 * trainMassKg), {
      trainMassKg,
      otherFuel: exactly(10),
    }),
  );

  test("follows the planned train by the line that the demand follows", () => {
    const supplies = { waterG: 100, fuelG: 37.5 };
    const light = endurance(withLoads, supplies, { laps: 20, trainMassKg: 3 });
    expect(light.waterLasts.value).toBeCloseTo(100 / 3.5, 6);
    expect(light.fuelLasts.value).toBeCloseTo(27.5 / 1.15, 0);
    const heavy = endurance(withLoads, supplies, { laps: 20, trainMassKg: 9 });
    expect(heavy.waterLasts.value).toBeCloseTo(100 / 6.5, 6);
    expect(heavy.fuelLasts.value).toBeCloseTo(27.5 / 1.45, 0);
    expect(light.fuelEndsFirst).toBeGreaterThan(0.95);
    expect(heavy.fuelEndsFirst).toBeLessThan(0.05);
  });

  test("an error of the fuel measure that all runs share is not averaged away", () => {
    const runs = (relative: number) =>
      Array.from({ length: 12 }, (_, i) =>
        madeRun(i, exactly(4), withShared(1, relative, "fuel measure"), {
          otherFuel: withShared(10, relative, "fuel measure"),
        }),
      );
    const supplies = { waterG: 1000, fuelG: 40 };
    const { fuelLasts } = endurance(runs(0.05), supplies);
    if (fuelLasts.value === null) throw new Error(fuelLasts.why);
    // ln((40 - o)/f): both 5 %, together 0.05 (1 + 10/30)
    const sd = 0.05 * (1 + 10 / 30);
    expect(Math.log(fuelLasts.hi95 / fuelLasts.value)).toBeCloseTo(1.96 * sd, 2);
    expect(Math.log(fuelLasts.value / fuelLasts.lo95)).toBeCloseTo(1.96 * sd, 2);
    const none = endurance(runs(0), supplies).fuelLasts;
    expect(none).toMatchObject({ lo95: expect.closeTo(30, 6), hi95: expect.closeTo(30, 6) });
  });

  test("hard runs use more of both, so which ends first is surer than either's length", () => {
    const hard = [0.8, 0.9, 1, 1.1, 1.2];
    const together = hard.map((by, i) =>
      madeRun(i, exactly(4 * by), exactly(1 * by), { otherFuel: exactly(0) }),
    );
    const apart = hard.map((by, i) =>
      madeRun(i, exactly(4 * by), exactly(2 - by), { otherFuel: exactly(0) }),
    );
    const supplies = { waterG: 80, fuelG: 22 };
    expect(endurance(together, supplies).fuelEndsFirst).toBeLessThan(0.1);
    expect(endurance(apart, supplies).fuelEndsFirst).toBeGreaterThan(0.25);
  });

  test("what water and fuel of one run owe to its count of laps says nothing of which ends first", () => {
    const runs = (source: (i: number, of: string) => string) =>
      [4, 4.02, 3.98].map((water, i) =>
        madeRun(i, withShared(water, 0.2, source(i, "water")), withShared(1, 0.2, source(i, "fuel")), {
          otherFuel: exactly(0),
        }),
      );
    const supplies = { waterG: 80, fuelG: 22 };
    const sameCount = endurance(
      runs((i) => `laps of run ${i}`),
      supplies,
    );
    const apart = endurance(
      runs((i, of) => `${of} of run ${i}`),
      supplies,
    );
    expect(sameCount.fuelEndsFirst).toBeLessThan(apart.fuelEndsFirst ?? 0);
  });

  test("one run alone takes the spread that the owner says", () => {
    const run = [madeRun(0, exactly(4), exactly(1), { otherFuel: exactly(0) })];
    const at = (spreadRelative?: number) =>
      enduranceOf(
        run,
        modelsOf(run, {
          locomotiveId: "small",
          plan: { laps: 20 },
          ...(spreadRelative === undefined ? {} : { spreadRelative }),
        }),
        { kind: "laps", amount: 20, spreadRelative },
        { waterMl: (80 * Math.exp(0.15)) / WATER_G_PER_ML, fuelG: 23 },
      );
    // exp(0.15) times the 80 g of water expected, 1.15 times the 20 g of fuel: one standard deviation of 15 %
    expect(at().waterSuffices).toBeCloseTo(0.8413, 4);
    expect(at(0.075).waterSuffices).toBeCloseTo(0.9772, 4);
    expect(at().fuelSuffices).toBeCloseTo(0.8413, 4);
  });

  test("a run that strays far above the others is no reason to think the next one dry", () => {
    // by logarithms 4, 4.4, 3.6 and 8 have mean ln 4.75 and s 0.357; half of the runs to come need less than 4.75
    const runs = [4, 4.4, 3.6, 8].map((water, i) => madeRun(i, exactly(water), exactly(1)));
    const half = Math.exp((Math.log(4) + Math.log(4.4) + Math.log(3.6) + Math.log(8)) / 4);
    const at = (perLap: number) =>
      endurance(runs, { waterG: 20 * perLap, fuelG: 100 }).waterSuffices ?? Number.NaN;
    expect(at(half)).toBeCloseTo(0.5, 6);
    expect(at(half * 1.3) + at(half / 1.3)).toBeCloseTo(1, 6);
    // the plain mean of 5 g lies above what half of them need
    expect(at(5)).toBeGreaterThan(0.53);
    expect(at(0)).toBe(0);
  });

  test("no fuel or no water is no riddle", () => {
    const runs = [madeRun(0, exactly(4), exactly(1), { otherFuel: exactly(5) })];
    expect(endurance(runs, { waterG: 80, fuelG: 0 }).fuelEndsFirst).toBe(1);
    expect(endurance(runs, { waterG: 0, fuelG: 20 }).fuelEndsFirst).toBe(0);
    expect(endurance(runs, { waterG: 80, fuelG: 4 })).toMatchObject({
      fuelEndsFirst: expect.closeTo(1, 6),
      fuelLasts: { value: null, why: "raising steam alone may use up the fuel" },
    });
  });
});
