import swagger from "@fastify/swagger";
import { createJsonSchemaTransform, createJsonSchemaTransformObject } from "@fastify/type-provider-zod";
import type { FastifyInstance } from "fastify";
import { z } from "zod";
import { figure, reportSchema } from "../src/analysis/report-schema.ts";
import { bookSchema } from "../src/care/book-schema.ts";
import { careSchema } from "../src/care/care-schema.ts";
import { entrySchema } from "../src/logbook/entry.ts";
import { boilerSchema, fittingSchema, locomotiveSchema } from "../src/logbook/locomotive.ts";
import { logbookFileSchema } from "../src/logbook/logbook-file.ts";
import { serviceSchema } from "../src/logbook/service.ts";
import { steamingHeadSchema, steamingSchema, traceSchema } from "../src/logbook/steaming.ts";
import { planSchema } from "../src/sizing/plan-schema.ts";
import { runFiguresSchema } from "../src/sizing/run-figures-schema.ts";
import { sizingSchema } from "../src/sizing/sizing-schema.ts";
import { senmlPackSchema } from "./exchange/senml.ts";
import { liveEventSchema } from "./live/events.ts";
import * as shapes from "./routes/shapes.ts";

/** Shapes that the document describes once, by name, and refers to everywhere. */
const named = {
  Locomotive: locomotiveSchema,
  Boiler: boilerSchema,
  Fitting: fittingSchema,
  Service: serviceSchema,
  Entry: entrySchema,
  Trace: traceSchema,
  SteamingHead: steamingHeadSchema,
  Steaming: steamingSchema,
  LogbookFile: logbookFileSchema,
  Measured: figure,
  Report: reportSchema,
  SenML: senmlPackSchema,
  Error: shapes.errorSchema,
  Problem: shapes.problemSchema,
  SteamingSummary: shapes.steamingSummarySchema,
  Shed: shapes.shedSchema,
  Sheet: shapes.sheetSchema,
  Comparison: shapes.comparisonSchema,
  Plan: planSchema,
  RunFigures: runFiguresSchema,
  Sizing: sizingSchema,
  Chart: shapes.chartSchema,
  EntryAnswer: shapes.entryAnswerSchema,
  FormerEntry: shapes.formerEntrySchema,
  ImportOutcome: shapes.importOutcomeSchema,
  LiveEvent: liveEventSchema,
  Device: shapes.deviceSchema,
  Care: careSchema,
  FittersBook: bookSchema,
  Backup: shapes.backupSchema,
};

/** The OpenAPI document, made of the schemas that check what comes in. */
export async function describeApi(app: FastifyInstance): Promise<void> {
  const schemaRegistry = z.registry<{ id: string }>();
  for (const [id, schema] of Object.entries(named)) schemaRegistry.add(schema, { id });
  const transformObject = createJsonSchemaTransformObject({ schemaRegistry });
  await app.register(swagger, {
    openapi: {
      openapi: "3.1.0",
      info: {
        title: "Lapwater",
        version: "1",
        description: "The logbook of a small live-steam locomotive, and what it shows.",
      },
    },
    transform: createJsonSchemaTransform({ schemaRegistry }),
    transformObject: (document) => namedOnce(transformObject(document)),
  });
}

/**
 * The library names each schema twice, as it comes in (`EntryInput`) and as it goes out (`Entry`). Ours are the
 * same in both directions, so one name serves.
 */
function namedOnce<Document extends object>(document: Document): Document {
  const text = JSON.stringify(document).replaceAll(
    /"#\/components\/schemas\/(\w+)Input"/g,
    '"#/components/schemas/$1"',
  );
  return JSON.parse(text, (key, value) =>
    key === "schemas"
      ? Object.fromEntries(Object.entries(value).filter(([name]) => !name.endsWith("Input")))
      : value,
  );
}
