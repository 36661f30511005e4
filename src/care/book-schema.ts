import { z } from "zod";
import { figure } from "../analysis/report-schema.ts";
import { fittingSchema } from "../logbook/locomotive.ts";
import { serviceSchema } from "../logbook/service.ts";
import { grades } from "./evidence.ts";
import { assurances, states } from "./verdict.ts";

/** Everything the pages of the Fitter's book show of one engine. */

const hours = z.number().describe("hours in steam of the engine's life");
const interval = z.tuple([z.number(), z.number()]);
const reading = { steamingId: z.string(), at: z.string(), hours };

export const fittingBookSchema = z.strictObject({
  fitting: fittingSchema,
  limit: z.strictObject({ gPerMin: z.number(), own: z.boolean() }).nullable(),
  state: z.enum(states),
  sure: z.enum(assurances),
  why: z.string(),
  measureNext: z.string().nullable(),
  readings: z.int(),
  since: z.strictObject({
    hours: z.number(),
    runningH: z.number(),
    pistonM: z.number().nullable(),
    outings: z.int(),
    service: serviceSchema.nullable(),
  }),
  startH: hours,
  levelNow: z.strictObject({ value: z.number(), low80: z.number(), high80: z.number() }).nullable(),
  slope: figure,
  hoursToLimit: figure,
  hoursToLimit80: interval.nullable(),
  drips: z.array(z.strictObject({ ...reading, gPerMin: z.number(), u: z.number() })),
  looks: z.array(z.strictObject({ ...reading, grade: z.enum(grades) })),
  leftOut: z
    .array(z.strictObject({ ...reading, gPerMin: z.number(), why: z.string(), cold: z.boolean() }))
    .describe("catches that are not in the course, as they were caught, with why"),
  course: z.array(z.strictObject({ hours, low: z.number(), middle: z.number(), high: z.number() })),
  services: z.array(
    z.strictObject({
      service: serviceSchema,
      atH: hours,
      yetToCome: z.boolean(),
      before: z.int(),
      after: z.int(),
      difference: figure,
      toldApart: z.boolean().nullable(),
      moreSteamings: z.int().nullable(),
      words: z.string(),
      engine: z.array(
        z.strictObject({
          name: z.string(),
          unit: z.string(),
          before: z.int(),
          after: z.int(),
          difference: figure,
          shift: z.number().nullable(),
          toldApart: z.boolean().nullable(),
        }),
      ),
    }),
  ),
});
export type FittingBook = z.infer<typeof fittingBookSchema>;

export const bookSchema = z.strictObject({
  locomotiveId: z.string(),
  name: z.string(),
  hours,
  outingH: z.number(),
  fittings: z.array(fittingBookSchema),
  indicators: z.array(
    z.strictObject({
      key: z.string(),
      name: z.string(),
      unit: z.string(),
      worse: z.enum(["up", "down"]),
      alarmAt: z.string().nullable(),
      sudden: z.boolean(),
      points: z.array(
        z.strictObject({
          ...reading,
          value: z.number(),
          u: z.number(),
          like: z.string(),
          worseBy: z.number().nullable(),
        }),
      ),
    }),
  ),
  outingsToFalseAlarm: z.number(),
  suspects: z.array(
    z.strictObject({
      name: z.string(),
      fittings: z.array(z.string()),
      weight: z.number(),
      why: z.string(),
      speaksFor: z.array(z.string()),
      speaksAgainst: z.array(z.string()),
      check: z.string(),
    }),
  ),
  jobs: z.array(
    z.strictObject({
      takeOff: z.array(z.string()),
      takeOffSaid: z.boolean(),
      do: z.array(z.string()),
      alsoWorth: z.array(z.string()),
      hoursSaved: z.number(),
      outingsSaved: z.int(),
    }),
  ),
});
export type Book = z.infer<typeof bookSchema>;
