import { existsSync } from "node:fs";
import type { App } from "../app.ts";
import { demonstrationFile, demonstrationThere } from "../demonstration.ts";
import type { Reports } from "../reports.ts";
import type { Store } from "../store/store.ts";
import { shedSchema } from "./shapes.ts";

export function shedRoutes(api: App, store: Store, reports: Reports): void {
  api.get(
    "/shed",
    {
      schema: {
        summary: "The engines with their steamings and what each came to",
        response: { 200: shedSchema },
      },
    },
    () => ({
      engines: store.locomotives.all().map(({ locomotive, demonstration }) => ({
        locomotive,
        demonstration,
        steamings: store.steamings.ofLocomotive(locomotive.id).map(reports.summary),
      })),
      demonstrationOffered: !demonstrationThere(store) && existsSync(demonstrationFile),
    }),
  );
}
