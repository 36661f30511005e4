import { existsSync } from "node:fs";
import { sep } from "node:path";
import { fileURLToPath } from "node:url";
import fastifyStatic from "@fastify/static";
import type { FastifyInstance } from "fastify";
import { ApiError } from "./errors.ts";

export const builtPages = fileURLToPath(new URL("../web/dist", import.meta.url));

/** Serves the built pages; an address that is no file and not under /api gets the first page, which finds its way. */
export async function servePages(app: FastifyInstance, folder: string): Promise<void> {
  const built = existsSync(folder);
  if (built) {
    await app.register(fastifyStatic, {
      root: folder,
      cacheControl: false,
      // the build leaves a packed file beside each script and style
      preCompressed: true,
      setHeaders: (reply, path) => {
        const hashed = path.includes(`${sep}assets${sep}`);
        reply.setHeader("cache-control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
      },
    });
  }
  app.setNotFoundHandler((request, reply) => {
    const path = request.url.split("?")[0] ?? "";
    const isPage = request.method === "GET" && !/^\/(api|assets)(\/|$)/.test(path);
    if (built && isPage) return reply.sendFile("index.html");
    throw new ApiError("no-such-address", `there is no ${request.method} ${path.slice(0, 200)} here`);
  });
}
