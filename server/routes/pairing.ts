import { randomBytes } from "node:crypto";
import { z } from "zod";
import type { App } from "../app-type.ts";
import { ApiError } from "../errors.ts";
import { plainHttpWarning } from "../pairing/announcement.ts";
import { isFromHere } from "../pairing/guard.ts";
import { ownAddresses, pairingLink } from "../pairing/own-address.ts";
import type { Parts } from "./parts.ts";
import { errorSchema, maySchema } from "./shapes.ts";

const attemptsPerMinute = 10;

export function pairingRoutes(api: App, { codes, config, store }: Parts): void {
  api.post(
    "/pairing",
    {
      config: { rateLimit: { max: attemptsPerMinute, timeWindow: 60_000 } },
      schema: {
        summary: "Pairs a device by a one-time code; its token is shown this once",
        body: z.strictObject({
          code: z.string().min(1).max(40),
          name: z.string().trim().min(1).max(60).describe("by which the owner knows the device"),
        }),
        response: {
          201: z.strictObject({
            token: z.string().describe("goes into the header Authorization: Bearer of every request"),
            may: maySchema,
            warning: z.string().optional().describe("where the connection is plain http: what that means"),
          }),
          "4xx": errorSchema,
        },
      },
    },
    async (request, reply) => {
      const { code, name } = request.body;
      const may = codes.take(code);
      if (may === null) {
        const message = "this code is wrong, used or too old: have a new one shown at the server";
        throw new ApiError("code-refused", message, { path: "code" });
      }
      const token = randomBytes(32).toString("base64url");
      store.devices.add(name, may, token);
      const isPlain = request.protocol === "http" && !isFromHere(request);
      return reply.status(201).send({ token, may, ...(isPlain ? { warning: plainHttpWarning } : {}) });
    },
  );

  api.post(
    "/pairing/codes",
    {
      schema: {
        summary: "Makes a new one-time code; only on the server's own machine",
        body: z.strictObject({ may: maySchema }),
        response: {
          201: z.strictObject({
            code: z.string(),
            expiresAt: z.iso.datetime(),
            address: z.url().describe("where the device finds the server"),
            link: z.url().describe("the page there that pairs, with the code filled in"),
          }),
          "4xx": errorSchema,
        },
      },
    },
    async (request, reply) => {
      if (!isFromHere(request)) {
        throw new ApiError("only-at-server", "a code is made on the machine that the server runs on");
      }
      const listening = api.server.address();
      const port = listening !== null && typeof listening === "object" ? listening.port : config.port;
      const [address] = ownAddresses(config, port);
      if (address === undefined) {
        const why = config.lan
          ? "this machine has no address in a network"
          : "the server answers on this machine only: start it with --lan";
        throw new ApiError("no-network", why);
      }
      const { code, expiresAtMs } = codes.make(request.body.may);
      const expiresAt = new Date(expiresAtMs).toISOString();
      return reply.status(201).send({ code, expiresAt, address, link: pairingLink(address, code) });
    },
  );
}
