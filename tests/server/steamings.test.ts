import { expect, test } from "vitest";
import { engine, entries, head, steaming } from "./fixtures.ts";
import { runningApp, steamedApp } from "./running-app.ts";

test("a steaming comes back as it was given", async () => {
  const { ask } = await steamedApp();
  expect((await ask("GET", "/api/steamings/steaming-1")).body).toEqual(steaming);
});

test("a steaming with traces comes back with the very same samples", async () => {
  const { ask } = await steamedApp();
  const traced = {
    ...steaming,
    id: "traced",
    traces: [
      { channel: "pressureBarG", startS: 0.5, everyS: 0.1, values: [0, null, 0.1, 2.05, null] },
      { channel: "massG", startS: -3, everyS: 1, values: [] },
    ],
  };
  expect((await ask("POST", "/api/steamings", traced)).status).toBe(201);
  expect((await ask("GET", "/api/steamings/traced")).body).toEqual(traced);
});

test("the same steaming posted again changes nothing, also when it has grown meanwhile", async () => {
  const { ask, store } = await steamedApp();
  expect((await ask("POST", "/api/steamings", steaming)).status).toBe(200);
  await ask("PUT", "/api/steamings/steaming-1/entries/later", { atS: 1100, kind: "note", text: "cold" });
  expect((await ask("POST", "/api/steamings", steaming)).status).toBe(200);
  expect((await ask("POST", "/api/steamings", { ...head, entries: [] })).status).toBe(200);
  expect(store.steamings.get("steaming-1")?.entries).toBe(entries.length + 1);
});

test("another steaming under the same id is refused, with what differs", async () => {
  const { ask } = await steamedApp();
  const other = await ask("POST", "/api/steamings", { ...steaming, title: "Other" });
  expect(other.status).toBe(409);
  expect(other.body).toMatchObject({ code: "steaming-differs" });
  const changed = entries.map((entry) => (entry.id === "e05" ? { ...entry, barG: 2.7 } : entry));
  const entryDiffers = await ask("POST", "/api/steamings", { ...steaming, entries: changed });
  expect(entryDiffers.status).toBe(409);
  expect(entryDiffers.body).toMatchObject({ path: "entries[4]" });
  expect((await ask("GET", "/api/steamings/steaming-1")).body).toEqual(steaming);
});

test("an engine or a fitting that is not there is refused with its path", async () => {
  const { ask } = await steamedApp();
  const noEngine = await ask("POST", "/api/steamings", { ...steaming, id: "s2", locomotiveId: "nobody" });
  expect(noEngine.status).toBe(400);
  expect(noEngine.body).toMatchObject({ path: "locomotiveId" });
  const drip = { atS: 5, kind: "drip", fitting: "no-such", g: 1, overS: 60 };
  const noFitting = await ask("POST", "/api/steamings", { ...head, id: "s3", entries: [drip] });
  expect(noFitting.status).toBe(400);
  expect(noFitting.body).toMatchObject({ path: "entries[0].fitting" });
});

test("an entry id used twice in one steaming is refused", async () => {
  const { ask } = await steamedApp();
  const note = { id: "twice", atS: 1, kind: "note", text: "x" };
  const answer = await ask("POST", "/api/steamings", { ...head, id: "s2", entries: [note, note] });
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ path: "entries[1].id" });
});

test("the list holds all steamings by time, or one engine's, with the figures of each", async () => {
  const { ask } = await steamedApp();
  await ask("POST", "/api/locomotives", { ...engine, id: "engine-2" });
  await ask("POST", "/api/steamings", {
    ...head,
    id: "earlier",
    locomotiveId: "engine-2",
    startedAt: "2026-03-14T08:59:59Z",
    entries: [],
  });
  const all = (await ask("GET", "/api/steamings")).body as { id: string }[];
  expect(all.map(({ id }) => id)).toEqual(["earlier", "steaming-1"]);
  const one = (await ask("GET", "/api/steamings?locomotiveId=engine-1")).body;
  expect(one).toMatchObject([{ id: "steaming-1", title: "First trial", entries: entries.length, laps: 9 }]);
});

