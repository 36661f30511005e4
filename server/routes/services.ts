import { z } from "zod";
import { identifier } from "../../src/logbook/bounds.ts";
import { type Service, serviceSchema } from "../../src/logbook/service.ts";
import type { App } from "../app-type.ts";
import { ApiError, invalid } from "../errors.ts";
import type { Store } from "../store/store.ts";
import { noSuchLocomotive, sameId } from "./locomotives.ts";
import { errorSchema, idInAddress, nothing } from "./shapes.ts";

export function serviceRoutes(api: App, store: Store): void {
  api.get(
    "/services",
    {
      schema: {
        summary: "What was done to one engine's fittings, or to all, oldest first",
        querystring: z.strictObject({ locomotiveId: identifier.optional() }),
        response: { 200: z.array(serviceSchema), "4xx": errorSchema },
      },
    },
    async ({ query: { locomotiveId } }) => {
      const engines = store.locomotives.all().map(({ locomotive }) => locomotive.id);
      if (locomotiveId !== undefined && !engines.includes(locomotiveId)) throw noSuchLocomotive(locomotiveId);
      const asked = locomotiveId === undefined ? engines : [locomotiveId];
      return asked.flatMap((id) => store.services.ofLocomotive(id));
    },
  );

  api.post(
    "/services",
    {
      schema: {
        summary: "Adds a service; the same one again changes nothing",
        body: serviceSchema,
        response: { 200: serviceSchema, 201: serviceSchema, "4xx": errorSchema },
      },
    },
    async ({ body }, reply) => {
      checkFitting(store, body);
      const kept = store.services.add(body);
      if (kept === "differs") {
        throw new ApiError("service-differs", `another service is kept under ${body.id}`, { path: "id" });
      }
      return reply.status(kept === "added" ? 201 : 200).send(body);
    },
  );

  api.put(
    "/services/:id",
    {
      schema: {
        summary: "Keeps a service in place of the one with its id, if any",
        params: idInAddress,
        body: serviceSchema,
        response: { 200: serviceSchema, 201: serviceSchema, "4xx": errorSchema },
      },
    },
    async ({ body, params }, reply) => {
      sameId(body.id, params.id);
      checkFitting(store, body);
      const kept = store.services.put(body);
      return reply.status(kept === "added" ? 201 : 200).send(body);
    },
  );

  api.delete(
    "/services/:id",
    {
      schema: {
        summary: "Removes a service",
        params: idInAddress,
        response: { 204: nothing, "4xx": errorSchema },
      },
    },
    async ({ params }, reply) => {
      if (!store.services.remove(params.id)) {
        throw new ApiError("no-such-service", `there is no service ${params.id}`);
      }
      return reply.status(204).send(null);
    },
  );
}

/** @throws ApiError where the service names an engine or a fitting that is not kept here */
function checkFitting(store: Store, { locomotiveId, fittingId }: Service): void {
  const engine = store.locomotives.get(locomotiveId);
  if (engine === undefined) {
    throw invalid([
      { path: "locomotiveId", came: locomotiveId, wanted: "the id of an engine that is kept here" },
    ]);
  }
  const { fittings, name } = engine.locomotive;
  if (fittings.some(({ id }) => id === fittingId)) return;
  const listed = fittings.map(({ id }) => id).join(", ") || "it has none";
  throw invalid([{ path: "fittingId", came: fittingId, wanted: `a fitting of ${name}: ${listed}` }]);
}
