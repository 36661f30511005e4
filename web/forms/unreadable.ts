import type { Problem } from "../../src/logbook/problems.ts";
import { type Draft, valueAt } from "./draft.ts";
import type { FieldSpec } from "./field-spec.ts";

/** What can be told of a form without the server: a needed field left empty, and words where a number belongs. */
export function unreadable(fields: readonly FieldSpec[], draft: Draft): Problem[] {
  return fields.flatMap(({ path, input, needed }) => {
    const value = valueAt(draft, path);
    if (value === undefined || value === "") {
      return needed === true ? [{ path, came: "nothing", wanted: "a value" }] : [];
    }
    const isNumber = input.kind === "number" || input.kind === "time";
    return isNumber && typeof value !== "number"
      ? [{ path, came: `the text "${String(value)}"`, wanted: "a number" }]
      : [];
  });
}
