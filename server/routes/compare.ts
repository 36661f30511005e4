import { z } from "zod";
import { alignments, compareRuns } from "../../src/compare/compare-runs.ts";
import { identifier } from "../../src/logbook/bounds.ts";
import type { App } from "../app-type.ts";
import type { Reports } from "../reports.ts";
import { comparisonSchema, errorSchema } from "./shapes.ts";

const mostRuns = 12;

export function compareRoutes(api: App, reports: Reports): void {
  api.post(
    "/compare",
    {
      schema: {
        summary: "Runs beside each other on one clock, and each run's difference from the first",
        body: z.strictObject({
          steamings: z
            .array(identifier)
            .min(2)
            .max(mostRuns)
            .refine((ids) => new Set(ids).size === ids.length, "each steaming once"),
          alignBy: z.enum(alignments),
        }),
        response: { 200: comparisonSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const { steamings, alignBy } = request.body;
      return compareRuns(
        steamings.map((id) => reports.analysisOf(id)),
        alignBy,
      );
    },
  );
}
