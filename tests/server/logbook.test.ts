import { expect, test } from "vitest";
import { readLogbook } from "../../src/logbook/read-logbook.ts";
import { engine, entries, head, logbook, service, steaming, without } from "./fixtures.ts";
import { runningApp, steamedApp } from "./running-app.ts";

const none = { added: 0, same: 0, differs: 0 };
const unsignedEntries = entries.map((entry) => without(entry, "id"));
const unsigned = { ...logbook, steamings: [{ ...head, entries: unsignedEntries }] };

test("a logbook brought in is taken out the same", async () => {
  const { ask } = await runningApp();
  const brought = await ask("POST", "/api/logbook", logbook);
  expect(brought.status).toBe(200);
  expect(brought.body).toEqual({
    locomotives: { added: 1, same: 0, differs: 0 },
    steamings: { added: 1, same: 0, differs: 0 },
    entries: { added: entries.length, same: 0, differs: 0, deleted: 0 },
    services: { added: 1, same: 0, differs: 0 },
    problems: [],
  });
  const out = await ask("GET", "/api/logbook");
  expect(out.headers["content-disposition"]).toBe('attachment; filename="lapwater.logbook.json"');
  expect(readLogbook(out.text)).toEqual({ ok: true, value: logbook });
});

test("a logbook with traces goes out and into another shed without a difference", async () => {
  const trace = { channel: "levelMm", startS: 0, everyS: 0.5, values: [38, null, 37.9, 1 / 3] };
  const traced = { ...logbook, steamings: [{ ...steaming, traces: [trace] }] };
  const first = await runningApp();
  await first.ask("POST", "/api/logbook", traced);
  const file = (await first.ask("GET", "/api/logbook")).text;
  const second = await runningApp();
  expect((await second.ask("POST", "/api/logbook", file)).status).toBe(200);
  expect((await second.ask("GET", "/api/logbook")).text).toBe(file);
  expect(JSON.parse(file)).toEqual(traced);
});

test("the same file twice makes no doubles, with or without ids of its entries", async () => {
  for (const file of [logbook, unsigned]) {
    const { ask, store } = await runningApp();
    await ask("POST", "/api/logbook", file);
    const revision = store.steamings.get("steaming-1")?.revision;
    const again = await ask("POST", "/api/logbook", file);
    expect(again.body).toMatchObject({
      locomotives: { ...none, same: 1 },
      steamings: { ...none, same: 1 },
      entries: { ...none, same: entries.length },
      services: { ...none, same: 1 },
    });
    expect(store.steamings.get("steaming-1")?.revision).toBe(revision);
  }
});

test("an entry put into the file between others is the only one that is added", async () => {
  const { ask, store } = await runningApp();
  await ask("POST", "/api/logbook", unsigned);
  const note = { atS: 5, kind: "note", text: "put in" };
  const grown = [...unsignedEntries.slice(0, 3), note, ...unsignedEntries.slice(3)];
  const answer = await ask("POST", "/api/logbook", { ...unsigned, steamings: [{ ...head, entries: grown }] });
  expect(answer.body).toMatchObject({ entries: { added: 1, same: entries.length } });
  expect(store.entries.ofSteaming("steaming-1")).toHaveLength(entries.length + 1);
});

test("two entries that say the same without ids both stay", async () => {
  const { ask, store } = await runningApp();
  const lap = { atS: 700, kind: "lap", count: 1 };
  const file = { ...unsigned, steamings: [{ ...head, entries: [lap, lap] }] };
  await ask("POST", "/api/logbook", file);
  await ask("POST", "/api/logbook", file);
  const kept = store.entries.ofSteaming("steaming-1");
  expect(kept.map((entry) => without(entry, "id"))).toEqual([lap, lap]);
  expect(new Set(kept.map(({ id }) => id)).size).toBe(2);
});

