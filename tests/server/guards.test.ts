import { expect, test, vi } from "vitest";
import { engine } from "./fixtures.ts";
import { runningApp } from "./running-app.ts";

test.each(["localhost:4532", "127.0.0.1:4532", "127.0.0.1", "[::1]:4532", "LOCALHOST"])(
  "the machine's own name %s is answered",
  async (host) => {
    const { ask } = await runningApp();
    expect((await ask("GET", "/api/shed", undefined, { host })).status).toBe(200);
  },
);

test.each(["evil.example", "127.0.0.1.evil.example:4532", "192.168.1.7:4532", "localhost.", "a b"])(
  "the name %j is refused, against pages of a foreign name that point here",
  async (host) => {
    const { ask } = await runningApp();
    const answer = await ask("GET", "/api/shed", undefined, { host });
    expect(answer.status).toBe(403);
    expect(answer.body).toMatchObject({ code: "host-refused", path: "Host" });
  },
);

test("a name that was allowed at the start is answered", async () => {
  const { ask } = await runningApp({ hostsAllowed: ["shed.local"] });
  expect((await ask("GET", "/api/shed", undefined, { host: "Shed.local:4532" })).status).toBe(200);
});

test("over the network the machine's own addresses are answered, and others are not", async () => {
  vi.resetModules();
  vi.doMock("node:os", async (original) => ({
    ...(await original<typeof import("node:os")>()),
    hostname: () => "Footplate",
    networkInterfaces: () => ({
      lo: [{ address: "127.0.0.1", internal: true }],
      wlan0: [{ address: "192.168.1.7", internal: false }],
    }),
  }));
  const { isOwn } = await import("../../server/hosts.ts");
  vi.doUnmock("node:os");
  const config = { port: 0, dataFolder: "", lan: true, demonstration: false, hostsAllowed: [], tls: null };
  expect(["192.168.1.7", "footplate", "footplate.local"].map((name) => isOwn(name, config))).toEqual([
    true,
    true,
    true,
  ]);
  expect(["192.168.1.8", "evil.example"].map((name) => isOwn(name, config))).toEqual([false, false]);
  expect(isOwn("192.168.1.7", { ...config, lan: false })).toBe(false);
});

test.each(["http://evil.example", "null", "http://localhost:9999", "https://evil.example"])(
  "a page of %s may not write here",
  async (origin) => {
    const { ask, store } = await runningApp();
    const headers = { host: "localhost:4532", origin };
    for (const [method, url] of [
      ["POST", "/api/locomotives"],
      ["PUT", "/api/locomotives/engine-1"],
      ["DELETE", "/api/locomotives/engine-1"],
    ] as const) {
      const answer = await ask(method, url, method === "DELETE" ? undefined : engine, headers);
      expect(answer.status).toBe(403);
      expect(answer.body).toMatchObject({ code: "origin-refused" });
    }
    expect(store.locomotives.all()).toEqual([]);
  },
);

test("our own page may write, and so may what is no page", async () => {
  const { ask } = await runningApp();
  const own = { host: "localhost:4532", origin: "http://localhost:4532" };
  expect((await ask("PUT", "/api/locomotives/engine-1", engine, own)).status).toBe(201);
  expect((await ask("PUT", "/api/locomotives/engine-1", engine)).status).toBe(200);
});

test("every answer forbids scripts of others and asks for no https", async () => {
  const { ask } = await runningApp();
  for (const url of ["/api/shed", "/nothing", "/api/locomotives/none"]) {
    const { headers } = await ask("GET", url);
    const policy = String(headers["content-security-policy"]);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/upgrade-insecure-requests|unsafe/);
    expect(headers["strict-transport-security"]).toBeUndefined();
    expect(headers["x-content-type-options"]).toBe("nosniff");
  }
});

test("a body that is no JSON is refused without a word of the inside", async () => {
  const { ask } = await runningApp();
  for (const text of ["{", '{"a":', "", "nonsense"]) {
    const answer = await ask("POST", "/api/locomotives", text);
    expect(answer.status).toBe(400);
    expect(answer.body).toMatchObject({ code: "not-json" });
    expect(answer.text).not.toMatch(/ at |node_modules|\.ts/);
  }
});

