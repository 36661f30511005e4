import { z } from "zod";
import {
  between,
  celsius,
  identifier,
  moment,
  notNegative,
  positive,
  secondsSinceStart,
  shortWords,
  words,
} from "./bounds.ts";
import { entrySchema } from "./entry.ts";

export const traceSchema = z.strictObject({
  channel: z.enum(["pressureBarG", "temperatureC", "levelMm", "massG"]),
  startS: secondsSinceStart,
  everyS: positive(86_400),
  values: z.array(between(-1e9, 1e9).nullable()).max(2_000_000),
});
export type Trace = z.infer<typeof traceSchema>;

export const conditionsSchema = z.strictObject({
  ambientC: celsius,
  feedC: between(0, 100),
  atmosphereHPa: between(300, 1200).optional(),
  dryness: between(0.5, 1).optional(),
});
export type Conditions = z.infer<typeof conditionsSchema>;

/** A steaming without its entries and traces. */
export const steamingHeadSchema = z.strictObject({
  id: identifier,
  locomotiveId: identifier,
  title: shortWords.optional(),
  purpose: z.enum(["trial", "standing", "hot-hold", "cold-hold", "safety-valve", "other"]),
  startedAt: moment,
  conditions: conditionsSchema.optional(),
  track: z.strictObject({ lapM: positive(1e6), place: shortWords.optional() }).optional(),
  train: z.strictObject({ massKg: notNegative(1e6), resistanceRatio: notNegative(1).optional() }).optional(),
  notes: words.optional(),
});
export type SteamingHead = z.infer<typeof steamingHeadSchema>;

export const steamingSchema = steamingHeadSchema.extend({
  entries: z.array(entrySchema).max(200_000),
  traces: z.array(traceSchema).max(100).optional(),
});
export type Steaming = z.infer<typeof steamingSchema>;
