import { expect, test } from "vitest";
import { missingFromStartingSet, startingSet } from "../../src/care/starting-set.ts";
import { engineWith } from "./season-logbook.ts";

test("the starting set follows cylinders and pumps", () => {
  const bare = startingSet(engineWith([])).map(({ id }) => id);
  expect(bare).not.toContain("feed-clack");
  expect(bare.some((id) => id.includes("piston-gland"))).toBe(false);
  const two = startingSet({
    ...engineWith([]),
    cylinders: { count: 2, boreMm: 14, strokeMm: 16, cutoff: 0.75 },
    axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 },
  });
  const ids = two.map(({ id }) => id);
  expect(ids).toEqual(
    expect.arrayContaining(["right-piston-gland", "left-piston-gland", "feed-clack", "axle-pump-gland"]),
  );
  expect(new Set(ids).size).toBe(ids.length);
});

test("what is listed already is not offered again", () => {
  const engine = engineWith([{ id: "regulator", name: "My regulator", kind: "regulator" }]);
  expect(missingFromStartingSet(engine).map(({ id }) => id)).not.toContain("regulator");
});
