import { expect, test } from "vitest";
import { entries, steaming } from "./fixtures.ts";
import { steamedApp } from "./running-app.ts";

const at = (id: string) => `/api/steamings/steaming-1/entries/${id}`;
const pressure = { atS: 1200, kind: "pressure", barG: 1.5 };

test("an entry sent twice is kept once", async () => {
  const { ask, store } = await steamedApp();
  const first = await ask("PUT", at("new"), pressure);
  expect(first.status).toBe(201);
  expect(first.body).toEqual({ id: "new", ...pressure });
  const second = await ask("PUT", at("new"), { ...pressure, id: "new" });
  expect(second.status).toBe(200);
  expect(store.entries.ofSteaming("steaming-1")).toHaveLength(entries.length + 1);
});

test("the id in the body may not be another than the one in the address", async () => {
  const { ask } = await steamedApp();
  const answer = await ask("PUT", at("new"), { ...pressure, id: "other" });
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ code: "invalid", path: "id" });
});

test("an id with other content is refused, and what is kept stays", async () => {
  const { ask } = await steamedApp();
  const answer = await ask("PUT", at("e05"), { ...pressure, barG: 9 });
  expect(answer.status).toBe(409);
  expect(answer.body).toMatchObject({ code: "entry-differs", path: "id" });
  expect((await ask("GET", "/api/steamings/steaming-1")).body).toEqual(steaming);
});

test("a correction replaces an entry in its place and keeps the former in the history", async () => {
  const { ask, store } = await steamedApp();
  const corrected = { atS: 601, kind: "pressure", barG: 2.75 };
  expect((await ask("PUT", `${at("e05")}?correction=true`, corrected)).status).toBe(200);
  const now = store.entries.ofSteaming("steaming-1");
  expect(now[4]).toEqual({ id: "e05", ...corrected });
  expect(now).toHaveLength(entries.length);
  expect(store.entries.history("steaming-1")).toMatchObject([
    { entryId: "e05", what: "corrected", former: entries[4] },
  ]);
  expect((await ask("PUT", `${at("e05")}?correction=true`, corrected)).status).toBe(200);
  expect(store.entries.history("steaming-1")).toHaveLength(1);
});

test("a deleted entry is gone for good: the same id is not taken again", async () => {
  const { ask, store } = await steamedApp();
  expect((await ask("DELETE", at("e05"))).status).toBe(204);
  expect((await ask("DELETE", at("e05"))).status).toBe(204);
  const late = await ask("PUT", at("e05"), { atS: 600, kind: "pressure", barG: 2.8 });
  expect(late.status).toBe(410);
  expect(late.body).toMatchObject({ code: "entry-deleted" });
  expect((await ask("PUT", `${at("e05")}?correction=true`, pressure)).status).toBe(410);
  expect(store.entries.ofSteaming("steaming-1").map(({ id }) => id)).not.toContain("e05");
  expect(store.entries.history("steaming-1")).toMatchObject([
    { entryId: "e05", what: "deleted", former: { barG: 2.8 } },
  ]);
});

test("an entry that was taken back before it arrived does not come back when it arrives late", async () => {
  const { ask } = await steamedApp();
  expect((await ask("DELETE", at("undone"))).status).toBe(204);
  expect((await ask("PUT", at("undone"), pressure)).status).toBe(410);
});

test("a reading that is null is refused and not logged as 0", async () => {
  const { ask, store } = await steamedApp();
  const answer = await ask("PUT", at("dead-sensor"), { atS: 1, kind: "pressure", barG: null });
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({
    code: "invalid",
    problems: [{ path: "barG", came: "null", wanted: "a number" }],
  });
  expect(store.entries.ofSteaming("steaming-1")).toHaveLength(entries.length);
});

test.each([
  ["a text for a number", { ...pressure, barG: "1.5" }, "barG"],
  ["true for a number", { ...pressure, barG: true }, "barG"],
  ["an unknown key", { ...pressure, bar: 1.5 }, "bar"],
  ["an unknown kind", { ...pressure, kind: "steam" }, "kind"],
  ["a value out of range", { ...pressure, barG: 1e6 }, "barG"],
  ["a moment a year before", { ...pressure, atS: -4e7 }, "atS"],
  ["a fitting that the engine lacks", { atS: 1, kind: "look", fitting: "no", grade: "dry" }, "fitting"],
])("%s is refused with its path", async (_what, body, path) => {
  const { ask, store } = await steamedApp();
  const answer = await ask("PUT", at("new"), body);
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ code: "invalid", path });
  expect(store.entries.ofSteaming("steaming-1")).toHaveLength(entries.length);
});

test("entries of a steaming that is not there are refused", async () => {
  const { ask } = await steamedApp();
  const put = await ask("PUT", "/api/steamings/none/entries/a", pressure);
  expect(put.status).toBe(404);
  expect(put.body).toMatchObject({ code: "no-such-steaming" });
  expect((await ask("DELETE", "/api/steamings/none/entries/a")).status).toBe(404);
  expect((await ask("POST", "/api/steamings/none/entries", [])).status).toBe(404);
});

