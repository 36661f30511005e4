import { z } from "zod";
import { locomotiveSchema } from "./locomotive.ts";
import { serviceSchema } from "./service.ts";
import { steamingSchema } from "./steaming.ts";

/** The one file format: import, export, demonstration and command line. */
export const logbookFileSchema = z.strictObject({
  format: z.literal("lapwater-logbook"),
  version: z.literal(1),
  locomotives: z.array(locomotiveSchema).max(10_000),
  steamings: z.array(steamingSchema).max(100_000),
  services: z.array(serviceSchema).max(100_000),
});
export type LogbookFile = z.infer<typeof logbookFileSchema>;

/** The same as a JSON Schema document (draft 2020-12), for those who write files by other means. */
export const logbookJsonSchema = () => z.toJSONSchema(logbookFileSchema);
