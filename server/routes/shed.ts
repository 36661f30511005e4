import { existsSync } from "node:fs";
import type { App } from "../app-type.ts";
import { demonstrationThere } from "../demonstration.ts";
import type { Parts } from "./parts.ts";
import { shedSchema } from "./shapes.ts";

export function shedRoutes(api: App, { store, reports, demonstration: file }: Parts): void {
  api.get(
    "/shed",
    {
      schema: {
        summary: "The engines with their steamings and what each came to",
        response: { 200: shedSchema },
      },
    },
    async () => ({
      engines: store.locomotives.all().map(({ locomotive, demonstration }) => ({
        locomotive,
        demonstration,
        steamings: store.steamings.ofLocomotive(locomotive.id).map(reports.summary),
      })),
      demonstrationOffered: !demonstrationThere(store) && existsSync(file),
    }),
  );
}
