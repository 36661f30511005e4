import { once } from "node:events";
import { connect } from "node:net";
import { afterEach, expect, test, vi } from "vitest";
import { beatMs, mostOfOneAddress } from "../../server/live/live.ts";
import { EventReader } from "./event-reader.ts";
import { engine, entries, head, service, steaming } from "./fixtures.ts";
import { type Listening, listening } from "./listening.ts";
import { emptyFolder, runningApp } from "./running-app.ts";

const begun: (() => unknown)[] = [];
afterEach(async () => {
  vi.useRealTimers();
  for (const end of begun.splice(0).reverse()) await end();
});

async function open(folder = emptyFolder(), port = 0): Promise<Listening> {
  const server = await listening(folder, {}, port);
  begun.push(server.close);
  return server;
}

function read({ port }: Listening, lastEventId?: number | string, way: "header" | "query" = "query") {
  const query = lastEventId !== undefined && way === "query" ? `?lastEventId=${lastEventId}` : "";
  const headers = lastEventId !== undefined && way === "header" ? { "last-event-id": `${lastEventId}` } : {};
  const reader = new EventReader(
    `http://127.0.0.1:${port}/api/live${query}`,
    headers as Record<string, string>,
  );
  begun.push(() => reader.close());
  return reader;
}

test("the clock is the server's, in milliseconds", async () => {
  vi.useFakeTimers({ now: 1_790_000_000_123, toFake: ["Date"] });
  const { ask } = await runningApp();
  expect((await ask("GET", "/api/clock")).body).toEqual({ nowMs: 1_790_000_000_123 });
});

test("what is added, corrected and deleted comes as it happens, numbered as in the change table", async () => {
  const server = await open();
  const { store } = server;
  const reader = read(server);
  expect((await reader.opened).headers).toMatchObject({
    "content-type": "text/event-stream; charset=utf-8",
    "cache-control": "no-store",
  });
  await reader.until(() => reader.lastId === "0");
  const entry = { id: "e1", atS: 5, kind: "level", mm: 30 } as const;
  store.locomotives.add(engine);
  store.steamings.add(head);
  await reader.until(() => reader.events.length === 1);
  store.entries.put(head.id, entry);
  await reader.until(() => reader.events.length === 2);
  store.entries.put(head.id, { ...entry, mm: 31 }, true);
  await reader.until(() => reader.events.length === 3);
  store.entries.remove(head.id, "e1");
  store.services.add(service);
  store.traces.add(head.id, { channel: "levelMm", startS: 0, everyS: 1, values: [1, 2] });
  store.steamings.put({ ...head, title: "Another" });
  store.locomotives.remove(engine.id);
  await reader.until(() => reader.events.length === 7);
  const steamingId = head.id;
  expect(reader.events.map(({ event, data }) => [event, data])).toEqual([
    ["steaming", { steamingId, what: "added" }],
    ["entry", { steamingId, entryId: "e1", what: "added", entry }],
    ["entry", { steamingId, entryId: "e1", what: "corrected", entry: { ...entry, mm: 31 } }],
    ["entry", { steamingId, entryId: "e1", what: "deleted" }],
    ["steaming", { steamingId, what: "changed" }],
    ["steaming", { steamingId, what: "changed" }],
    ["steaming", { steamingId, what: "deleted" }],
  ]);
  const told = store.changes.after(0, 100).filter(({ steamingId }) => steamingId !== null);
  expect(reader.events.map(({ id }) => id)).toEqual(told.map(({ seq }) => seq));
});

test("the demonstration's steamings are said to be gone when it is removed", async () => {
  const server = await open();
  server.store.locomotives.add(engine, true);
  server.store.steamings.add(head, true);
  const reader = read(server);
  await reader.opened;
  await fetch(`http://127.0.0.1:${server.port}/api/demonstration`, { method: "DELETE" });
  await reader.until(() => reader.events.length === 1);
  expect(reader.events[0]?.data).toEqual({ steamingId: head.id, what: "deleted" });
});

