import type { App } from "../app-type.ts";
import type { Store } from "../store/store.ts";
import { backupSchema } from "./shapes.ts";

export function backupRoutes(api: App, store: Store): void {
  api.post(
    "/backups",
    {
      config: { rateLimit: { max: 20, timeWindow: 60_000 } },
      schema: {
        summary: "Copies the whole database into the data folder's backups, and reads the copy through",
        response: { 201: backupSchema },
      },
    },
    async (_request, reply) => reply.status(201).send(await store.backUp()),
  );
}
