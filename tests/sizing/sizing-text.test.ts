import { expect, test } from "vitest";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import { sizingText } from "../../src/sizing/sizing-text.ts";
import { smallEngine } from "../support/small-logbook.ts";
import { exactly, madeRun } from "./made-runs.ts";
import { smallPlan } from "./small-plan.ts";

const engine = smallEngine();
const runs = [4, 4.4, 4.2].map((water, i) => madeRun(i, exactly(water)));

test.each([
  ["with tanks", smallPlan()],
  ["without tanks", { locomotiveId: engine.id, plan: { laps: 30 } }],
] as [string, Plan][])("%s the sheet's parts are parted by one blank line each", (_, plan) => {
  const text = sizingText(engine, plan, sizeUp(engine, plan, modelsOf(runs, plan)).sizing);
  expect(text).toContain("\n\nFuel that suffices");
  expect(text).not.toContain("\n\n\n");
  expect(text).toMatch(/^Tank bench: .+\n\nWater expected/);
});
