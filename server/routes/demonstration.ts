import type { App } from "../app-type.ts";
import { addDemonstration, removeDemonstration } from "../demonstration.ts";
import { ApiError } from "../errors.ts";
import type { Parts } from "./parts.ts";
import { errorSchema, nothing } from "./shapes.ts";

export function demonstrationRoutes(api: App, { store, demonstration }: Parts): void {
  api.post(
    "/demonstration",
    {
      schema: {
        summary: "Puts the demonstration engine, which is invented, into the shed",
        response: { 201: nothing, "4xx": errorSchema },
      },
    },
    async (_request, reply) => {
      const why = addDemonstration(store, demonstration);
      if (why !== null) throw new ApiError("logbook-differs", why);
      return reply.status(201).send(null);
    },
  );
  api.delete(
    "/demonstration",
    { schema: { summary: "Removes all of the demonstration", response: { 204: nothing } } },
    async (_request, reply) => {
      removeDemonstration(store);
      return reply.status(204).send(null);
    },
  );
}
