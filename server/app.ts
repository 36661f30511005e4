import type { Socket } from "node:net";
import helmet from "@fastify/helmet";
import rateLimit from "@fastify/rate-limit";
import type { ZodTypeProvider } from "@fastify/type-provider-zod";
import Fastify, { type FastifyReply } from "fastify";
import type { App } from "./app-type.ts";
import type { Config } from "./config.ts";
import { demonstrationFile } from "./demonstration.ts";
import { ApiError, asApiError } from "./errors.ts";
import { guardHosts } from "./hosts.ts";
import { describeApi } from "./openapi.ts";
import { builtPages, servePages } from "./pages.ts";
import { type PairingCodes, pairingCodes } from "./pairing/codes.ts";
import { guardUnpaired, isFromHere } from "./pairing/guard.ts";
import { reportsOf } from "./reports.ts";
import { addRoutes } from "./routes/routes.ts";
import type { Store } from "./store/store.ts";
import { serializerCompiler, validatorCompiler } from "./validation.ts";

/** A single engine, head or entry is small; logbooks and traces say their own limit. */
const bodyLimitBytes = 1024 * 1024;
/** An identifier of 128 characters, each written as up to nine in an address. */
const longestAddressPart = 128 * 9 + 48;
const requestsPerMinute = 3000;

/** Everything comes from this server and nothing is written into the page: no address but our own is needed. */
const contentPolicy = {
  useDefaults: false,
  directives: {
    defaultSrc: ["'none'"],
    scriptSrc: ["'self'"],
    styleSrc: ["'self'"],
    imgSrc: ["'self'", "data:", "blob:"],
    fontSrc: ["'self'"],
    connectSrc: ["'self'"],
    manifestSrc: ["'self'"],
    workerSrc: ["'self'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
};

/** Files of the program that the server hands out. */
export interface Places {
  pages: string;
  demonstration: string;
}
export const ownPlaces: Places = { pages: builtPages, demonstration: demonstrationFile };

/** The server without its listener. */
export async function buildApp(
  config: Config,
  store: Store,
  places: Places = ownPlaces,
  codes: PairingCodes = pairingCodes(),
): Promise<App> {
  const app = Fastify({
    ...(config.tls === null ? {} : { https: config.tls }),
    logger: false,
    bodyLimit: bodyLimitBytes,
    routerOptions: { maxParamLength: longestAddressPart, ignoreTrailingSlash: true },
    requestTimeout: 120_000,
    return503OnClosing: false,
    frameworkErrors: (error, _request, reply) => answerWith(reply, asApiError(error)),
    clientErrorHandler: answerUnreadable,
  }).withTypeProvider<ZodTypeProvider>();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.removeContentTypeParser("text/plain");
  app.setErrorHandler((error, request, reply) => {
    const refusal = asApiError(error);
    if (refusal.code === "internal") sayFailure(request.method, request.url, error);
    return answerWith(reply, refusal);
  });

  await app.register(helmet, {
    contentSecurityPolicy: contentPolicy,
    // both only mean something on https, and browsers complain of them elsewhere
    strictTransportSecurity: false,
    crossOriginOpenerPolicy: false,
    originAgentCluster: false,
  });
  guardHosts(app, config);
  await app.register(rateLimit, {
    max: requestsPerMinute,
    timeWindow: 60_000,
    // a machine may ask itself as often as it likes
    allowList: isFromHere,
    errorResponseBuilder: (_request, { max }) =>
      new ApiError("too-many-requests", `more than ${max} requests in a minute: wait a little`),
  });
  guardUnpaired(app, store);
  await describeApi(app);
  const parts = { config, codes, store, reports: reportsOf(store), demonstration: places.demonstration };
  await app.register(async (api) => addRoutes(api.withTypeProvider<ZodTypeProvider>(), parts), {
    prefix: "/api",
  });
  await servePages(app, places.pages);
  return app;
}

function answerWith(reply: FastifyReply, refusal: ApiError) {
  // as text: a route's own schema for this status is of no use to a refusal
  return reply
    .status(refusal.statusCode)
    .type("application/json; charset=utf-8")
    .send(JSON.stringify(refusal.body()));
}

/** A request that is not even HTTP gets an answer of the same form. */
function answerUnreadable(error: Error & { code?: string }, socket: Socket): void {
  if (error.code !== "ECONNRESET" && socket.writable) {
    const text = JSON.stringify(new ApiError("bad-request", "the request cannot be read").body());
    const head = ["HTTP/1.1 400 Bad Request", `Content-Length: ${text.length}`, "Connection: close"];
    socket.write(`${head.join("\r\n")}\r\nContent-Type: application/json\r\n\r\n${text}`);
  }
  socket.destroy(error);
}

function sayFailure(method: string, url: string, error: unknown): void {
  const detail = error instanceof Error ? error.message.split("\n")[0] : String(error);
  process.stderr.write(`Lapwater: ${method} ${url.split("?")[0]} failed: ${detail}\n`);
}
