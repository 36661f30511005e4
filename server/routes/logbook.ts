import { Readable } from "node:stream";
import { z } from "zod";
import { identifier } from "../../src/logbook/bounds.ts";
import { logbookFileSchema, logbookJsonSchema } from "../../src/logbook/logbook-file.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";
import type { App } from "../app-type.ts";
import { ApiError, invalid } from "../errors.ts";
import { bringIn, nothingDone } from "../exchange/logbook-in.ts";
import { takeOut } from "../exchange/logbook-out.ts";
import type { Store } from "../store/store.ts";
import { bodyCheckedByHandler, queryFlag } from "../validation.ts";
import { noSuchLocomotive } from "./locomotives.ts";
import { errorSchema, importOutcomeSchema } from "./shapes.ts";
import { largeBodyBytes } from "./steamings.ts";

export function logbookRoutes(api: App, store: Store): void {
  api.get(
    "/logbook",
    {
      schema: {
        summary: "The whole logbook, or one engine's, as a file",
        querystring: z.strictObject({ locomotiveId: identifier.optional() }),
        response: { 200: { properties: logbookFileSchema }, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const { locomotiveId } = request.query;
      if (locomotiveId !== undefined && store.locomotives.get(locomotiveId) === undefined) {
        throw noSuchLocomotive(locomotiveId);
      }
      reply.type("application/json; charset=utf-8");
      reply.header("content-disposition", 'attachment; filename="lapwater.logbook.json"');
      return reply.send(Readable.from(takeOut(store, locomotiveId)));
    },
  );

  api.get("/logbook/schema.json", { schema: { hide: true } }, () => logbookJsonSchema());

  api.post(
    "/logbook",
    {
      bodyLimit: largeBodyBytes,
      // the file is checked below, once and with what it refers to
      validatorCompiler: bodyCheckedByHandler,
      schema: {
        summary: "Brings a logbook file in, wholly or not at all; preview=true only says what that would do",
        querystring: z.strictObject({ preview: queryFlag.optional() }),
        body: logbookFileSchema,
        response: { 200: importOutcomeSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const preview = request.query.preview ?? false;
      const known = store.locomotives.all().map((kept) => kept.locomotive);
      const reading = checkLogbook(request.body, known);
      if (!reading.ok) {
        if (preview) return nothingDone(reading.problems);
        throw invalid(reading.problems);
      }
      const outcome = bringIn(store, reading.value, { preview });
      if (!preview && outcome.problems.length > 0) {
        const { problems } = outcome;
        const message = "some of it is kept here with other content; nothing was brought in";
        throw new ApiError("logbook-differs", message, { path: problems[0]?.path ?? "", problems });
      }
      return outcome;
    },
  );
}
