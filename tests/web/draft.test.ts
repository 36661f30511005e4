import { expect, test } from "vitest";
import { newId } from "../../web/api/new-id.ts";
import { formPath, valueAt, withValue } from "../../web/forms/draft.ts";

const draft = {
  name: "Wren",
  boiler: { shape: { kind: "horizontal" } },
  fittings: [{ id: "a" }, { id: "b" }],
};

test("a value is put at its path and the draft before it stays as it was", () => {
  const changed = withValue(draft, "boiler.shape.innerLengthMm", 150);
  expect(valueAt(changed, "boiler.shape")).toEqual({ kind: "horizontal", innerLengthMm: 150 });
  expect(valueAt(draft, "boiler.shape")).toEqual({ kind: "horizontal" });
});

test("a list keeps being a list, and an item of it can be changed or taken out", () => {
  expect(withValue(draft, "fittings.1.name", "Clack").fittings).toEqual([
    { id: "a" },
    { id: "b", name: "Clack" },
  ]);
  expect(withValue(draft, "fittings.0", undefined).fittings).toEqual([{ id: "b" }]);
});

test("an object that is emptied goes away, so that an optional section left blank is not sent", () => {
  const begun = withValue(draft, "handPump.mlPerStroke", 1);
  expect(withValue(begun, "handPump.mlPerStroke", undefined)).toEqual(draft);
});

test("the server's path finds the form's field", () => {
  expect(formPath("boiler.shape.tubes[2].count")).toBe("boiler.shape.tubes.2.count");
});

test("ids are UUIDs of version 7, in the order in which they were made", () => {
  const ids = [1_700_000_000_000, 1_700_000_000_001, 1_800_000_000_000].map(newId);
  for (const id of ids)
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect([...ids].sort()).toEqual(ids);
  expect(ids[0]?.slice(0, 13)).toBe("018bcfe5-6800");
});
