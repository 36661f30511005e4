import { describe, expect, test } from "vitest";
import { fuelProperties } from "../../../src/analysis/fuel/fuel-table.ts";

describe("a fuel of which the engine's record says nothing", () => {
  test("of another kind is not known", () => {
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
