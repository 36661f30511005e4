import { expect, test } from "vitest";
import { asHeatGoes, burningClock, burningOf } from "../../../src/analysis/fuel/fuel-burning.ts";
import type { Phase } from "../../../src/analysis/state/phases.ts";
import { type Measured, measured, measuredWithShared } from "../../../src/quantity/measured.ts";

const phaseOf = (name: Phase["name"], fromS: number, toS: number): Phase => ({
  name,
  fromS,
  toS,
  inferred: false,
});
const fire = [[0, 1200]] as const;
const phases = [phaseOf("standing", 0, 600), phaseOf("running", 600, 1200)];
/** Spirit burns alike standing and running: half of it under way, in doubt by 0.2 x 0.5 x 0.5. */
const spirit = burningOf({ kind: "spirit" });
const told = (underWay: Measured, when = phases) =>
  asHeatGoes(spirit, burningClock(fire, when, spirit), when, fire, underWay);
const shareOf = (underWay: Measured) => {
  const clock = burningClock(fire, phases, told(underWay));
  return clock(600, 1200) / clock(0, 1200);
};

test("a share that the heat tells surely is the fuel's, and what it leaves in doubt is its own", () => {
  expect(shareOf(measured(0.7, 1e-6, "1", "heat"))).toBeCloseTo(0.7, 9);
  expect(told(measured(0.7, 1e-6, "1", "heat")).astray).toBeCloseTo(0, 5);
  expect(shareOf(measured(0.7, 9, "1", "heat"))).toBeCloseTo(0.5, 4);
  expect(told(measured(0.7, 9, "1", "heat")).astray).toBeCloseTo(0.2, 4);
});

/** As sure of running against the rest as what is thought, which is even; of 1.5 to 1 half way to it by factors is its root. */
const ALIKE = 0.2 * 0.6 * 0.4;
const HALF_WAY = Math.sqrt(1.5) / (1 + Math.sqrt(1.5));

test("as sure as what is thought, it goes half way, and both together are surer by root 2", () => {
  const alike = measured(0.6, ALIKE, "1", "heat");
  expect(shareOf(alike)).toBeCloseTo(HALF_WAY, 9);
  expect(told(alike).astray).toBeCloseTo(0.2 / Math.SQRT2, 9);
});

test("what it owes to an error in common it hands on, with its sign, and no more doubt than before", () => {
  const shared = measuredWithShared(0.6, ALIKE, "1", "feed", "feed scale");
  const { owed, astray } = told({ ...shared, parts: shared.parts.map((part) => ({ ...part, u: -part.u })) });
  expect(owed).toEqual([{ name: "feed", source: "feed scale", u: expect.closeTo(-0.1, 9) }]);
  expect(Math.hypot(astray, owed[0]?.u ?? 0)).toBeCloseTo(0.2 / Math.SQRT2, 9);
});

test("where she ran all the while, or never, there is nothing to share", () => {
  for (const name of ["running", "standing"] as const)
    expect(told(measured(0.6, 0.01, "1", "heat"), [phaseOf(name, 0, 1200)])).toBe(spirit);
});
