import { describe, expect, test } from "vitest";
import { fuelSources } from "../../../src/analysis/fuel/fuel-sources.ts";
import { fuelProperties } from "../../../src/analysis/fuel/fuel-table.ts";

describe("a fuel of which the engine's record says nothing", () => {
  /**
   * Lower heating value MJ/kg, density of the liquid at 20 °C g/ml. LPG data sheet, gas basis: propane 46.35, 0.500;
   * n-butane 45.74, 0.579; of a gram of both seven to three by mass 0.7 x 45.74 + 0.3 x 46.35 = 45.92 kJ, in 0.7/0.579 +
   * 0.3/0.500 = 1.809 ml. Welsh steam coal: 14,000 Btu/lb x 2.326 kJ/kg = 32.6. Methylated spirit, 95 % ethanol by volume:
   * 0.95 x 0.790 g of ethanol of 26.81 MJ/kg (Cengel & Boles, table A-27) and the rest water, some of which the mixing
   * swallows, in 0.81 g: within 2 in 100 of 24.6.
   */
  test.each([
    ["propane", 46.35, 0.5],
    ["butane", 45.74, 0.579],
    ["butane-propane-70-30", 0.7 * 45.74 + 0.3 * 46.35, 1 / (0.7 / 0.579 + 0.3 / 0.5)],
    ["coal", (14_000 * 2.326) / 1000, null],
    ["charcoal", 29.5, null],
    ["spirit", (0.95 * 0.79 * 26.81) / 0.81, 0.81],
  ] as const)("has the usual values: %s", (kind, heating, density) => {
    const found = fuelProperties({ kind });
    expect(Math.abs((found?.lowerHeatingValueMJPerKg ?? Number.NaN) / heating - 1)).toBeLessThan(
      kind === "spirit" ? 0.02 : 0.002,
    );
    if (density === null) expect(found?.densityGPerMl).toBeNull();
    else expect(found?.densityGPerMl).toBeCloseTo(density, 3);
    expect(found?.uRelative).toBeGreaterThanOrEqual(density === null ? 0.05 : 0.01);
    expect(fuelSources[kind]).toMatch(/\w/);
  });

  test("and of another kind is not known", () => {
    expect(fuelProperties({ kind: "other" })).toBeNull();
    expect(fuelProperties({ kind: "other", densityGPerMl: 0.9 })).toBeNull();
  });
});

describe("a fuel of which the engine's record says something", () => {
  test("its own density stands beside the usual heating value", () => {
    const usual = fuelProperties({ kind: "spirit" });
    expect(fuelProperties({ kind: "spirit", densityGPerMl: 0.79 })).toEqual({
      ...usual,
      densityGPerMl: 0.79,
    });
  });

  test("its own heating value is good to 1 in 100, and its density the usual one", () => {
    expect(fuelProperties({ kind: "spirit", lowerHeatingValueMJPerKg: 25 })).toEqual({
      lowerHeatingValueMJPerKg: 25,
      uRelative: 0.01,
      densityGPerMl: 0.81,
    });
    expect(fuelProperties({ kind: "other", lowerHeatingValueMJPerKg: 25 })?.densityGPerMl).toBeNull();
  });
});
