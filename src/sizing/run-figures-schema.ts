import { z } from "zod";
import { figure } from "../analysis/report-schema.ts";
import { feeders } from "./run-figures.ts";

const part = z.strictObject({
  name: z.string(),
  u: z.number(),
  source: z.string().optional(),
  df: z.number().optional(),
});
const measured = z.strictObject({
  value: z.number(),
  unit: z.string(),
  parts: z.array(part).readonly(),
  range95: z.tuple([z.number(), z.number()]).readonly().optional(),
});
const withParts = z.union([measured, z.strictObject({ value: z.null(), why: z.string() })]);
const perUnit = z.strictObject({ water: withParts, fuel: withParts, amount: z.number().nullable() });

/** What sizing needs of one steaming, its errors still by source. */
export const runFiguresSchema = z.strictObject({
  steamingId: z.string(),
  title: z.string(),
  startedAt: z.string(),
  trainMassKg: z.number().nullable(),
  lapM: z.number().optional(),
  per: z.strictObject({ laps: perUnit, minutes: perUnit, distanceM: perUnit }),
  otherFuel: withParts,
  metresPerMinute: z.number().nullable(),
  pumpPerRevolution: figure,
  coolingLoss: figure,
  fedInSteam: z.enum(feeders).optional(),
});