test("a steaming that was taken out and one that was never heard of are told apart by who sends entries", async () => {
  const { ask } = await steamedApp();
  await ask("DELETE", "/api/steamings/steaming-1");
  for (const [method, url, body] of [
    ["PUT", at("new"), pressure],
    ["POST", "/api/steamings/steaming-1/entries", []],
    ["GET", "/api/steamings/steaming-1", undefined],
  ] as const) {
    const gone = await ask(method, url, body);
    expect([url, gone.status, (gone.body as { code: string }).code]).toEqual([url, 404, "steaming-removed"]);
    const never = await ask(method, url.replace("steaming-1", "none"), body);
    expect([url, never.status, (never.body as { code: string }).code]).toEqual([
      url,
      404,
      "no-such-steaming",
    ]);
  }
  await ask("POST", "/api/steamings", steaming);
  expect((await ask("PUT", at("new"), pressure)).status).toBe(201);
});

test("the history of an entry tells what each correction and the deletion replaced", async () => {
  const { ask } = await steamedApp();
  const history = `${at("e05")}/history`;
  expect((await ask("GET", history)).body).toEqual([]);
  await ask("PUT", `${at("e05")}?correction=true`, { atS: 600, kind: "pressure", barG: 2.7 });
  await ask("PUT", `${at("e05")}?correction=true`, { atS: 601, kind: "pressure", barG: 2.7 });
  await ask("PUT", `${at("e06")}?correction=true`, { atS: 610, kind: "level", mm: 38 });
  await ask("DELETE", at("e05"));
  const former = (what: string, barG: number, atS: number) => ({
    entryId: "e05",
    what,
    former: { id: "e05", atS, kind: "pressure", barG },
    at: expect.stringMatching(/^\d{4}-.*Z$/),
  });
  const whole = [former("corrected", 2.8, 600), former("corrected", 2.7, 600), former("deleted", 2.7, 601)];
  expect((await ask("GET", history)).body).toEqual(whole);
  const { history: all } = (await ask("GET", "/api/steamings/steaming-1/sheet")).body as {
    history: object[];
  };
  expect(all.length).toBe(4);
  expect(all).toEqual(expect.arrayContaining(whole));
  await ask("DELETE", at("never-seen"));
  expect((await ask("GET", `${at("never-seen")}/history`)).body).toMatchObject([
    { what: "deleted", former: null },
  ]);
  const none = await ask("GET", `${at("nothing")}/history`);
  expect(none.status).toBe(404);
  expect(none.body).toMatchObject({ code: "no-such-entry" });
});

test("a batch is answered item by item in its order, and one bad item stops no other", async () => {
  const { ask, store } = await steamedApp();
  await ask("DELETE", at("e01"));
  const batch = [
    { id: "n1", ...pressure },
    { id: "e02", atS: 0, kind: "level", mm: 38 },
    { id: "e03", atS: 10, kind: "fire", state: "out" },
    { id: "e01", atS: 0, kind: "fuel", action: "added", g: 40 },
    { id: "n2", atS: 1, kind: "pressure", barG: null },
    { ...pressure },
    "not an entry",
    { id: "n3", ...pressure },
  ];
  const answer = await ask("POST", "/api/steamings/steaming-1/entries", batch);
  expect(answer.status).toBe(200);
  expect(answer.body).toMatchObject([
    { id: "n1", status: 201 },
    { id: "e02", status: 200 },
    { id: "e03", status: 409, code: "entry-differs" },
    { id: "e01", status: 410, code: "entry-deleted" },
    { id: "n2", status: 400, code: "invalid", path: "barG" },
    { id: null, status: 400, code: "invalid", path: "id" },
    { id: null, status: 400, code: "invalid" },
    { id: "n3", status: 201 },
  ]);
  const ids = store.entries.ofSteaming("steaming-1").map(({ id }) => id);
  expect(ids.slice(-2)).toEqual(["n1", "n3"]);
});

test("a batch may stand under the key entries, and sent again changes nothing", async () => {
  const { ask, store } = await steamedApp();
  const batch = { entries: [{ id: "n1", ...pressure }] };
  expect((await ask("POST", "/api/steamings/steaming-1/entries", batch)).body).toEqual([
    { id: "n1", status: 201 },
  ]);
  const revision = store.steamings.get("steaming-1")?.revision;
  expect((await ask("POST", "/api/steamings/steaming-1/entries", batch)).body).toEqual([
    { id: "n1", status: 200 },
  ]);
  expect(store.steamings.get("steaming-1")?.revision).toBe(revision);
});

test("every change of entries stands in the change table, in order", async () => {
  const { ask, store } = await steamedApp();
  const last = store.changes.after(0, 1000).at(-1)?.seq ?? 0;
  await ask("PUT", at("new"), pressure);
  await ask("PUT", at("new"), pressure);
  await ask("PUT", `${at("new")}?correction=true`, { ...pressure, barG: 1.4 });
  await ask("DELETE", at("new"));
  const changes = store.changes.after(last, 1000);
  expect(changes.map(({ what, steamingId, entryId }) => [what, steamingId, entryId])).toEqual([
    ["entry-added", "steaming-1", "new"],
    ["entry-corrected", "steaming-1", "new"],
    ["entry-deleted", "steaming-1", "new"],
  ]);
});
