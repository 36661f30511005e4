import { z } from "zod";
import type { App } from "../app-type.ts";
import { liveEventSchema } from "../live/events.ts";
import type { Live } from "../live/live.ts";
import { notPaired } from "../pairing/guard.ts";
import type { Store } from "../store/store.ts";
import { errorSchema } from "./shapes.ts";

export function liveRoutes(api: App, store: Store, live: Live): void {
  api.addHook("preClose", async () => live.stop());

  api.get(
    "/live",
    {
      // a HEAD would open a stream that nobody reads
      exposeHeadRoute: false,
      schema: {
        summary: "What changes, as it happens (server-sent events), after the event that was seen last",
        querystring: z.strictObject({
          lastEventId: z.string().optional(),
          token: z.string().optional().describe("of a paired device: a browser's stream takes no headers"),
        }),
        headers: z.looseObject({ "last-event-id": z.string().optional() }),
        produces: ["text/event-stream", "application/json"],
        response: { 200: { properties: liveEventSchema }, "4xx": errorSchema, 503: errorSchema },
      },
    },
    async (request, reply) => {
      const lastSeen = request.headers["last-event-id"] ?? request.query.lastEventId;
      const follower = { address: request.ip, deviceId: request.device?.id ?? null };
      // it may have been removed since its token was looked at; from here on the stream itself is cut off
      if (follower.deviceId !== null && !store.devices.has(follower.deviceId)) throw notPaired();
      const events = live.follow(lastSeen, follower);
      // so that the connection ends with the stream, and closing need not wait for it
      reply.header("connection", "close").header("x-accel-buffering", "no");
      return reply.type("text/event-stream; charset=utf-8").send(events);
    },
  );
}
