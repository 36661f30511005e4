import { z } from "zod";
import { between, identifier, millilitres, positive } from "../logbook/bounds.ts";
import { planKinds } from "./run-figures.ts";
import { tanksSchema } from "./tanks-schema.ts";

export const lengthOfRunSchema = z
  .strictObject({
    laps: positive(1e6).optional(),
    minutes: positive(1e6).optional(),
    distanceM: positive(1e9).optional(),
    trainMassKg: between(0, 1e6)
      .optional()
      .describe("load behind the engine, where runs of other loads are among those chosen"),
  })
  .refine(
    (plan) => planKinds.filter((kind) => plan[kind] !== undefined).length === 1,
    "one of laps, minutes and distanceM",
  );

function eachOnce(ids: string[], context: z.RefinementCtx): void {
  for (const [i, id] of ids.entries()) {
    if (ids.indexOf(id) < i) context.addIssue({ code: "custom", path: [i], message: "each steaming once" });
  }
}

/** What a plan asks of its tanks: how long the run is to be, and what is to be there beside it. */
export const planSchema = z.strictObject({
  locomotiveId: identifier,
  steamings: z
    .array(identifier)
    .min(1)
    .max(500)
    .superRefine(eachOnce)
    .optional()
    .describe("all that tell the figure if absent"),
  plan: lengthOfRunSchema,
  probability: between(0.5, 0.999).optional().describe("that the water suffices; 0.95 if absent"),
  reserveMl: millilitres.optional().describe("0 if absent"),
  allowanceMl: millilitres.optional().describe("blow-off, blower and priming; 0 if absent"),
  fromBoilerMl: millilitres.optional().describe("what the boiler may give between its levels; 0 if absent"),
  usableFraction: between(0.05, 1)
    .optional()
    .describe("of a tank's whole inside; 0.87 if absent (a plain side tank, practice)"),
  spreadRelative: positive(2).optional().describe("spread of runs where one alone is chosen; 0.15 if absent"),
  tanks: tanksSchema.optional(),
});
export type Plan = z.infer<typeof planSchema>;
