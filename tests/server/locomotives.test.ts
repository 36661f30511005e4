import { expect, test } from "vitest";
import { engine, without } from "./fixtures.ts";
import { runningApp, steamedApp } from "./running-app.ts";

test("an engine that is added can be read again, alone and in the list", async () => {
  const { ask } = await runningApp();
  const added = await ask("POST", "/api/locomotives", engine);
  expect(added.status).toBe(201);
  expect(added.body).toEqual(engine);
  expect((await ask("GET", "/api/locomotives/engine-1")).body).toEqual(engine);
  expect((await ask("GET", "/api/locomotives")).body).toEqual([engine]);
});

test("the same engine added again changes nothing; another under its id is refused", async () => {
  const { ask, store } = await steamedApp();
  const revision = store.locomotives.get("engine-1")?.revision;
  expect((await ask("POST", "/api/locomotives", engine)).status).toBe(200);
  expect(store.locomotives.get("engine-1")?.revision).toBe(revision);
  const other = await ask("POST", "/api/locomotives", { ...engine, name: "Another" });
  expect(other.status).toBe(409);
  expect(other.body).toMatchObject({ code: "locomotive-differs", path: "id" });
  expect((await ask("GET", "/api/locomotives/engine-1")).body).toEqual(engine);
});

test("the order of keys is no difference", async () => {
  const { ask } = await steamedApp();
  const reversed = Object.fromEntries(Object.entries(engine).reverse());
  expect((await ask("POST", "/api/locomotives", reversed)).status).toBe(200);
});

test("PUT makes an engine, and replaces it", async () => {
  const { ask } = await runningApp();
  expect((await ask("PUT", "/api/locomotives/engine-1", engine)).status).toBe(201);
  const renamed = { ...engine, name: "Renamed" };
  expect((await ask("PUT", "/api/locomotives/engine-1", renamed)).status).toBe(200);
  expect((await ask("GET", "/api/locomotives/engine-1")).body).toEqual(renamed);
});

test("PUT under another id than the body's is refused", async () => {
  const { ask } = await runningApp();
  const answer = await ask("PUT", "/api/locomotives/engine-2", engine);
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ code: "invalid", path: "id" });
});

test("a fitting that a reading names cannot be left out", async () => {
  const { ask } = await steamedApp();
  const withoutGland = { ...engine, fittings: engine.fittings.filter(({ id }) => id !== "gland-left") };
  const answer = await ask("PUT", "/api/locomotives/engine-1", withoutGland);
  expect(answer.status).toBe(409);
  expect(answer.body).toMatchObject({ code: "fitting-in-use", path: "fittings" });
  const withoutClack = { ...engine, fittings: engine.fittings.filter(({ id }) => id !== "clack") };
  expect((await ask("PUT", "/api/locomotives/engine-1", withoutClack)).status).toBe(200);
});

test("two fittings of one id are refused", async () => {
  const { ask } = await runningApp();
  const [gland] = engine.fittings;
  const answer = await ask("POST", "/api/locomotives", { ...engine, fittings: [gland, gland] });
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ path: "fittings[1].id" });
});

test("DELETE removes an engine with its steamings", async () => {
  const { ask } = await steamedApp();
  expect((await ask("DELETE", "/api/locomotives/engine-1")).status).toBe(204);
  expect((await ask("GET", "/api/locomotives/engine-1")).status).toBe(404);
  expect((await ask("GET", "/api/steamings/steaming-1")).status).toBe(404);
  const again = await ask("DELETE", "/api/locomotives/engine-1");
  expect(again.status).toBe(404);
  expect(again.body).toMatchObject({ code: "no-such-locomotive" });
});

test("an unknown key is refused with its path, and a missing one too", async () => {
  const { ask } = await runningApp();
  const unknown = await ask("POST", "/api/locomotives", {
    ...engine,
    boiler: { ...engine.boiler, colour: "green" },
  });
  expect(unknown.status).toBe(400);
  expect(unknown.body).toMatchObject({ code: "invalid", path: "boiler.colour" });
  const missing = await ask("POST", "/api/locomotives", without(engine, "fuel"));
  expect(missing.body).toMatchObject({
    path: "fuel",
    problems: [{ path: "fuel", came: "nothing", wanted: "an object" }],
  });
});

test("every problem of a body is named", async () => {
  const { ask } = await runningApp();
  const answer = await ask("POST", "/api/locomotives", { ...engine, name: 5, workingPressureBarG: "2.8" });
  expect(answer.status).toBe(400);
  expect((answer.body as { problems: { path: string }[] }).problems.map(({ path }) => path)).toEqual([
    "name",
    "workingPressureBarG",
  ]);
});

test("an id with letters beyond ASCII and of full length finds its engine", async () => {
  const { ask } = await runningApp();
  const id = "Lok Nr. 7 – ".padEnd(128, "ö");
  expect((await ask("POST", "/api/locomotives", { ...engine, id })).status).toBe(201);
  expect((await ask("GET", `/api/locomotives/${encodeURIComponent(id)}`)).body).toMatchObject({ id });
});