test("entries that came without ids keep their order and are analysed alike", async () => {
  const signed = await runningApp();
  await signed.ask("POST", "/api/logbook", logbook);
  const derived = await runningApp();
  await derived.ask("POST", "/api/logbook", unsigned);
  const back = (await derived.ask("GET", "/api/steamings/steaming-1")).body as { entries: object[] };
  expect(back.entries.map((entry) => without(entry as { id: string }, "id"))).toEqual(unsignedEntries);
  // the warnings name entries by their ids, which are not the same ones
  const reportOf = async ({ ask }: typeof signed) => {
    const { warnings, ...figures } = (await ask("GET", "/api/steamings/steaming-1/report")).body as {
      warnings: { entries: string[] }[];
    };
    return {
      ...figures,
      warnings: warnings.map(({ entries, ...said }) => ({ ...said, of: entries.length })),
    };
  };
  expect(await reportOf(derived)).toEqual(await reportOf(signed));
});

test("a preview says what would happen and writes nothing", async () => {
  const { ask, store } = await runningApp();
  const preview = await ask("POST", "/api/logbook?preview=true", logbook);
  expect(preview.status).toBe(200);
  expect(preview.body).toMatchObject({ steamings: { added: 1 }, entries: { added: entries.length } });
  expect(store.locomotives.all()).toEqual([]);
  expect(store.steamings.all()).toEqual([]);
  expect(store.services.ofLocomotive("engine-1")).toEqual([]);
  expect(store.changes.after(0, 10)).toEqual([]);
});

test("a preview of a file that is not valid lists its problems", async () => {
  const { ask } = await runningApp();
  const preview = await ask("POST", "/api/logbook?preview=true", { ...logbook, colour: "green" });
  expect(preview.status).toBe(200);
  expect(preview.body).toMatchObject({
    locomotives: none,
    problems: [{ path: "colour", came: 'an unknown key with the text "green"' }],
  });
});

test("one problem anywhere and nothing of the file is brought in", async () => {
  const { ask, store } = await runningApp();
  const bad = { ...service, id: "service-2", fittingId: "no-such-fitting" };
  const answer = await ask("POST", "/api/logbook", { ...logbook, services: [service, bad] });
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ code: "invalid", path: "services[1].fittingId" });
  expect(store.locomotives.all()).toEqual([]);
});

test("all problems of a file are named", async () => {
  const { ask } = await runningApp();
  const steamings = [
    { ...steaming, purpose: "fun", entries: [{ atS: 1, kind: "level", mm: "38" }] },
    { ...steaming, id: "s2", startedAt: "yesterday" },
  ];
  const answer = await ask("POST", "/api/logbook", { ...logbook, steamings });
  expect((answer.body as { problems: { path: string }[] }).problems.map(({ path }) => path)).toEqual([
    "steamings[0].purpose",
    "steamings[0].entries[0].mm",
    "steamings[1].startedAt",
  ]);
});

test("what is kept with other content is refused whole, and listed", async () => {
  const { ask, store } = await steamedApp();
  const changed = entries.map((entry) => (entry.id === "e05" ? { ...entry, barG: 2.7 } : entry));
  const file = {
    ...logbook,
    locomotives: [
      { ...engine, name: "Renamed" },
      { ...engine, id: "engine-2" },
    ],
    steamings: [
      { ...head, entries: changed },
      { ...head, id: "new", entries: [] },
    ],
  };
  const answer = await ask("POST", "/api/logbook", file);
  expect(answer.status).toBe(409);
  expect(answer.body).toMatchObject({
    code: "logbook-differs",
    problems: [{ path: "locomotives[0]" }, { path: "steamings[0].entries[4]" }],
  });
  expect(store.locomotives.all().map(({ locomotive }) => locomotive)).toEqual([engine]);
  expect(store.steamings.all()).toHaveLength(1);
  const preview = await ask("POST", "/api/logbook?preview=true", file);
  expect(preview.body).toMatchObject({
    locomotives: { added: 1, differs: 1 },
    entries: { same: entries.length - 1, differs: 1 },
  });
});

