import { describe, expect, test } from "vitest";
import { fuelSources } from "../../src/analysis/fuel/fuel-sources.ts";
import { fuelProperties } from "../../src/analysis/fuel/fuel-table.ts";
import { evaporationCeiling } from "../../src/analysis/plausibility/heat-ceiling.ts";
import { sourcesOf } from "../../src/analysis/sources.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";
import { relativeError } from "./closeness.ts";
import { anthracite, ceilings, fuels, isobutane, methanol } from "./fuels.ts";

describe("fuels", () => {
  test.each(fuels)("$kind: $source", ({ kind, mjPerKg, kgPerL, tolerance }) => {
    const found = fuelProperties({ kind });
    expect(relativeError(found?.lowerHeatingValueMJPerKg ?? Number.NaN, mjPerKg)).toBeLessThanOrEqual(
      tolerance,
    );
    if (kgPerL === null) expect(found?.densityGPerMl).toBeNull();
    else expect(found?.densityGPerMl).toBeCloseTo(kgPerL, 3);
    expect(fuelSources[kind]).toMatch(/\w/);
  });

  test("no row was dropped", () => {
    expect(fuels).toHaveLength(7);
    expect(ceilings).toHaveLength(2);
  });

  test("isobutane lies within what is not known of bottled butane", () => {
    const butane = fuelProperties({ kind: "butane" });
    if (butane === null) throw new Error("no butane");
    expect(relativeError(isobutane, butane.lowerHeatingValueMJPerKg)).toBeLessThan(butane.uRelative);
    expect(isobutane).not.toBe(butane.lowerHeatingValueMJPerKg);
  });

  test("steam coal is better than anthracite as tested, by less than twice its own doubt", () => {
    const coal = fuelProperties({ kind: "coal" });
    if (coal === null) throw new Error("no coal");
    expect(coal.lowerHeatingValueMJPerKg).toBeGreaterThan(anthracite.most);
    expect(coal.lowerHeatingValueMJPerKg * (1 - 2 * coal.uRelative)).toBeLessThan(anthracite.most);
    expect(coal.lowerHeatingValueMJPerKg * (1 - 5 * coal.uRelative)).toBeLessThan(anthracite.least);
  });

  test("methanol is burnt by the figures that its owner gives", () => {
    const { mjPerKg, kgPerL } = methanol;
    const given = { kind: "other", lowerHeatingValueMJPerKg: mjPerKg, densityGPerMl: kgPerL } as const;
    expect(fuelProperties(given)).toMatchObject({
      lowerHeatingValueMJPerKg: mjPerKg,
      densityGPerMl: kgPerL,
    });
  });
});

describe("what a fuel could evaporate at the most, from 20 °C to 40 psi", () => {
  const from = sourcesOf(smallEngine(), { ...smallSteaming(), conditions: { ambientC: 20, feedC: 20 } });

  test.each(ceilings)("$fuel: $water", ({ mjPerKg, perKg, water, digits, usual }) => {
    const most = evaporationCeiling(mjPerKg, 40 * 0.0689476, from) * perKg;
    expect(most).toBeCloseTo(water, digits);
    // boilers give a quarter to three fifths of it
    expect(usual[0] / most).toBeGreaterThan(0.25);
    expect(usual[1] / most).toBeLessThan(0.6);
  });
});
