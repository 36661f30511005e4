import type { FastifyInstance, FastifyRequest } from "fastify";
import { ApiError } from "../errors.ts";
import type { Device } from "../store/devices.ts";
import type { Store } from "../store/store.ts";

declare module "fastify" {
  interface FastifyRequest {
    /** the paired device that asks; null on this machine itself */
    device: Device | null;
  }
}

/** Tells a paired device with every answer what it may do: `record` or `view`. */
const MAY_HEADER = "lapwater-may";

/** What a device may ask before it is paired. */
const openToAll = ["GET /api/clock", "HEAD /api/clock", "POST /api/pairing"];

/** Asked by POST because the question is long; nothing is changed by it. */
const onlyAsked = ["POST /api/compare", "POST /api/sizing"];

/**
 * Whether a request came from this machine itself, by the loopback network. What a proxy here passes on did not,
 * and needs a token as if it had come without the proxy.
 */
export const isFromHere = ({ ip, headers }: FastifyRequest): boolean =>
  (ip === "::1" || /^(::ffff:)?127(\.\d{1,3}){3}$/.test(ip)) &&
  headers["x-forwarded-for"] === undefined &&
  headers.forwarded === undefined;

export const notPaired = (): ApiError =>
  new ApiError(
    "not-paired",
    "this device is not paired: open the address of a new code, or give the code that the server shows",
  );

/**
 * Over the network only paired devices are answered, and those that may only view cannot write. The pages
 * themselves hold nothing of the owner's and are served to all. This runs before a body is read, and after the
 * limit on requests.
 */
export function guardUnpaired(app: FastifyInstance, store: Store): void {
  app.decorateRequest("device", null);
  app.addHook("preParsing", async (request, reply) => {
    if (isFromHere(request) || !isOfInterface(request)) return;
    const { method } = request;
    const wanted = `${method} ${request.routeOptions.url}`;
    if (openToAll.includes(wanted)) return;
    const token = tokenOf(request);
    const device = token === null ? undefined : store.devices.withToken(token);
    if (device === undefined) {
      reply.header("www-authenticate", "Bearer");
      throw notPaired();
    }
    reply.header(MAY_HEADER, device.may);
    const reads = method === "GET" || method === "HEAD" || onlyAsked.includes(wanted);
    if (device.may === "view" && !reads) {
      throw new ApiError("view-only", "this device was paired to view only: it cannot change anything");
    }
    request.device = device;
  });
}

/** By the route that was found, as an address can be written in several ways; an unknown one by its text. */
function isOfInterface({ routeOptions, url }: FastifyRequest): boolean {
  return /^\/api(\/|$)/.test(routeOptions.url ?? url.split("?")[0] ?? "");
}

function tokenOf({ headers, query, routeOptions }: FastifyRequest): string | null {
  const bearer = /^Bearer ([\w-]+)$/i.exec(headers.authorization ?? "")?.[1];
  if (bearer !== undefined) return bearer;
  if (routeOptions.url !== "/api/live") return null;
  const { token } = query as { token?: unknown };
  return typeof token === "string" ? token : null;
}
