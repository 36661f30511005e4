import type { FastifySchemaCompiler, FastifySerializerCompiler } from "fastify";
import { z } from "zod";
import { problemsOf } from "../src/logbook/problems.ts";
import { invalid } from "./errors.ts";

/** Where a problem lies, when it is not in the body. */
const prefixes: Record<string, string> = { querystring: "query.", params: "address.", headers: "headers." };

/** Checks what came by its zod schema: nothing is coerced, nothing unknown passes, every problem is named. */
export const validatorCompiler: FastifySchemaCompiler<z.ZodType> =
  ({ schema, httpPart }) =>
  (data: unknown) => {
    const result = schema.safeParse(data);
    if (result.success) return { value: result.data };
    const prefix = prefixes[httpPart ?? ""] ?? "";
    const problems = problemsOf(result.error, data);
    return { error: invalid(problems.map((problem) => ({ ...problem, path: prefix + problem.path }))) };
  };

/** For a body whose check asks for more than its schema: the handler does it, the schema only describes. */
export const bodyCheckedByHandler: FastifySchemaCompiler<unknown> = (part) =>
  part.httpPart === "body"
    ? (value: unknown) => ({ value })
    : validatorCompiler({ ...part, schema: part.schema as z.ZodType });

/** Answers are typed by their schemas when the program is compiled; the tests hold them to the schemas again. */
export const serializerCompiler: FastifySerializerCompiler<z.ZodType> = () => (data) => JSON.stringify(data);

/** A number in an address, written as a number and nothing else. */
export const queryNumber = (bounds: z.ZodNumber) =>
  z
    .string()
    .regex(/^-?\d+(\.\d+)?(e[+-]?\d+)?$/i, "a number")
    .transform(Number)
    .pipe(bounds);

export const queryFlag = z.enum(["true", "false"]).transform((text) => text === "true");
