import { fuelSources } from "../../src/analysis/fuel/fuel-sources.ts";
import { fuelTable } from "../../src/analysis/fuel/fuel-table.ts";
import type { Fuel } from "../../src/logbook/locomotive.ts";
import type { FieldSpec } from "./field-spec.ts";

/** What the table holds for the engine's fuel, and where it is from, beside the fields that override it. */
function hintFor(path: string, kind: Fuel["kind"]): string | null {
  const usual = fuelTable[kind];
  if (path === "fuel.lowerHeatingValueMJPerKg") {
    return usual === null
      ? "The lower one. The table holds none for another fuel: without it there is no efficiency."
      : `The lower one. Left empty: ${usual.lowerHeatingValueMJPerKg} MJ/kg, give or take ${Math.round(100 * usual.uRelative)} % (${fuelSources[kind]}).`;
  }
  if (path === "fuel.densityGPerMl") {
    if (usual === null) return "At 20 °C. Needed where the fuel is measured by ml; the table holds none.";
    return usual.densityGPerMl === null
      ? "A solid is weighed: leave it empty."
      : `Of the liquid at 20 °C. Left empty: ${usual.densityGPerMl} g/ml, of the same source.`;
  }
  return null;
}

export const withFuelHints = (fields: readonly FieldSpec[], kind: unknown): FieldSpec[] =>
  fields.map((field) => {
    const hint =
      kind !== undefined && String(kind) in fuelTable ? hintFor(field.path, kind as Fuel["kind"]) : null;
    return hint === null ? field : { ...field, hint };
  });
