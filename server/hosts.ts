import { hostname, networkInterfaces } from "node:os";
import type { FastifyInstance, FastifyRequest } from "fastify";
import type { Config } from "./config.ts";
import { ApiError } from "./errors.ts";

/**
 * Two guards against other people's pages in the owner's browser. A page of a foreign name that has been
 * pointed at this machine (DNS rebinding) bears that name as Host: only the machine's own names are answered.
 * A page of another site that writes here bears its own address as Origin: only our own may write.
 */
export function guardHosts(app: FastifyInstance, config: Config): void {
  app.addHook("onRequest", async (request) => {
    const host = hostOf(request);
    if (host === null || !isOwn(nameOf(host), config)) {
      throw new ApiError("host-refused", "this address is not one of the server's own", { path: "Host" });
    }
    const { origin } = request.headers;
    const writes = !["GET", "HEAD", "OPTIONS"].includes(request.method);
    if (writes && origin !== undefined && origin !== `http://${host}` && origin !== `https://${host}`) {
      throw new ApiError("origin-refused", "pages of another site may not write here", { path: "Origin" });
    }
  });
}

function hostOf(request: FastifyRequest): string | null {
  const host = request.headers.host?.toLowerCase();
  return host !== undefined && /^(\[[0-9a-f:.]+\]|[a-z0-9._-]+)(:\d{1,5})?$/.test(host) ? host : null;
}

const nameOf = (host: string): string => host.replace(/:\d+$/, "").replace(/^\[(.*)\]$/, "$1");

/** Whether a name that a browser asked for is one of this machine. */
export function isOwn(name: string, config: Config): boolean {
  if (name === "localhost" || name === "::1" || /^127(\.\d{1,3}){3}$/.test(name)) return true;
  if (config.hostsAllowed.includes(name)) return true;
  if (!config.lan) return false;
  const own = hostname().toLowerCase();
  return name === own || name === `${own}.local` || lanAddresses().includes(name);
}

/** The machine's addresses in its networks; looked up anew each time, as a laptop changes networks. */
export const lanAddresses = (): string[] =>
  Object.values(networkInterfaces()).flatMap((addresses) =>
    (addresses ?? []).filter((address) => !address.internal).map((address) => address.address),
  );
