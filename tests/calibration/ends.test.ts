import { expect, test } from "vitest";
import { seedsFrom } from "./calibrate.ts";
import { binThreshold, endsBins, fuelThresholds } from "./forecast-futures.ts";
import { isMet, thresholdLine } from "./threshold.ts";

const fuel = fuelThresholds(seedsFrom(10_001, 100));
const { bins } = endsBins(seedsFrom(10_001, 100), 2);

/** The standard error of the share held is about 2.5 points, over runs. */
test("the minutes of fuel left are where their 90 % range says", () => {
  for (const threshold of fuel) {
    expect(isMet(threshold), thresholdLine(threshold)).toBe(true);
    expect(threshold.of).toBeGreaterThan(150);
  }
});

/** Some 100 runs tell of no finer a bin than half; the verification asks the same of each fifth, over more runs. */
test("which ends first comes as often as is said, in the half that is likelier the water and in the other", () => {
  for (const bin of bins) expect(isMet(binThreshold(bin)), thresholdLine(binThreshold(bin))).toBe(true);
  const [fire, water] = bins;
  expect((water?.camePercent ?? 0) - (fire?.camePercent ?? 100)).toBeGreaterThan(25);
  expect((fire?.of ?? 0) + (water?.of ?? 0)).toBeGreaterThan(200);
});
