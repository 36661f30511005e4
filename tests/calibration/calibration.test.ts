import { describe, expect, test } from "vitest";
import { contractKeys } from "../sample-data/contract-keys.ts";
import { calibrate, seedsFrom } from "./calibrate.ts";
import { calibrateColdHolds } from "./calibrate-cold-hold.ts";
import { missedWants } from "./row-wants.ts";

/**
 * The promise of the intervals, on simulated steamings that the method was not built on. `npm run verify` prints the
 * whole table over many more.
 *
 * Each row keeps the wants of that table (`row-wants.ts`), give or take what chance does, and some limits beside them.
 * With 200 steamings (phases: more) an estimator whose intervals really hold the truth 95 times in 100 is found below
 * 90 % or at 99.5 % and above less than once in 500 such sets (binomial); one that holds it 80 times in 100 passes
 * less than once in 10,000. Intervals blown up to catch the truth fail by the spread of the misses, which is 1 for a
 * just u, by the width against least squares that is told the true wander, and by the median of u over the truth, which is
 * to stay within 1.4 times what it is on other seeds.
 */
const rows = [...calibrate(seedsFrom(10_001, 200)), ...calibrateColdHolds(seedsFrom(10_001, 200))];
/** Under which row, here or in the file named, each figure of the report is gated. */
const GATES: Record<string, string> = {
  "phases[].steamingRate": "steaming rate, running",
  "totals.waterDrawn": "water drawn",
  "totals.feed": "fed in all",
  "totals.fuelBurnt": "fuel burnt",
  "perLap.water": "water a lap",
  "perLap.fuel": "fuel a lap",
  "per100m.water": "water for 100 m",
  "perMinuteRunning.water": "water a minute",
  "raising.power": "raising power",
  "heat.efficiency": "efficiency",
  "heat.evaporationRatio": "evaporation ratio",
  "heat.factorOfEvaporation": "factor of evaporation",
  "heat.equivalentEvaporation": "equivalent evaporation",
  "cooling.lossAtWorkingPressure": "loss in still air",
  "cooling.leak": "leak, shut in",
  "coldHold.compliance": "compliance",
  "coldHold.leak": "leak, cold hold",
  "safetyValve.lift": "valve lifts",
  "safetyValve.reseat": "valve reseats",
  "safetyValve.highest": "highest pressure",
  "safetyValve.rise": "above working pressure",
  "leaks[].rate": "drip",
  "leaks[].equivalentHole": "hole of a drip",
  "pump.perRevolution": "engine-and-pump.test.ts",
  "pump.volumetricEfficiency": "engine-and-pump.test.ts",
  "engine.dryDemand": "engine-and-pump.test.ts",
  "engine.missingQuantity": "engine-and-pump.test.ts",
  "engine.overallEfficiency": "engine-and-pump.test.ts",
  "forecast.waterAboveLowest": "water above lowest",
  "forecast.minutesToLowest": "forecast.test.ts",
  "forecast.lapsToLowest": "forecast.test.ts",
};
const rowOf = (name: string) => {
  const row = rows.find((one) => one.name === name);
  if (row === undefined) throw new Error(`${name} was never reckoned`);
  return row;
};

describe("95 % intervals on simulated steamings", () => {
  test.each([
    ["steaming rate, raising", 150, 8],
    ["steaming rate, standing", 150, 1.1],
    ["steaming rate, running", 250, 0.33],
    ["steaming rate, shut-in", 90, 7],
    ["water drawn", 190, 0.055],
    ["fed in all", 60, 0.04],
    ["water a lap", 90, 0.11],
    ["water a minute", 100, 0.105],
    ["water for 100 m", 80, 0.11],
    ["factor of evaporation", 160, 0.0012],
    ["equivalent evaporation", 120, 0.085],
    // those that were drained in the end hold none
    ["water above lowest", 140, 0.085],
    ["efficiency", 120, 0.052],
    ["evaporation ratio", 120, 0.07],
    ["fuel burnt", 120, 0.014],
    ["fuel a lap", 60, 0.14],
    ["raising power", 180, 0.043],
    ["loss in still air", 50, 0.19],
    ["drip", 80, 1.4],
    ["hole of a drip", 80, 0.8],
    ["valve lifts", 70, 0.06],
    ["valve reseats", 70, 0.08],
    ["highest pressure", 70, 0.06],
    ["above working pressure", 70, 2.1],
    ["compliance", 180, 0.05],
    ["leak, cold hold", 180, 1.7],
  ])("%s: hold the truth, are given at least %i times, and are not blown up", (name, atLeast, widest) => {
    const row = rowOf(name);
    const { given, held, spread, widthRatio, relativeU } = row;
    expect(missedWants(row)).toEqual([]);
    expect(given).toBeGreaterThanOrEqual(atLeast);
    expect(held / given).toBeGreaterThan(0.9);
    expect(held / given).toBeLessThan(0.995);
    expect(spread).toBeGreaterThan(0.7);
    expect(spread).toBeLessThan(1.3);
    expect(widthRatio ?? 1).toBeLessThan(1.2);
    expect(relativeU).toBeLessThan(widest);
  });
});

test("no figure of the report is without a gate", () => {
  const figures = contractKeys().filter(({ isFigure }) => isFigure);
  expect(Object.keys(GATES).sort()).toEqual(figures.map(({ path }) => path).sort());
  const here = Object.values(GATES).filter((gate) => !gate.endsWith(".ts"));
  for (const name of here) expect(rowOf(name).given, name).toBeGreaterThan(0);
});

/** What had burnt where nobody looked at what was left is thought of: held and even like any other figure, and far tighter than all or nothing. */
test.each(["efficiency", "evaporation ratio", "equivalent evaporation", "fuel burnt", "fuel a lap"])(
  "%s, where what was left was not read: the range holds the truth, leans to neither side, and is not blown up",
  (name) => {
    const row = rowOf(`${name}, left unread`);
    const { given, relativeU } = row;
    expect(missedWants(row)).toEqual([]);
    expect(given).toBeGreaterThan(20);
    expect(relativeU).toBeLessThan(0.25);
  },
);

/** The moment at which working pressure was met may lie in a gap in which the owner eased the fire: now and then it is far off. */
test("raising power at the true moment of working pressure is held", () => {
  const row = rowOf("raising power, true moment");
  const { given, relativeU } = row;
  expect(missedWants(row)).toEqual([]);
  expect(given).toBeGreaterThan(80);
  expect(relativeU).toBeLessThan(0.045);
});

/** A leak is never below none, and is thought to be small: its misses spread less than one. */
test("leak, shut in: the range holds the truth, is given at least 50 times, and is not blown up", () => {
  const row = rowOf("leak, shut in");
  const { given, held, spread, relativeU } = row;
  expect(missedWants(row)).toEqual([]);
  expect(given).toBeGreaterThanOrEqual(50);
  expect(held / given).toBeGreaterThan(0.9);
  expect(spread).toBeGreaterThan(0.5);
  expect(spread).toBeLessThan(1.3);
  // 1.01 on other seeds (171 shut in, from 43001): as wide as two readings of the glass leave it
  expect(relativeU).toBeLessThan(1.4);
});
