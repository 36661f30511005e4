import type { IncomingMessage, ServerResponse } from "node:http";
import type { ZodTypeProvider } from "@fastify/type-provider-zod";
import type { FastifyBaseLogger, FastifyInstance, RawServerDefault } from "fastify";

/** The server, as its routes take it. */
export type App = FastifyInstance<
  RawServerDefault,
  IncomingMessage,
  ServerResponse,
  FastifyBaseLogger,
  ZodTypeProvider
>;
