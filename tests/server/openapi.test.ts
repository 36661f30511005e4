import { expect, test } from "vitest";
import { runningApp } from "./running-app.ts";

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
interface Operation {
  summary?: string;
  parameters?: { name: string; in: string; required?: boolean; schema: object }[];
  requestBody?: { content: Record<string, { schema: { $ref?: string } }> };
  responses: Record<string, { content?: Record<string, { schema: { $ref?: string } }> }>;
}
interface Document {
  openapi: string;
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, { [key: string]: Json }> };
}

async function document(): Promise<Document> {
  const { ask } = await runningApp();
  const answer = await ask("GET", "/api/openapi.json");
  expect(answer.status).toBe(200);
  return answer.body as Document;
}

const operations = ({ paths }: Document) =>
  Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({
      name: `${method.toUpperCase()} ${path}`,
      path,
      operation,
    })),
  );

function* within(value: Json): Generator<{ [key: string]: Json }> {
  if (value === null || typeof value !== "object") return;
  if (!Array.isArray(value)) yield value;
  for (const part of Object.values(value)) yield* within(part);
}

test("the document describes every address of the interface", async () => {
  const all = operations(await document()).map(({ name }) => name);
  expect(all.sort()).toEqual([
    "DELETE /api/demonstration",
    "DELETE /api/devices/{id}",
    "DELETE /api/locomotives/{id}",
    "DELETE /api/locomotives/{id}/plans/{name}",
    "DELETE /api/services/{id}",
    "DELETE /api/steamings/{id}",
    "DELETE /api/steamings/{id}/entries/{entryId}",
    "GET /api/clock",
    "GET /api/devices",
    "GET /api/footplate",
    "GET /api/live",
    "GET /api/locomotives",
    "GET /api/locomotives/{id}",
    "GET /api/locomotives/{id}/book",
    "GET /api/locomotives/{id}/care",
    "GET /api/locomotives/{id}/plans",
    "GET /api/locomotives/{id}/plans/{name}",
    "GET /api/locomotives/{id}/run-figures",
    "GET /api/logbook",
    "GET /api/services",
    "GET /api/shed",
    "GET /api/steamings",
    "GET /api/steamings/{id}",
    "GET /api/steamings/{id}/chart",
    "GET /api/steamings/{id}/entries/{entryId}/history",
    "GET /api/steamings/{id}/report",
    "GET /api/steamings/{id}/sheet",
    "POST /api/backups",
    "POST /api/compare",
    "POST /api/demonstration",
    "POST /api/locomotives",
    "POST /api/logbook",
    "POST /api/pairing",
    "POST /api/pairing/codes",
    "POST /api/services",
    "POST /api/sizing",
    "POST /api/steamings",
    "POST /api/steamings/{id}/entries",
    "POST /api/steamings/{id}/traces",
    "PUT /api/locomotives/{id}",
    "PUT /api/locomotives/{id}/plans/{name}",
    "PUT /api/services/{id}",
    "PUT /api/steamings/{id}",
    "PUT /api/steamings/{id}/entries/{entryId}",
  ]);
});

test("every operation says what it does, names the parts of its address, and has an answer", async () => {
  for (const { name, path, operation } of operations(await document())) {
    expect([name, operation.summary]).toEqual([name, expect.stringMatching(/\w+ \w+/)]);
    const inPath = [...path.matchAll(/\{(\w+)\}/g)].map(([, part]) => part);
    const named = (operation.parameters ?? []).filter((parameter) => parameter.in === "path");
    expect([name, named.map((parameter) => parameter.name)]).toEqual([name, inPath]);
    expect(named.every((parameter) => parameter.required)).toBe(true);
    const good = Object.keys(operation.responses).filter((status) => /^2\d\d$/.test(status));
    expect([name, good.length > 0]).toEqual([name, true]);
  }
});

test("every reference leads to a schema, and every schema has a user", async () => {
  const whole = await document();
  const references = [...within(whole as unknown as Json)].flatMap(({ $ref }) =>
    typeof $ref === "string" ? [$ref.replace("#/components/schemas/", "")] : [],
  );
  const names = Object.keys(whole.components.schemas);
  expect([...new Set(references)].filter((name) => !names.includes(name))).toEqual([]);
  expect(names.filter((name) => !references.includes(name))).toEqual([]);
});

test("each shape is written once: nowhere does the body of a named schema stand again", async () => {
  const whole = await document();
  const named = new Map(
    Object.entries(whole.components.schemas).map(([name, schema]) => [JSON.stringify(schema), name]),
  );
  expect(named.size).toBe(Object.keys(whole.components.schemas).length);
  const repeated = [...within(whole.paths as unknown as Json)].flatMap((part) => {
    const name = named.get(JSON.stringify(part));
    return name === undefined ? [] : [name];
  });
  expect(repeated).toEqual([]);
  expect(named.size).toBeGreaterThan(15);
});

test("bodies are what the contract names, refusals are of one form, traces of their own media type", async () => {
  const { paths } = await document();
  const body = (path: string, method: string) => paths[path]?.[method]?.requestBody?.content ?? {};
  const named = (name: string) => ({ schema: { $ref: `#/components/schemas/${name}` } });
  expect(body("/api/locomotives", "post")).toEqual({ "application/json": named("Locomotive") });
  expect(body("/api/steamings", "post")).toEqual({ "application/json": named("Steaming") });
  expect(body("/api/steamings/{id}", "put")).toEqual({ "application/json": named("SteamingHead") });
  expect(body("/api/steamings/{id}/entries/{entryId}", "put")).toEqual({
    "application/json": named("Entry"),
  });
  expect(body("/api/logbook", "post")).toEqual({ "application/json": named("LogbookFile") });
  expect(body("/api/steamings/{id}/traces", "post")).toEqual({ "application/senml+json": named("SenML") });
  const report = paths["/api/steamings/{id}/report"]?.get?.responses;
  expect(report?.["200"]?.content).toEqual({ "application/json": named("Report") });
  expect(report?.["4XX"]?.content).toEqual({ "application/json": named("Error") });
});

test("a strict object of the document takes no unknown key", async () => {
  const { components } = await document();
  expect(components.schemas.Locomotive?.additionalProperties).toBe(false);
  expect(components.schemas.Locomotive?.required).toEqual([
    "id",
    "name",
    "workingPressureBarG",
    "boiler",
    "fuel",
    "fittings",
  ]);
});
