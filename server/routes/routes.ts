import type { App } from "../app-type.ts";
import { liveOf } from "../live/live.ts";
import { analysisRoutes } from "./analysis.ts";
import { backupRoutes } from "./backups.ts";
import { careRoutes } from "./care.ts";
import { clockRoutes } from "./clock.ts";
import { compareRoutes } from "./compare.ts";
import { demonstrationRoutes } from "./demonstration.ts";
import { deviceRoutes } from "./devices.ts";
import { entryRoutes } from "./entries.ts";
import { footplateRoutes } from "./footplate.ts";
import { liveRoutes } from "./live.ts";
import { locomotiveRoutes } from "./locomotives.ts";
import { logbookRoutes } from "./logbook.ts";
import { pairingRoutes } from "./pairing.ts";
import type { Parts } from "./parts.ts";
import { serviceRoutes } from "./services.ts";
import { shedRoutes } from "./shed.ts";
import { sizingRoutes } from "./sizing.ts";
import { steamingRoutes } from "./steamings.ts";
import { traceRoutes } from "./traces.ts";

/** All of the interface under /api. */
export function addRoutes(api: App, parts: Parts): void {
  const { store, reports } = parts;
  // what is kept may have changed by the next question
  api.addHook("onRequest", async (_request, reply) => {
    reply.header("cache-control", "no-store");
  });
  shedRoutes(api, parts);
  footplateRoutes(api, store);
  demonstrationRoutes(api, parts);
  locomotiveRoutes(api, store);
  steamingRoutes(api, store, reports);
  entryRoutes(api, store);
  traceRoutes(api, store);
  analysisRoutes(api, store, reports);
  compareRoutes(api, reports);
  careRoutes(api, store, reports);
  serviceRoutes(api, store);
  sizingRoutes(api, store, reports);
  logbookRoutes(api, store);
  backupRoutes(api, store);
  clockRoutes(api);
  const live = liveOf(store);
  liveRoutes(api, store, live);
  pairingRoutes(api, parts);
  deviceRoutes(api, store, live);
  api.get("/openapi.json", { schema: { hide: true } }, () => api.swagger());
}