test("what was put back is not told, and what is told has been kept", async () => {
  const server = await open();
  const reader = read(server);
  await reader.opened;
  server.store.locomotives.add(engine);
  expect(() =>
    server.store.atOnce(() => {
      server.store.steamings.add({ ...head, id: "put-back" });
      throw new Error("in the middle");
    }),
  ).toThrow("in the middle");
  server.store.steamings.add(head);
  await reader.until(() => reader.events.length > 0);
  expect(reader.events.map(({ data }) => data.steamingId)).toEqual([head.id]);
});

test.each(["header", "query"] as const)("a follower goes on after the number in the %s", async (way) => {
  const server = await open();
  server.store.locomotives.add(engine);
  server.store.steamings.add(head);
  for (const entry of entries) server.store.entries.put(head.id, entry);
  const first = read(server, 0, way);
  await first.until(() => first.events.length === 1 + entries.length);
  const middle = first.events[7]?.id ?? 0;
  const second = read(server, middle, way);
  await second.until(() => second.events.length === entries.length - 7);
  expect(second.events).toEqual(first.events.slice(8));
});

test("the header, which a browser sends after a break, goes before the query of the address", async () => {
  const server = await open();
  server.store.locomotives.add(engine);
  server.store.steamings.add(head);
  const url = `http://127.0.0.1:${server.port}/api/live?lastEventId=0`;
  const reader = new EventReader(url, { "last-event-id": "2" });
  begun.push(() => reader.close());
  await reader.until(() => reader.lastId === "2");
  server.store.entries.put(head.id, { id: "e1", atS: 1, kind: "lap", count: 1 });
  await reader.until(() => reader.events.length === 1);
  expect(reader.events.map(({ id }) => id)).toEqual([3]);
});

test.each([1000, "nonsense", "-1", "1e3"])(
  "a follower whose number, %s, is not of this database is told to begin anew, from the newest change",
  async (lastSeen) => {
    const server = await open();
    server.store.locomotives.add(engine);
    server.store.steamings.add(head);
    const reader = read(server, lastSeen, "header");
    await reader.until(() => reader.events.length === 1);
    server.store.entries.put(head.id, { id: "e1", atS: 1, kind: "lap", count: 1 });
    await reader.until(() => reader.events.length === 2);
    expect(reader.events.map(({ id, event }) => [id, event])).toEqual([
      [2, "restart"],
      [3, "entry"],
    ]);
  },
);

test("under load, with breaks and restarts of the server, nothing is missed and nothing comes twice", async () => {
  const folder = emptyFolder();
  const all: number[] = [];
  let lastId = "0";
  let port = 0;
  let sent = 0;
  for (let round = 0; round < 5; round++) {
    const server = await open(folder, port);
    port = server.port;
    server.store.locomotives.add(engine);
    server.store.steamings.add(head);
    for (let cut = 0; cut < 2; cut++) {
      const reader = read(server, lastId, "header");
      await reader.opened;
      const until = sent + 60;
      // some are kept before the follower is there, some while it reads
      for (; sent < until; sent++) {
        const body = JSON.stringify({ atS: sent, kind: "lap", count: 1 });
        const url = `http://127.0.0.1:${port}/api/steamings/${head.id}/entries/e${sent}`;
        await fetch(url, { method: "PUT", body, headers: { "content-type": "application/json" } });
      }
      if (cut === 0) {
        // broken off wherever it is
        await reader.until(() => reader.events.length > 20);
        reader.close();
        all.push(...reader.events.map(({ id }) => id));
        lastId = reader.lastId;
      } else {
        await server.close();
        expect(await reader.ended).toBeNull();
        all.push(...reader.events.map(({ id }) => id));
        lastId = reader.lastId;
      }
    }
  }
  const server = await open(folder);
  const reader = read(server, lastId);
  const told = server.store.changes.after(0, 10_000).filter(({ steamingId }) => steamingId !== null);
  await reader.until(() => all.length + reader.events.length >= told.length);
  all.push(...reader.events.map(({ id }) => id));
  expect(told.length).toBe(601);
  expect(all).toEqual(told.map(({ seq }) => seq));
});