test("a steaming that is there gains the entries it lacks", async () => {
  const { ask, store } = await runningApp();
  await ask("POST", "/api/logbook", { ...logbook, steamings: [{ ...head, entries: entries.slice(0, 5) }] });
  const answer = await ask("POST", "/api/logbook", logbook);
  expect(answer.body).toMatchObject({
    steamings: { ...none, same: 1 },
    entries: { added: entries.length - 5, same: 5, differs: 0 },
  });
  expect(store.wholeSteaming("steaming-1")).toEqual(steaming);
});

test("an entry that was deleted here stays deleted, and the outcome says so", async () => {
  const { ask, store } = await steamedApp();
  await ask("DELETE", "/api/steamings/steaming-1/entries/e05");
  const answer = await ask("POST", "/api/logbook", logbook);
  expect(answer.status).toBe(200);
  expect(answer.body).toMatchObject({ entries: { added: 0, same: entries.length - 1, deleted: 1 } });
  expect(store.entries.ofSteaming("steaming-1").map(({ id }) => id)).not.toContain("e05");
});

test("a file may name an engine that is kept here and not in the file", async () => {
  const { ask } = await steamedApp();
  const file = { ...logbook, locomotives: [], steamings: [{ ...head, id: "s2", entries: [] }] };
  expect((await ask("POST", "/api/logbook", file)).status).toBe(200);
  expect((await ask("GET", "/api/steamings/s2")).status).toBe(200);
});

test("one engine's logbook holds that engine alone, and is a whole file", async () => {
  const { ask } = await runningApp();
  const other = { ...engine, id: "engine-2" };
  const more = { ...head, id: "other", locomotiveId: "engine-2", entries: [] };
  await ask("POST", "/api/logbook", {
    ...logbook,
    locomotives: [engine, other],
    steamings: [steaming, more],
  });
  const one = await ask("GET", "/api/logbook?locomotiveId=engine-2");
  expect(readLogbook(one.text)).toEqual({
    ok: true,
    value: { ...logbook, locomotives: [other], steamings: [more], services: [] },
  });
  const nobody = await ask("GET", "/api/logbook?locomotiveId=nobody");
  expect(nobody.status).toBe(404);
  expect(nobody.body).toMatchObject({ code: "no-such-locomotive" });
});

test("a trace that says other than the one kept is refused", async () => {
  const { ask } = await runningApp();
  const trace = { channel: "levelMm", startS: 0, everyS: 1, values: [38, 37.9] };
  await ask("POST", "/api/logbook", { ...logbook, steamings: [{ ...steaming, traces: [trace] }] });
  const longer = { ...trace, values: [38, 37.9, 37.8] };
  const grown = { ...logbook, steamings: [{ ...steaming, traces: [longer] }] };
  expect((await ask("POST", "/api/logbook", grown)).status).toBe(200);
  expect((await ask("GET", "/api/steamings/steaming-1")).body).toEqual({ ...steaming, traces: [longer] });
  const other = { ...trace, values: [38, 36] };
  const differs = await ask("POST", "/api/logbook", {
    ...logbook,
    steamings: [{ ...steaming, traces: [other] }],
  });
  expect(differs.status).toBe(409);
  expect(differs.body).toMatchObject({ path: "steamings[0].traces[0]" });
});

test("the JSON Schema of a logbook file is the file's own, closed to unknown keys", async () => {
  const { ask } = await runningApp();
  const answer = await ask("GET", "/api/logbook/schema.json");
  expect(answer.status).toBe(200);
  expect(answer.body).toMatchObject({
    $schema: "https://json-schema.org/draft/2020-12/schema",
    additionalProperties: false,
    required: ["format", "version", "locomotives", "steamings", "services"],
    properties: { format: { const: "lapwater-logbook" }, version: { const: 1 } },
  });
});
