import { z } from "zod";
import { figure, reportSchema } from "../../src/analysis/report-schema.ts";
import { alignments } from "../../src/compare/compare-runs.ts";
import { identifier } from "../../src/logbook/bounds.ts";
import { entrySchema } from "../../src/logbook/entry.ts";
import { locomotiveSchema } from "../../src/logbook/locomotive.ts";
import { steamingHeadSchema, traceSchema } from "../../src/logbook/steaming.ts";
import { type ErrorCode, errorStatuses } from "../errors.ts";

/** What the interface answers with, beside the logbook's own shapes. */

export const problemSchema = z.strictObject({ path: z.string(), came: z.string(), wanted: z.string() });

export const errorSchema = z.strictObject({
  code: z.enum(Object.keys(errorStatuses) as ErrorCode[]),
  message: z.string(),
  path: z.string().optional(),
  problems: z.array(problemSchema).optional(),
});

export const steamingSummarySchema = z.strictObject({
  id: identifier,
  locomotiveId: identifier,
  title: steamingHeadSchema.shape.title,
  purpose: steamingHeadSchema.shape.purpose,
  startedAt: steamingHeadSchema.shape.startedAt,
  entries: z.int(),
  laps: z.number(),
  figures: z.strictObject({
    steamingRate: figure,
    waterPerLap: figure,
    fuelPerLap: figure,
    efficiency: figure,
  }),
});
export type SteamingSummary = z.infer<typeof steamingSummarySchema>;

export const shedSchema = z.strictObject({
  engines: z.array(
    z.strictObject({
      locomotive: locomotiveSchema,
      demonstration: z.boolean(),
      steamings: z.array(steamingSummarySchema),
    }),
  ),
  demonstrationOffered: z.boolean(),
});

const { id, title, purpose, conditions, track, train, startedAt } = steamingHeadSchema.shape;
export const footplateSchema = z.strictObject({
  engines: z.array(
    z.strictObject({
      locomotive: locomotiveSchema,
      demonstration: z.boolean(),
      last: z
        .strictObject({ purpose: purpose.optional(), conditions, track, train })
        .describe("particulars of her latest steaming"),
      inSteam: z.array(z.strictObject({ id, title, purpose, startedAt })).describe("steamings that go on"),
    }),
  ),
});

const unit = z.string();
const points = z.array(z.tuple([z.number(), z.number()]));
export const seriesSchema = z.strictObject({ unit, points });
export const bandSchema = z.strictObject({
  unit,
  points: z.array(z.tuple([z.number(), z.number(), z.number(), z.number()])),
});

export const formerEntrySchema = z.strictObject({
  entryId: identifier,
  what: z.enum(["corrected", "deleted"]),
  former: entrySchema.nullable().describe("as it was until then; null where it had not been seen"),
  at: z.iso.datetime().describe("when the server was told"),
});

export const sheetSchema = z.strictObject({
  steaming: steamingHeadSchema,
  locomotive: locomotiveSchema,
  report: reportSchema,
  held: z
    .strictObject({
      fromS: z.number(),
      toS: z.number(),
      meanBar: z.number(),
      fromBar: z.number(),
      toBar: z.number(),
      waterC: z.strictObject({ from: z.number(), to: z.number() }).nullable(),
      equivalentHole: figure,
    })
    .nullable()
    .describe("when and at what pressure she was held cold, and the water's temperature at both ends"),
  burntForS: z.number().describe("how long the fire burnt; 0 where nothing tells"),
  pumpTimesDrawn: figure
    .nullable()
    .describe("what the axle pump gives with its by-pass shut over what she draws, both under way"),
  series: z.strictObject({
    pressure: seriesSchema,
    level: seriesSchema,
    waterDrawn: bandSchema,
    feed: seriesSchema,
    fuel: seriesSchema,
    laps: seriesSchema,
  }),
  entries: z.array(entrySchema),
  logged: z
    .array(
      z.strictObject({
        channel: traceSchema.shape.channel,
        samples: z.int(),
        fromS: z.number(),
        toS: z.number(),
        everyS: z.number().nullable(),
      }),
    )
    .describe("what loggers wrote, a channel each; gaps are no samples"),
  history: z.array(formerEntrySchema).describe("what was corrected or deleted, the oldest first"),
});

export const comparisonSchema = z.strictObject({
  alignBy: z.enum(alignments),
  runs: z.array(
    z.strictObject({
      steamingId: identifier,
      locomotiveId: identifier,
      title: z.string(),
      startedAt: steamingHeadSchema.shape.startedAt,
      zeroS: z.number().nullable().describe("moment of the run's own clock that is taken as zero"),
      series: z
        .strictObject({
          pressure: seriesSchema,
          level: seriesSchema,
          waterDrawn: bandSchema,
          laps: seriesSchema,
        })
        .nullable(),
      figures: z.record(z.string(), figure),
    }),
  ),
  figures: z.array(z.strictObject({ key: z.string(), name: z.string(), unit: z.string() })),
  differences: z.array(
    z.strictObject({
      key: z.string(),
      a: identifier,
      b: identifier,
      difference: figure.describe("b less a"),
      toldApart: z.boolean().nullable(),
      words: z.string(),
    }),
  ),
});

export const chartSchema = z.strictObject({
  channel: traceSchema.shape.channel,
  unit,
  raw: z.boolean(),
  points: z.array(
    z.union([z.tuple([z.number(), z.number()]), z.tuple([z.number(), z.number(), z.number()])]),
  ),
});

export const entryAnswerSchema = z.strictObject({
  id: z.string().nullable(),
  status: z.int(),
  code: errorSchema.shape.code.optional(),
  message: z.string().optional(),
  path: z.string().optional(),
});
export type EntryAnswer = z.infer<typeof entryAnswerSchema>;

const count = z.strictObject({ added: z.int(), same: z.int(), differs: z.int() });
export const importOutcomeSchema = z.strictObject({
  locomotives: count,
  steamings: count,
  entries: count.extend({
    deleted: z.int().describe("left out, as they were deleted here before"),
  }),
  services: count,
  problems: z.array(problemSchema),
});

export const tracesKeptSchema = z.strictObject({
  traces: z.array(
    z.strictObject({
      channel: traceSchema.shape.channel,
      startS: z.number(),
      everyS: z.number(),
      samples: z.int(),
      added: z.int().describe("samples that were not there before"),
    }),
  ),
});

export const maySchema = z.enum(["record", "view"]).describe("view: may only read");
export const deviceSchema = z.strictObject({
  id: identifier,
  name: z.string(),
  may: maySchema,
  pairedAt: z.iso.datetime(),
});

export const backupSchema = z.strictObject({ file: z.string(), bytes: z.int() });
export const nothing = z.null().describe("no body");
export const idInAddress = z.strictObject({ id: identifier });
