import { bookOf } from "../../src/care/book.ts";
import { bookSchema } from "../../src/care/book-schema.ts";
import { careReportOf } from "../../src/care/care-report.ts";
import { careSchema } from "../../src/care/care-schema.ts";
import type { App } from "../app-type.ts";
import { caresOf } from "../cares.ts";
import type { Reports } from "../reports.ts";
import type { Store } from "../store/store.ts";
import { errorSchema, idInAddress } from "./shapes.ts";

export function careRoutes(api: App, store: Store, reports: Reports): void {
  const careOf = caresOf(store, reports);

  api.get(
    "/locomotives/:id/care",
    {
      schema: {
        summary: "Which fittings need attention and why, where to look first, and jobs by dismantling",
        params: idInAddress,
        response: { 200: careSchema, "4xx": errorSchema },
      },
    },
    async (request) => careReportOf(careOf(request.params.id)),
  );

  api.get(
    "/locomotives/:id/book",
    {
      schema: {
        summary: "The Fitter's book: the same with every reading, course, service and its effect",
        params: idInAddress,
        response: { 200: bookSchema, "4xx": errorSchema },
      },
    },
    async (request) => bookOf(careOf(request.params.id)),
  );
}