test("closing the server ends the streams in good order and does not wait for them", async () => {
  const server = await open();
  const readers = [read(server), read(server)];
  await Promise.all(readers.map((reader) => reader.opened));
  await server.close();
  expect(await Promise.all(readers.map((reader) => reader.ended))).toEqual([null, null]);
});

test("a quiet stream bears a comment every 15 seconds", async () => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval"] });
  const server = await open();
  const reader = read(server);
  await reader.until(() => reader.lastId === "0");
  for (const count of [1, 2, 3]) {
    vi.advanceTimersByTime(beatMs);
    await reader.until(() => reader.comments.length >= count);
  }
  expect(reader.comments.length).toBe(3);
  expect(beatMs).toBe(15_000);
});

test("a follower that does not read is not buffered for, and dropped after a minute", async () => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval"] });
  const server = await open();
  const { store } = server;
  store.locomotives.add(engine);
  store.steamings.add(head);
  const text = "x".repeat(2000);
  store.atOnce(() => {
    for (let i = 0; i < 20_000; i++) {
      store.entries.put(head.id, { id: `e${i}`, atS: i, kind: "note", text });
    }
  });
  const socket = connect(server.port, "127.0.0.1");
  begun.push(() => socket.destroy());
  const gone = once(socket, "close");
  socket.write("GET /api/live?lastEventId=0 HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n");
  await once(socket, "readable");
  socket.pause();
  // others are served meanwhile
  expect((await fetch(`http://127.0.0.1:${server.port}/api/clock`)).status).toBe(200);
  for (let beat = 0; beat < 6; beat++) {
    vi.advanceTimersByTime(beatMs);
    await new Promise(setImmediate);
  }
  socket.resume();
  await gone;
  // 40 MB were to be sent; what the system's own buffers hold came, and no more
  expect(socket.bytesRead).toBeLessThan(20_000_000);
  expect(store.entries.ofSteaming(head.id).length).toBe(20_000);
});

test("a follower is let go where the database cannot be read, and the server goes on", async () => {
  const server = await open();
  server.store.locomotives.add(engine);
  const reader = read(server);
  await reader.until(() => reader.lastId === "1");
  const after = vi.spyOn(server.store.changes, "after").mockImplementation(() => {
    throw new Error("disk I/O error");
  });
  server.store.steamings.add(head);
  expect(await reader.ended).toBeInstanceOf(Error);
  after.mockRestore();
  const again = read(server, 1);
  await again.until(() => again.events.length === 1);
  expect(again.events[0]?.data).toEqual({ steamingId: head.id, what: "added" });
});

test("one address may hold only so many streams, and one that has closed makes room", async () => {
  const server = await open();
  const readers = Array.from({ length: mostOfOneAddress }, () => read(server));
  await Promise.all(readers.map((reader) => reader.until(() => reader.lastId === "0")));
  const refused = await fetch(`http://127.0.0.1:${server.port}/api/live`);
  expect(refused.status).toBe(503);
  expect(await refused.json()).toMatchObject({ code: "live-full" });
  readers[0]?.close();
  let status = 503;
  let reader = read(server);
  while (status !== 200) {
    status = (await reader.opened).statusCode ?? 0;
    if (status !== 200) reader = read(server);
  }
  expect(status).toBe(200);
});

test("an unknown part of the query is refused", async () => {
  const { ask } = await runningApp();
  expect((await ask("GET", "/api/live?since=3")).body).toMatchObject({
    code: "invalid",
    path: "query.since",
  });
});

test("a steaming brought in whole is one event, and entries brought into it later are one each", async () => {
  const server = await open();
  const reader = read(server);
  await reader.opened;
  const put = (path: string, body: unknown) =>
    fetch(`http://127.0.0.1:${server.port}/api${path}`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
    });
  await put("/locomotives", engine);
  await put("/steamings", { ...steaming, entries: entries.slice(0, 10) });
  await put("/steamings", steaming);
  await reader.until(() => reader.events.length === 8);
  expect(reader.events.map(({ event, data }) => [event, data.what])).toEqual([
    ["steaming", "added"],
    ...entries.slice(10).map(() => ["entry", "added"]),
  ]);
});
