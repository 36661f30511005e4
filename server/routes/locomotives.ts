import { z } from "zod";
import { type Locomotive, locomotiveSchema } from "../../src/logbook/locomotive.ts";
import type { App } from "../app-type.ts";
import { ApiError, invalid } from "../errors.ts";
import type { Store } from "../store/store.ts";
import { errorSchema, idInAddress, nothing } from "./shapes.ts";

export function locomotiveRoutes(api: App, store: Store): void {
  api.get(
    "/locomotives",
    { schema: { summary: "All engines", response: { 200: z.array(locomotiveSchema) } } },
    async () => store.locomotives.all().map((kept) => kept.locomotive),
  );

  api.post(
    "/locomotives",
    {
      schema: {
        summary: "Adds an engine; the same one again changes nothing",
        body: locomotiveSchema,
        response: { 200: locomotiveSchema, 201: locomotiveSchema, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      checkFittingIds(request.body);
      const kept = store.locomotives.add(request.body);
      if (kept === "differs") {
        throw new ApiError("locomotive-differs", `another engine is kept under ${request.body.id}`, {
          path: "id",
        });
      }
      return reply.status(kept === "added" ? 201 : 200).send(request.body);
    },
  );

  api.get(
    "/locomotives/:id",
    {
      schema: {
        summary: "One engine",
        params: idInAddress,
        response: { 200: locomotiveSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const kept = store.locomotives.get(request.params.id);
      if (kept === undefined) throw noSuchLocomotive(request.params.id);
      return kept.locomotive;
    },
  );

  api.put(
    "/locomotives/:id",
    {
      schema: {
        summary: "Keeps an engine in place of the one with its id, if any",
        params: idInAddress,
        body: locomotiveSchema,
        response: { 200: locomotiveSchema, 201: locomotiveSchema, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      sameId(request.body.id, request.params.id);
      checkFittingIds(request.body);
      keepFittingsInUse(store, request.body);
      const kept = store.locomotives.put(request.body);
      return reply.status(kept === "added" ? 201 : 200).send(request.body);
    },
  );

  api.delete(
    "/locomotives/:id",
    {
      schema: {
        summary: "Removes an engine with its steamings and services",
        params: idInAddress,
        response: { 204: nothing, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      if (!store.locomotives.remove(request.params.id)) throw noSuchLocomotive(request.params.id);
      return reply.status(204).send(null);
    },
  );
}

export const noSuchLocomotive = (id: string): ApiError =>
  new ApiError("no-such-locomotive", `there is no engine ${id}`);

/** @throws ApiError where a body bears another id than its address */
export function sameId(inBody: string, inAddress: string): void {
  if (inBody === inAddress) return;
  throw invalid([{ path: "id", came: inBody, wanted: `${inAddress}, the id in the address` }]);
}

function checkFittingIds({ fittings }: Locomotive): void {
  const twice = fittings.findIndex(({ id }, i) => fittings.findIndex((other) => other.id === id) < i);
  if (twice < 0) return;
  const came = `${fittings[twice]?.id} a second time`;
  throw invalid([{ path: `fittings[${twice}].id`, came, wanted: "an id used once" }]);
}

/** A fitting that readings or services name cannot go: they would speak of nothing. */
function keepFittingsInUse(store: Store, locomotive: Locomotive): void {
  const present = new Set(locomotive.fittings.map((fitting) => fitting.id));
  const missing = store.locomotives.fittingsNamed(locomotive.id).filter((id) => !present.has(id));
  if (missing.length === 0) return;
  throw new ApiError(
    "fitting-in-use",
    `readings or services name ${missing.join(", ")}: keep the fitting in the list`,
    { path: "fittings" },
  );
}
