import { z } from "zod";
import { loggedIn } from "../../src/analysis/pressure/logged.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { reportSchema } from "../../src/analysis/report-schema.ts";
import { seriesOf } from "../../src/analysis/series.ts";
import { particularsOf } from "../../src/analysis/words/particulars.ts";
import { secondsSinceStart } from "../../src/logbook/bounds.ts";
import { traceSchema } from "../../src/logbook/steaming.ts";
import type { App } from "../app-type.ts";
import { chartOf } from "../chart.ts";
import { invalid } from "../errors.ts";
import { noSuchSteaming, type Reports } from "../reports.ts";
import type { Store } from "../store/store.ts";
import { queryNumber } from "../validation.ts";
import { chartSchema, errorSchema, idInAddress, sheetSchema } from "./shapes.ts";

const querySeconds = queryNumber(secondsSinceStart);
const queryWidth = queryNumber(z.int().min(1).max(10_000));

export function analysisRoutes(api: App, store: Store, reports: Reports): void {
  api.get(
    "/steamings/:id/report",
    {
      schema: {
        summary: "The report; with untilS as it stood so many seconds after the start",
        params: idInAddress,
        querystring: z.strictObject({ untilS: querySeconds.optional() }),
        response: { 200: reportSchema, "4xx": errorSchema },
      },
    },
    async (request) => reports.report(request.params.id, request.query.untilS),
  );

  api.get(
    "/steamings/:id/sheet",
    {
      schema: {
        summary: "All that a test sheet shows: head, engine, report, curves, entries and what they replaced",
        params: idInAddress,
        response: { 200: sheetSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const { id } = request.params;
      const kept = store.steamings.get(id);
      const engine = kept && store.locomotives.get(kept.head.locomotiveId);
      if (kept === undefined || engine === undefined) throw noSuchSteaming(id);
      const analysis = reports.analysisOf(id);
      return {
        steaming: kept.head,
        locomotive: engine.locomotive,
        report: reportOf(analysis),
        ...particularsOf(analysis),
        series: seriesOf(analysis),
        entries: store.entries.ofSteaming(id),
        logged: loggedIn(analysis.sources.timeline),
        history: store.entries.history(id),
      };
    },
  );

  api.get(
    "/steamings/:id/chart",
    {
      schema: {
        summary:
          "One channel for a chart: every reading, or the lowest and highest of each part of its width",
        params: idInAddress,
        querystring: z.strictObject({
          channel: traceSchema.shape.channel,
          fromS: querySeconds.optional(),
          toS: querySeconds.optional(),
          width: queryWidth.optional(),
        }),
        response: { 200: chartSchema, "4xx": errorSchema },
      },
    },
    async (request) => {
      const { channel, fromS, toS, width } = request.query;
      const { id } = request.params;
      if (store.steamings.get(id) === undefined) throw noSuchSteaming(id);
      if (fromS !== undefined && toS !== undefined && fromS >= toS) {
        throw invalid([{ path: "query.toS", came: String(toS), wanted: `more than fromS, ${fromS}` }]);
      }
      return chartOf(store, id, channel, {
        ...(fromS === undefined ? {} : { fromS }),
        ...(toS === undefined ? {} : { toS }),
        ...(width === undefined ? {} : { width }),
      });
    },
  );
}