test("a body that would change the prototype of objects is refused", async () => {
  const { ask } = await runningApp();
  const answer = await ask("POST", "/api/locomotives", '{"__proto__":{"id":"x"}}');
  expect(answer.status).toBe(400);
  expect(answer.body).toMatchObject({ code: "not-json" });
});

test.each(["text/plain", "application/x-www-form-urlencoded", "application/xml"])(
  "a body of %s is refused",
  async (type) => {
    const { ask } = await runningApp();
    const answer = await ask("POST", "/api/locomotives", engine, { "content-type": type });
    expect(answer.status).toBe(415);
    expect(answer.body).toMatchObject({ code: "wrong-type" });
  },
);

test("a single engine takes at most a megabyte", async () => {
  const { ask } = await runningApp();
  const answer = await ask("POST", "/api/locomotives", { ...engine, name: "x".repeat(1024 * 1024) });
  expect(answer.status).toBe(413);
  expect(answer.body).toMatchObject({ code: "too-large" });
});

test("a logbook may be larger than a megabyte, and no larger than 64", async () => {
  const { ask } = await runningApp();
  const padded = (bytes: number) => `{"format":"lapwater-logbook"${" ".repeat(bytes)}}`;
  expect((await ask("POST", "/api/logbook", padded(2 * 1024 ** 2))).body).toMatchObject({ code: "invalid" });
  expect((await ask("POST", "/api/logbook", padded(64 * 1024 ** 2))).status).toBe(413);
});

test("an address that is not there, or cannot be read, is told so in the one form", async () => {
  const { ask } = await runningApp();
  const missing = await ask("GET", "/api/nothing");
  expect(missing.status).toBe(404);
  expect(missing.body).toEqual({
    code: "no-such-address",
    message: "there is no GET /api/nothing here",
  });
  expect((await ask("PATCH", "/api/locomotives")).body).toMatchObject({ code: "no-such-address" });
  const unreadable = await ask("GET", "/api/locomotives/%E0%A4%A");
  expect(unreadable.status).toBe(400);
  expect(unreadable.body).toMatchObject({ code: "bad-request" });
  const long = await ask("GET", `/api/locomotives/${"x".repeat(129)}`);
  expect(long.status).toBe(400);
  expect(long.body).toMatchObject({ code: "invalid", path: "address.id" });
});

test("a query is read as it stands: unknown names, texts for numbers and doubles are refused", async () => {
  const { ask } = await runningApp();
  const paths: [string, string][] = [
    ["/api/steamings?engine=1", "query.engine"],
    ["/api/steamings/s/report?untilS=", "query.untilS"],
    ["/api/steamings/s/report?untilS=0x10", "query.untilS"],
    ["/api/steamings/s/report?untilS=1&untilS=2", "query.untilS"],
    ["/api/steamings/s/chart", "query.channel"],
    ["/api/steamings/s/chart?channel=levelMm&width=0", "query.width"],
    ["/api/steamings/s/chart?channel=levelMm&width=1.5", "query.width"],
  ];
  for (const [url, path] of paths) {
    const answer = await ask("GET", url);
    expect([url, answer.status]).toEqual([url, 400]);
    expect(answer.body).toMatchObject({ code: "invalid", path });
  }
});

test("one address of the network may not ask without end", async () => {
  const { app } = await runningApp({ lan: true });
  const from = (remoteAddress: string) => app.inject({ url: "/api/locomotives", remoteAddress });
  let last = await from("192.0.2.9");
  for (let i = 0; i < 3000 && last.statusCode !== 429; i++) last = await from("192.0.2.9");
  expect(last.statusCode).toBe(429);
  expect(last.json()).toMatchObject({ code: "too-many-requests" });
  expect((await from("127.0.0.1")).statusCode).toBe(200);
});

test("what was not foreseen is a plain word to the caller and one line on standard error", async () => {
  const { ask, store } = await runningApp();
  const said = vi.spyOn(process.stderr, "write").mockReturnValue(true);
  store.close();
  const answer = await ask("GET", "/api/locomotives");
  const lines = said.mock.calls.map(([text]) => String(text));
  said.mockRestore();
  expect(answer.status).toBe(500);
  expect(answer.body).toEqual({
    code: "internal",
    message: "something went wrong in the server; nothing was changed by this request",
  });
  expect(lines).toEqual(["Lapwater: GET /api/locomotives failed: The database connection is not open\n"]);
});
