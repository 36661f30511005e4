import { expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import { drip, engineWith, outing, recordsOf } from "./season-logbook.ts";

const engine = engineWith([{ id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 }]);
const levels = [0.1, 0.11, 0.1, 0.09, 0.1, 0.1, 0.11, 0.1];

/** Eight weeks of catches that span seven hours in steam, then weeks of an hour each with none. */
function after(weeksWithout: number) {
  const caught = levels.map((g, week) => outing(week, [drip("gland", g)]));
  const none = Array.from({ length: weeksWithout }, (_, i) => outing(levels.length + i, []));
  return careOf(engine, recordsOf(engine, [...caught, ...none]), []).fittings[0];
}

test("catches carried on for no longer than they span are as sure as they were", () => {
  const care = after(6);
  expect(care?.sure).not.toBe("hardly sure");
  expect(care?.why).not.toContain("the last catch");
});

test("carried on for longer, the last catch is named with its age, it is hardly sure, and a drip is asked for", () => {
  const care = after(20);
  expect(care?.sure).toBe("hardly sure");
  expect(care?.why).toMatch(/^Would by now pass /);
  // caught 2000 s into the eighth hour, of 28
  expect(care?.why).toMatch(
    /; the last catch, 0\.10 g\/min on 2026-05-23, is 20 h in steam old, longer than all catches span, hardly sure\.$/,
  );
  expect(care?.measureNext).toMatch(/^Catch a drip at the next steaming/);
});
