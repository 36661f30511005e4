import { z } from "zod";
import { identifier, moment, words } from "./bounds.ts";

export const serviceSchema = z.strictObject({
  id: identifier,
  locomotiveId: identifier,
  fittingId: identifier,
  at: moment,
  what: z.enum(["nipped-up", "repacked", "re-seated", "replaced", "cleaned"]),
  note: words.optional(),
});
export type Service = z.infer<typeof serviceSchema>;
