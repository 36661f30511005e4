import type { App } from "../app-type.ts";
import { ApiError, invalid } from "../errors.ts";
import { mergeTrace, mostTraces } from "../exchange/merge-trace.ts";
import { SenmlError, senmlPackSchema } from "../exchange/senml.ts";
import { tracesFrom } from "../exchange/senml-in.ts";
import { noSuchSteaming } from "../reports.ts";
import type { Store } from "../store/store.ts";
import { errorSchema, idInAddress, tracesKeptSchema } from "./shapes.ts";
import { largeBodyBytes } from "./steamings.ts";

export const senmlType = "application/senml+json";

export function traceRoutes(api: App, store: Store): void {
  api.register(async (senml: App) => {
    senml.removeAllContentTypeParsers();
    const parse = senml.getDefaultJsonParser("error", "error");
    senml.addContentTypeParser(senmlType, { parseAs: "string", bodyLimit: largeBodyBytes }, parse);
    senml.post(
      "/steamings/:id/traces",
      {
        bodyLimit: largeBodyBytes,
        schema: {
          summary: "Keeps readings of a sensor (RFC 8428) as traces; the same readings again change nothing",
          consumes: [senmlType],
          params: idInAddress,
          body: senmlPackSchema,
          response: { 200: tracesKeptSchema, 201: tracesKeptSchema, "4xx": errorSchema },
        },
      },
      async (request, reply) => {
        const { id } = request.params;
        const kept = store.steamings.get(id);
        if (kept === undefined) throw noSuchSteaming(id);
        const startedAtMs = Date.parse(kept.head.startedAt);
        try {
          const traces = tracesFrom(request.body, store, id, startedAtMs, Date.now());
          const answer = store.atOnce(() =>
            traces.map(({ values, ...trace }) => ({
              ...trace,
              samples: values.length,
              added: addedOf(store, id, { ...trace, values }),
            })),
          );
          return reply.status(answer.some((each) => each.added > 0) ? 201 : 200).send({ traces: answer });
        } catch (error) {
          if (error instanceof SenmlError) throw invalid([error]);
          throw error;
        }
      },
    );
  });
}

function addedOf(store: Store, steamingId: string, trace: Parameters<typeof mergeTrace>[2]): number {
  const kept = mergeTrace(store, steamingId, trace);
  if ("added" in kept) return kept.added;
  if ("full" in kept) {
    const wanted = "samples that continue a trace kept here";
    throw invalid([{ path: "(the whole)", came: `a trace more than ${mostTraces}`, wanted }]);
  }
  const message = `another ${trace.channel} is kept at ${kept.differsAtS} s`;
  throw new ApiError("trace-differs", message);
}
