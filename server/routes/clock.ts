import { z } from "zod";
import type { App } from "../app-type.ts";

export function clockRoutes(api: App): void {
  api.get(
    "/clock",
    {
      schema: {
        summary: "The server's clock, by which a recorder sets its own right",
        response: { 200: z.strictObject({ nowMs: z.number().describe("since 1970, UTC") }) },
      },
    },
    async () => ({ nowMs: Date.now() }),
  );
}
