import { z } from "zod";
import { identifier } from "../../src/logbook/bounds.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";
import { type Steaming, steamingHeadSchema, steamingSchema } from "../../src/logbook/steaming.ts";
import type { App } from "../app-type.ts";
import { ApiError, invalid } from "../errors.ts";
import { bringIn } from "../exchange/logbook-in.ts";
import { noSuchSteaming, type Reports, steamingMissing } from "../reports.ts";
import type { Store } from "../store/store.ts";
import { queryFlag } from "../validation.ts";
import { sameId } from "./locomotives.ts";
import { errorSchema, idInAddress, nothing, steamingSummarySchema } from "./shapes.ts";

/** A whole steaming may hold traces. */
export const largeBodyBytes = 64 * 1024 * 1024;

export function steamingRoutes(api: App, store: Store, reports: Reports): void {
  api.get(
    "/steamings",
    {
      schema: {
        summary: "All steamings, or those of one engine, with what each came to",
        querystring: z.strictObject({ locomotiveId: identifier.optional() }),
        response: { 200: z.array(steamingSummarySchema), "4xx": errorSchema },
      },
    },
    async (request) => {
      const { locomotiveId } = request.query;
      const steamings =
        locomotiveId === undefined ? store.steamings.all() : store.steamings.ofLocomotive(locomotiveId);
      return steamings.map(reports.summary);
    },
  );

  api.post(
    "/steamings",
    {
      bodyLimit: largeBodyBytes,
      schema: {
        summary: "Adds a whole steaming; the same again changes nothing",
        body: steamingSchema,
        response: { 200: steamingHeadSchema, 201: steamingHeadSchema, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const steaming = request.body;
      checkReferences(store, steaming);
      const outcome = bringIn(store, {
        format: "lapwater-logbook",
        version: 1,
        locomotives: [],
        steamings: [steaming],
        services: [],
      });
      if (outcome.problems.length > 0) {
        const problems = outcome.problems.map(withoutPrefix);
        const message = `another steaming is kept under ${steaming.id}`;
        throw new ApiError("steaming-differs", message, { path: problems[0]?.path ?? "id", problems });
      }
      const { entries, traces, ...head } = steaming;
      return reply.status(outcome.steamings.added === 1 ? 201 : 200).send(head);
    },
  );

  api.get(
    "/steamings/:id",
    {
      schema: {
        summary: "One steaming, whole",
        params: idInAddress,
        response: { 200: steamingSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const steaming = store.wholeSteaming(request.params.id);
      if (steaming === undefined) throw steamingMissing(store, request.params.id);
      return steaming;
    },
  );

  api.put(
    "/steamings/:id",
    {
      schema: {
        summary: "Keeps the head of a steaming, new or in place of its former one; entries and traces stay",
        params: idInAddress,
        body: steamingHeadSchema,
        response: { 200: steamingHeadSchema, 201: steamingHeadSchema, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      sameId(request.body.id, request.params.id);
      checkReferences(store, { ...request.body, entries: store.entries.ofSteaming(request.params.id) });
      const kept = store.steamings.put(request.body);
      return reply.status(kept === "added" ? 201 : 200).send(request.body);
    },
  );

  api.delete(
    "/steamings/:id",
    {
      schema: {
        summary:
          "Removes a steaming with its entries and traces; with ifEmpty=true only one that has neither",
        params: idInAddress,
        querystring: z.strictObject({ ifEmpty: queryFlag.optional() }),
        response: { 204: nothing, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const written = (store.steamings.get(id)?.entries ?? 0) + store.traces.heads(id).length;
      if (request.query.ifEmpty === true && written > 0) {
        throw new ApiError("steaming-not-empty", `something is written down in steaming ${id}`);
      }
      if (!store.steamings.remove(id)) throw noSuchSteaming(id);
      return reply.status(204).send(null);
    },
  );
}

const withoutPrefix = <P extends { path: string }>(problem: P): P => ({
  ...problem,
  path: problem.path.replace(/^steamings\[0\]\.?/, "") || "id",
});

/** @throws ApiError where the steaming names an engine or a fitting that is not there, or an id twice */
function checkReferences(store: Store, steaming: Steaming): void {
  const engine = store.locomotives.get(steaming.locomotiveId);
  if (engine === undefined) {
    const came = steaming.locomotiveId;
    throw invalid([{ path: "locomotiveId", came, wanted: "the id of an engine that is kept here" }]);
  }
  const { traces, ...bare } = steaming;
  const reading = checkLogbook(
    { format: "lapwater-logbook", version: 1, locomotives: [], steamings: [bare], services: [] },
    [engine.locomotive],
  );
  if (!reading.ok) throw invalid(reading.problems.map(withoutPrefix));
}