test("PUT replaces the head alone, and makes a steaming that is not there", async () => {
  const { ask } = await steamedApp();
  const renamed = { ...head, title: "Renamed" };
  expect((await ask("PUT", "/api/steamings/steaming-1", renamed)).status).toBe(200);
  expect((await ask("GET", "/api/steamings/steaming-1")).body).toEqual({ ...renamed, entries });
  expect((await ask("PUT", "/api/steamings/new", { ...head, id: "new" })).status).toBe(201);
  expect((await ask("GET", "/api/steamings/new")).body).toEqual({ ...head, id: "new", entries: [] });
});

test("PUT takes no entries, and no engine that lacks the fittings of the readings", async () => {
  const { ask } = await steamedApp();
  const withEntries = await ask("PUT", "/api/steamings/steaming-1", steaming);
  expect(withEntries.status).toBe(400);
  expect(withEntries.body).toMatchObject({ path: "entries" });
  await ask("POST", "/api/locomotives", { ...engine, id: "bare", fittings: [] });
  const moved = await ask("PUT", "/api/steamings/steaming-1", { ...head, locomotiveId: "bare" });
  expect(moved.status).toBe(400);
  expect(moved.body).toMatchObject({ path: "entries[12].fitting" });
});

test("DELETE removes a steaming with all that is in it", async () => {
  const { ask, store } = await steamedApp();
  expect((await ask("DELETE", "/api/steamings/steaming-1")).status).toBe(204);
  expect((await ask("GET", "/api/steamings/steaming-1")).status).toBe(404);
  expect(store.entries.ofSteaming("steaming-1")).toEqual([]);
  expect((await ask("DELETE", "/api/steamings/steaming-1")).body).toMatchObject({ code: "no-such-steaming" });
});

test("a steaming made anew under a removed one's id is not shown with the removed one's figures", async () => {
  const { ask } = await steamedApp();
  const before = (await ask("GET", "/api/steamings/steaming-1/report")).body;
  await ask("DELETE", "/api/steamings/steaming-1");
  await ask("POST", "/api/steamings", { ...head, entries: [] });
  const after = (await ask("GET", "/api/steamings/steaming-1/report")).body;
  expect(before).toMatchObject({ totals: { laps: 9 } });
  expect(after).toMatchObject({ totals: null });
});

test("a start without its offset from UTC is refused", async () => {
  const { ask } = await runningApp();
  const answer = await ask("POST", "/api/steamings", { ...steaming, startedAt: "2026-03-14T10:00:00" });
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ path: "startedAt" });
});

test("asked to remove a steaming only if it is empty, one with an entry or a trace stays", async () => {
  const { ask } = await steamedApp();
  const traces = [{ channel: "massG", startS: 0, everyS: 1, values: [1200] }];
  await ask("POST", "/api/steamings", { ...head, id: "traced", entries: [], traces });
  await ask("POST", "/api/steamings", { ...head, id: "empty", entries: [] });
  for (const id of ["steaming-1", "traced"]) {
    const before = await ask("GET", `/api/steamings/${id}`);
    const refused = await ask("DELETE", `/api/steamings/${id}?ifEmpty=true`);
    expect(refused.status).toBe(409);
    expect(refused.body).toMatchObject({ code: "steaming-not-empty" });
    const after = await ask("GET", `/api/steamings/${id}`);
    expect([before.status, after.status]).toEqual([200, 200]);
    expect(after.body).toEqual(before.body);
  }
  expect((await ask("DELETE", "/api/steamings/empty?ifEmpty=true")).status).toBe(204);
  expect((await ask("DELETE", "/api/steamings/empty?ifEmpty=true")).status).toBe(404);
  expect((await ask("DELETE", "/api/steamings/steaming-1?ifEmpty=perhaps")).status).toBe(400);
});
