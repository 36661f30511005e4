import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { demonstrationFile, welcome } from "../../server/demonstration.ts";
import { shedSchema } from "../../server/routes/shapes.ts";
import { engine, head, logbook } from "./fixtures.ts";
import { emptyFolder, runningApp } from "./running-app.ts";

function fileOf(content: unknown = logbook): string {
  const file = join(emptyFolder(), "demonstration.json");
  writeFileSync(file, JSON.stringify(content));
  return file;
}

test("the demonstration is offered, added with its mark, and removed without a trace", async () => {
  const { ask } = await runningApp({}, { demonstration: fileOf() });
  expect((await ask("GET", "/api/shed")).body).toEqual({ engines: [], demonstrationOffered: true });
  expect((await ask("POST", "/api/demonstration")).status).toBe(201);
  expect((await ask("GET", "/api/shed")).body).toMatchObject({
    engines: [{ locomotive: engine, demonstration: true, steamings: [{ id: "steaming-1" }] }],
    demonstrationOffered: false,
  });
  expect((await ask("POST", "/api/demonstration")).status).toBe(201);
  expect((await ask("DELETE", "/api/demonstration")).status).toBe(204);
  expect((await ask("GET", "/api/shed")).body).toEqual({ engines: [], demonstrationOffered: true });
  expect((await ask("GET", "/api/logbook")).body).toMatchObject({
    locomotives: [],
    steamings: [],
    services: [],
  });
});

test("removing the demonstration leaves what is the owner's own", async () => {
  const { ask } = await runningApp({}, { demonstration: fileOf() });
  await ask("POST", "/api/demonstration");
  await ask("POST", "/api/locomotives", { ...engine, id: "own" });
  await ask("POST", "/api/steamings", { ...head, id: "own-steaming", locomotiveId: "own", entries: [] });
  await ask("POST", "/api/steamings", { ...head, id: "tried-out", entries: [] });
  await ask("DELETE", "/api/demonstration");
  const { body } = await ask("GET", "/api/shed");
  expect(body).toMatchObject({
    engines: [
      { locomotive: { id: "engine-1" }, demonstration: false, steamings: [{ id: "tried-out" }] },
      { locomotive: { id: "own" }, demonstration: false, steamings: [{ id: "own-steaming" }] },
    ],
  });
});

test("where there is no demonstration it is not offered, and asking for it says so", async () => {
  const { ask } = await runningApp();
  expect((await ask("GET", "/api/shed")).body).toMatchObject({ demonstrationOffered: false });
  const answer = await ask("POST", "/api/demonstration");
  expect(answer.status).toBe(409);
  expect(answer.body).toMatchObject({ message: "this copy of the program has no demonstration engine" });
});

test("an empty shed is welcomed once: what was removed does not come back by itself", async () => {
  const file = fileOf();
  const { ask, store } = await runningApp({}, { demonstration: file });
  expect(welcome(store, file)).toBeNull();
  expect(store.locomotives.all()).toHaveLength(1);
  await ask("DELETE", "/api/demonstration");
  expect(welcome(store, file)).toBeNull();
  expect(store.locomotives.all()).toEqual([]);
});

test("a shed with an engine of the owner is not given the demonstration unasked", async () => {
  const { ask, store } = await runningApp();
  await ask("POST", "/api/locomotives", { ...engine, id: "own" });
  expect(welcome(store, fileOf())).toBeNull();
  expect(store.locomotives.all()).toHaveLength(1);
});

test("a demonstration file that is missing or not valid is said in one line, and the shed opens", async () => {
  const { store } = await runningApp();
  expect(welcome(store, join(emptyFolder(), "none"))).toBe(
    "this copy of the program has no demonstration engine",
  );
  const bad = welcome(store, fileOf({ ...logbook, version: 2 }));
  expect(bad).toBe("the demonstration engine cannot be read: version: came 2; wanted 1");
  expect(store.locomotives.all()).toEqual([]);
});

test("the program's own demonstration comes in whole, and the shed reckons all of it", async () => {
  const { ask, store } = await runningApp();
  expect(welcome(store, demonstrationFile)).toBeNull();
  const shed = shedSchema.parse((await ask("GET", "/api/shed")).body);
  expect(shed.engines.every(({ demonstration }) => demonstration)).toBe(true);
  const steamings = shed.engines.flatMap((engine) => engine.steamings);
  expect(steamings.length).toBeGreaterThan(0);
  const whys = steamings.flatMap(({ figures }) =>
    Object.values(figures).flatMap((figure) => (figure.value === null ? [figure.why] : [])),
  );
  expect(whys.filter((why) => why.startsWith("could not be reckoned"))).toEqual([]);
});
