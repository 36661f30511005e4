import { expect, test } from "vitest";
import { fuelSources } from "../../src/analysis/fuel/fuel-sources.ts";
import { fuelProperties, fuelTable } from "../../src/analysis/fuel/fuel-table.ts";
import { fuelSchema } from "../../src/logbook/locomotive.ts";
import { engineFurtherSections } from "../../web/forms/engine-fields.ts";
import { withFuelHints } from "../../web/forms/fuel-hints.ts";

const fields = engineFurtherSections.flatMap((section) => section.fields);
const hint = (path: string, kind: string) =>
  withFuelHints(fields, kind).find((field) => field.path === path)?.hint;

test("every fuel of the table shows its figure and its source beside the field that overrides it", () => {
  for (const [kind, usual] of Object.entries(fuelTable)) {
    const said = hint("fuel.lowerHeatingValueMJPerKg", kind);
    if (usual === null) expect(said).toContain("none for another fuel");
    else {
      const source = fuelSources[kind as keyof typeof fuelSources];
      expect(source).toMatch(/table|data sheet|memory|common practice|computed/);
      expect(said).toContain(`${usual.lowerHeatingValueMJPerKg} MJ/kg`);
      expect(said).toContain(source);
      if (usual.densityGPerMl !== null)
        expect(hint("fuel.densityGPerMl", kind)).toContain(`${usual.densityGPerMl} g/ml`);
    }
  }
  expect(hint("fuel.tankMl", "spirit")).toBeUndefined();
});

test("the engine's own figures are taken before the table's, each for itself", () => {
  const own = fuelSchema.parse({ kind: "spirit", lowerHeatingValueMJPerKg: 26.8, densityGPerMl: 0.79 });
  expect(fuelProperties(own)).toMatchObject({ lowerHeatingValueMJPerKg: 26.8, densityGPerMl: 0.79 });
  expect(fuelProperties({ kind: "spirit", densityGPerMl: 0.8 })).toMatchObject({
    lowerHeatingValueMJPerKg: 24.6,
    densityGPerMl: 0.8,
  });
  expect(fuelProperties({ kind: "other" })).toBeNull();
});
