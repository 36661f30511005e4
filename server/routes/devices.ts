import { z } from "zod";
import type { App } from "../app-type.ts";
import { ApiError } from "../errors.ts";
import type { Live } from "../live/live.ts";
import type { Store } from "../store/store.ts";
import { deviceSchema, errorSchema, idInAddress, nothing } from "./shapes.ts";

export function deviceRoutes(api: App, store: Store, live: Live): void {
  api.get(
    "/devices",
    {
      schema: {
        summary: "The paired devices; not for those that may only view",
        response: { 200: z.array(deviceSchema), "4xx": errorSchema },
      },
    },
    async (request) => {
      if (request.device?.may === "view") {
        throw new ApiError("view-only", "this device was paired to view only: it is not shown the others");
      }
      return store.devices.all();
    },
  );

  api.delete(
    "/devices/:id",
    {
      schema: {
        summary:
          "Ends the pairing of a device at once, its open stream too; on the server's own machine, or by the device itself",
        params: idInAddress,
        response: { 204: nothing, "4xx": errorSchema },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (request.device !== null && request.device.id !== id) {
        throw new ApiError("only-at-server", "a device is removed on the machine that the server runs on");
      }
      if (!store.devices.remove(id)) throw new ApiError("no-such-device", `there is no paired device ${id}`);
      live.cutOff(id);
      return reply.status(204).send(null);
    },
  );
}
