import { z } from "zod";
import { figure } from "../analysis/report-schema.ts";
import { states } from "./verdict.ts";

/** What the command line and the interface give of an engine's care. Types are inferred from here. */
export const careSchema = z.strictObject({
  locomotiveId: z.string(),
  fittings: z
    .array(
      z.strictObject({
        fitting: z.string(),
        state: z.enum(states),
        why: z.string().describe("one sentence: the evidence, how sure, and what to measure next"),
        readings: z.int().describe("catches and looks since the last service"),
        hoursSinceService: z.number().describe("hours in steam"),
        slope: figure.describe("g/min per h in steam, at working pressure"),
        hoursToLimit: figure.describe("h in steam from now; u is that of the 80 % interval"),
        change: z
          .strictObject({
            steamingId: z.string().describe("the steaming from which it stands"),
            from: z.number().describe("g/min that was to be expected"),
            to: z.number().describe("g/min"),
          })
          .nullable()
          .describe("a sudden one since the last service"),
      }),
    )
    .describe("those in need first"),
  suspects: z
    .array(z.strictObject({ name: z.string(), weight: z.number(), why: z.string() }))
    .describe("where to look first; likelihoods are common practice"),
  jobs: z.array(
    z.strictObject({
      takeOff: z.array(z.string()),
      do: z.array(z.string()).describe("fittings in need that this dismantling serves"),
      alsoWorth: z.array(z.string()).describe("watched fittings that then stand open"),
    }),
  ),
});
export type CareReport = z.infer<typeof careSchema>;
