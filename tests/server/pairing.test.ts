import { networkInterfaces } from "node:os";
import { afterEach, expect, test, vi } from "vitest";
import { pairingCodes, validMs, wrongAtMost } from "../../server/pairing/codes.ts";
import type { May } from "../../server/store/devices.ts";
import { EventReader } from "./event-reader.ts";
import { engine, entries, head, steaming } from "./fixtures.ts";
import { listening } from "./listening.ts";
import { emptyFolder, type RunningApp, runningApp } from "./running-app.ts";

const begun: (() => unknown)[] = [];
afterEach(async () => {
  vi.useRealTimers();
  for (const end of begun.splice(0).reverse()) await end();
});

const phone = "192.0.2.40";
type Method = "GET" | "POST" | "PUT" | "DELETE" | "HEAD" | "PATCH" | "OPTIONS";

/** A request that comes over the network, from a phone. */
async function fromPhone(
  { app }: RunningApp,
  method: Method,
  url: string,
  about: { token?: string; body?: unknown; from?: string; headers?: Record<string, string> } = {},
) {
  const answer = await app.inject({
    method,
    url,
    remoteAddress: about.from ?? phone,
    headers: {
      ...(about.token === undefined ? {} : { authorization: `Bearer ${about.token}` }),
      ...(about.body === undefined ? {} : { "content-type": "application/json" }),
      ...about.headers,
    },
    ...(about.body === undefined ? {} : { payload: JSON.stringify(about.body) }),
  });
  const isJson = String(answer.headers["content-type"]).includes("json") && answer.body !== "";
  return {
    status: answer.statusCode,
    body: isJson ? (answer.json() as unknown) : undefined,
    headers: answer.headers,
  };
}

async function codeFor(running: RunningApp, may: May): Promise<string> {
  const answer = await running.ask("POST", "/api/pairing/codes", { may });
  expect(answer.status).toBe(201);
  return (answer.body as { code: string }).code;
}

const pair = async (running: RunningApp, code: string, from = phone) =>
  fromPhone(running, "POST", "/api/pairing", { body: { code, name: "A phone" }, from });

async function tokenFor(running: RunningApp, may: May): Promise<string> {
  const answer = await pair(running, await codeFor(running, may));
  expect(answer.status).toBe(201);
  return (answer.body as { token: string }).token;
}

const lanApp = () => runningApp({ lan: true, hostsAllowed: ["shed.example"] });

test("over the network every address of the interface but the clock and pairing needs a token", async () => {
  const running = await lanApp();
  const { paths } = (await running.ask("GET", "/api/openapi.json")).body as {
    paths: Record<string, Record<string, unknown>>;
  };
  const open = ["get /api/clock", "post /api/pairing"];
  const all = Object.entries(paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method} ${path}`),
  );
  expect(all.length).toBeGreaterThan(25);
  for (const each of [...all, "get /api/openapi.json"].filter((name) => !open.includes(name))) {
    const [method = "", path = ""] = each.split(" ");
    const url = path.replaceAll(/\{\w+\}/g, "x");
    const answer = await fromPhone(running, method.toUpperCase() as Method, url);
    expect([each, answer.status, (answer.body as { code: string }).code]).toEqual([each, 401, "not-paired"]);
  }
  expect((await fromPhone(running, "GET", "/api/clock")).status).toBe(200);
});

test.each([
  "/%61pi/shed",
  "/api/shed/",
  "/api/shed?token=x",
  "/api/nothing",
  "/api",
  "/api/",
  "/api/clock/../shed",
])("the guard cannot be gone round by writing an address as %s", async (url) => {
  const running = await lanApp();
  const { status } = await fromPhone(running, "GET", url);
  expect(status).toBe(401);
});

test("a HEAD needs a token too, and no method is forgotten", async () => {
  const running = await lanApp();
  expect((await fromPhone(running, "HEAD", "/api/shed")).status).toBe(401);
  expect((await fromPhone(running, "PATCH", "/api/shed")).status).toBe(401);
  expect((await fromPhone(running, "OPTIONS", "/api/shed")).status).toBe(401);
});

test("what a proxy on this machine passes on needs a token as well", async () => {
  const { ask } = await lanApp();
  for (const name of ["x-forwarded-for", "forwarded"]) {
    expect((await ask("GET", "/api/shed", undefined, { [name]: "192.0.2.40" })).status).toBe(401);
  }
});

test("a phone that gives a code is paired, is told what plain http means, and may then read and write", async () => {
  const running = await lanApp();
  const answer = await pair(running, await codeFor(running, "record"));
  expect(answer.body).toEqual({
    token: expect.stringMatching(/^[\w-]{43}$/),
    may: "record",
    warning: expect.stringContaining("anyone in this network can read"),
  });
  const { token } = answer.body as { token: string };
  expect((await fromPhone(running, "PUT", "/api/locomotives/engine-1", { token, body: engine })).status).toBe(
    201,
  );
  expect((await fromPhone(running, "GET", "/api/locomotives", { token })).body).toEqual([engine]);
  const wrong = await fromPhone(running, "GET", "/api/locomotives", { token: `${token.slice(1)}A` });
  expect(wrong.body).toMatchObject({ code: "not-paired" });
  expect(wrong.headers["www-authenticate"]).toBe("Bearer");
});

test("on this machine itself no token is needed and nothing is warned of", async () => {
  const running = await lanApp();
  const code = await codeFor(running, "record");
  const answer = await running.ask("POST", "/api/pairing", { code, name: "This laptop" });
  expect(answer.body).toEqual({ token: expect.any(String), may: "record" });
});

test("a token in the query opens the stream of changes, and nothing else", async () => {
  const running = await lanApp();
  const token = await tokenFor(running, "record");
  expect((await fromPhone(running, "GET", `/api/shed?token=${token}`)).status).toBe(401);
  expect((await fromPhone(running, "GET", "/api/live?token=x")).status).toBe(401);
  expect((await fromPhone(running, "GET", `/api/live?token=${token}&token=${token}`)).status).toBe(401);
});

test("a code is good once", async () => {
  const running = await lanApp();
  const code = await codeFor(running, "record");
  expect((await pair(running, code)).status).toBe(201);
  const again = await pair(running, code);
  expect(again.status).toBe(403);
  expect(again.body).toMatchObject({ code: "code-refused", path: "code" });
  expect(running.store.devices.all().length).toBe(1);
});

test("a code may be typed in small letters, without the dash, and with the letters that look like figures", () => {
  const codes = pairingCodes();
  for (let i = 0; i < 200; i++) {
    const { code } = codes.make("view");
    const typed = ` ${code.toLowerCase().replace("-", " ")}`
      .replaceAll("0", "o")
      .replaceAll("1", i % 2 ? "l" : "i");
    expect([code, codes.take(typed)]).toEqual([code, "view"]);
  }
});

test("a code is too old after ten minutes, and not before", () => {
  let now = 1_790_000_000_000;
  const codes = pairingCodes(() => now);
  const early = codes.make("record");
  const late = codes.make("record");
  expect(early.expiresAtMs).toBe(now + 600_000);
  now += validMs - 1;
  expect(codes.take(early.code)).toBe("record");
  now += 1;
  expect(codes.take(late.code)).toBeNull();
});

test("codes are not repeated, and every sign of theirs is used", () => {
  const codes = pairingCodes();
  const made = Array.from({ length: 1000 }, () => codes.make("record").code);
  expect(new Set(made).size).toBe(1000);
  // the chance that one of 32 signs is missing in 8000 is below 1e-100
  expect(new Set(made.join("").replaceAll("-", "")).size).toBe(32);
});

test("after ten wrong codes the right one is of no use either, until a new one is made", () => {
  const codes = pairingCodes();
  const { code } = codes.make("record");
  for (let i = 0; i < wrongAtMost; i++) expect(codes.take(`ZZZZ-ZZZ${i}`)).toBeNull();
  expect(codes.take(code)).toBeNull();
  expect(codes.take(codes.make("record").code)).toBe("record");
});

test("nine wrong codes do no harm", () => {
  const codes = pairingCodes();
  const { code } = codes.make("record");
  for (let i = 1; i < wrongAtMost; i++) codes.take(`ZZZZ-ZZZ${i}`);
  expect(codes.take(code)).toBe("record");
});

test("who tries codes by force is stopped, first by the minute, and from many addresses by the code itself", async () => {
  const running = await lanApp();
  const code = await codeFor(running, "record");
  const statuses: number[] = [];
  for (let i = 0; i < 12; i++) statuses.push((await pair(running, `AAAA-AAA${i % 10}`, "192.0.2.66")).status);
  expect(statuses).toEqual([...Array(10).fill(403), 429, 429]);
  // also the right one, from an address that has tried nothing yet
  expect((await pair(running, code, "192.0.2.67")).status).toBe(403);
  expect((await pair(running, await codeFor(running, "record"), "192.0.2.67")).status).toBe(201);
  // a phone that is paired already is not disturbed by it
  const token = await tokenFor(running, "record");
  expect((await fromPhone(running, "GET", "/api/shed", { token })).status).toBe(200);
});

test("a code, a name that is missing, empty or too long, and unknown keys are refused", async () => {
  const running = await lanApp();
  const code = await codeFor(running, "record");
  for (const body of [
    { code },
    { name: "x" },
    { code: "", name: "x" },
    { code, name: " " },
    { code, name: "x".repeat(61) },
    { code, name: "x", may: "record" },
    { code: 12345678, name: "x" },
  ]) {
    const answer = await fromPhone(running, "POST", "/api/pairing", { body });
    expect([body, answer.status]).toEqual([body, 400]);
  }
  expect((await pair(running, code)).status).toBe(201);
});

test("codes are made on the machine itself, not over the network, not even by a paired device", async () => {
  const running = await lanApp();
  const token = await tokenFor(running, "record");
  const answer = await fromPhone(running, "POST", "/api/pairing/codes", { token, body: { may: "record" } });
  expect(answer.status).toBe(403);
  expect(answer.body).toMatchObject({ code: "only-at-server" });
});

test("a page of another site can make no code and pair nothing", async () => {
  const { ask } = await lanApp();
  const headers = { host: "localhost:4532", origin: "http://evil.example" };
  for (const [url, body] of [
    ["/api/pairing/codes", { may: "record" }],
    ["/api/pairing", { code: "AAAA-AAAA", name: "x" }],
  ] as const) {
    expect((await ask("POST", url, body, headers)).body).toMatchObject({ code: "origin-refused" });
  }
});

test("a server that answers on its own machine only makes no code, and says why", async () => {
  const { ask } = await runningApp();
  const answer = await ask("POST", "/api/pairing/codes", { may: "view" });
  expect(answer.status).toBe(409);
  expect(answer.body).toMatchObject({ code: "no-network", message: expect.stringContaining("--lan") });
});

test("a reading link views and cannot change anything, nor see or end what is paired", async () => {
  const running = await lanApp();
  await running.ask("POST", "/api/locomotives", engine);
  await running.ask("POST", "/api/steamings", steaming);
  const token = await tokenFor(running, "view");
  expect((await fromPhone(running, "GET", "/api/shed", { token })).status).toBe(200);
  expect((await fromPhone(running, "GET", "/api/steamings/steaming-1/sheet", { token })).status).toBe(200);
  const asked = { steamings: ["steaming-1", "steaming-1"], alignBy: "lit" };
  expect((await fromPhone(running, "POST", "/api/compare", { token, body: asked })).status).not.toBe(403);
  const before = running.store.changes.last();
  const id = running.store.devices.all()[0]?.id;
  for (const [method, url, body] of [
    ["PUT", "/api/steamings/steaming-1/entries/new", { atS: 1, kind: "lap", count: 1 }],
    ["POST", "/api/steamings/steaming-1/entries", entries],
    ["DELETE", "/api/steamings/steaming-1/entries/e01", undefined],
    ["PUT", "/api/locomotives/engine-1", { ...engine, name: "Other" }],
    ["DELETE", "/api/locomotives/engine-1", undefined],
    ["POST", "/api/logbook", {}],
    ["POST", "/api/backups", {}],
    ["DELETE", `/api/devices/${id}`, undefined],
  ] as const) {
    const answer = await fromPhone(running, method, url, { token, ...(body === undefined ? {} : { body }) });
    expect([method, url, answer.status]).toEqual([method, url, 403]);
    expect(answer.body).toMatchObject({ code: "view-only" });
  }
  expect((await fromPhone(running, "GET", "/api/devices", { token })).body).toMatchObject({
    code: "view-only",
  });
  expect(running.store.changes.last()).toBe(before);
  expect(running.store.devices.all().length).toBe(1);
});

test("paired devices are listed without their tokens, and one that is removed is refused at once", async () => {
  const running = await lanApp();
  const first = await tokenFor(running, "record");
  const second = await tokenFor(running, "view");
  const listed = (await fromPhone(running, "GET", "/api/devices", { token: first })).body as { id: string }[];
  const device = (may: May) => ({
    id: expect.any(String),
    name: "A phone",
    may,
    pairedAt: expect.stringMatching(/^\d{4}-.*Z$/),
  });
  expect(listed.toSorted((a, b) => JSON.stringify(a).length - JSON.stringify(b).length)).toEqual([
    device("view"),
    device("record"),
  ]);
  expect((await running.ask("GET", "/api/devices")).body).toEqual(listed);
  const viewing = running.store.devices.withToken(second);
  const url = `/api/devices/${viewing?.id}`;
  expect((await running.ask("DELETE", url)).status).toBe(204);
  expect((await fromPhone(running, "GET", "/api/shed", { token: second })).status).toBe(401);
  expect((await running.ask("DELETE", url)).body).toMatchObject({ code: "no-such-device" });
  expect((await fromPhone(running, "GET", "/api/shed", { token: first })).status).toBe(200);
});

test("a paired phone may end its own pairing and no other's: that is done on the machine itself", async () => {
  const running = await lanApp();
  const first = await tokenFor(running, "record");
  const second = await tokenFor(running, "record");
  const of = (token: string) => `/api/devices/${running.store.devices.withToken(token)?.id}`;
  const [own, other] = [of(first), of(second)];
  const refused = await fromPhone(running, "DELETE", other, { token: first });
  expect(refused.status).toBe(403);
  expect(refused.body).toMatchObject({ code: "only-at-server" });
  expect((await fromPhone(running, "GET", "/api/shed", { token: second })).status).toBe(200);
  expect((await fromPhone(running, "DELETE", own, { token: first })).status).toBe(204);
  expect((await fromPhone(running, "GET", "/api/shed", { token: first })).status).toBe(401);
});

test("the database holds no token, and its pairings hold after a restart", async () => {
  const folder = emptyFolder();
  const first = await listening(folder, { lan: true });
  begun.push(first.close);
  const token = "t".repeat(43);
  first.store.devices.add("A phone", "record", token);
  const { file } = await first.store.backUp();
  await first.close();
  const { readFileSync } = await import("node:fs");
  expect(readFileSync(file).includes(token)).toBe(false);
  expect(readFileSync(file).includes("A phone")).toBe(true);
  const second = await listening(folder, { lan: true });
  begun.push(second.close);
  expect(second.store.devices.withToken(token)?.name).toBe("A phone");
});

const ownAddress = Object.values(networkInterfaces())
  .flatMap((each) => each ?? [])
  .find(
    ({ family, internal, address }) => family === "IPv4" && !internal && !address.startsWith("169.254."),
  )?.address;

test(
  ownAddress === undefined
    ? "at the machine's address in its network: not tested, as this machine has none"
    : "at the machine's address in its network the unpaired are refused, and a stream ends when its device is removed",
  async () => {
    const server = await listening(emptyFolder(), { lan: true });
    begun.push(server.close);
    const here = `http://127.0.0.1:${server.port}`;
    expect((await fetch(`${here}/api/shed`)).status).toBe(200);
    if (ownAddress === undefined) return;
    const there = `http://${ownAddress}:${server.port}`;
    const post = (url: string, body: unknown, token?: string) =>
      fetch(url, {
        method: "POST",
        headers: {
          "content-type": "application/json",
          ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
        },
        body: JSON.stringify(body),
      });
    expect((await fetch(`${there}/api/shed`)).status).toBe(401);
    expect((await fetch(`${there}/api/live`)).status).toBe(401);
    expect((await fetch(`${there}/api/clock`)).status).toBe(200);
    const made = (await (await post(`${here}/api/pairing/codes`, { may: "record" })).json()) as {
      code: string;
      address: string;
      link: string;
    };
    expect(new URL(made.address).port).toBe(String(server.port));
    expect(made.link).toBe(`${made.address}/#/pair?code=${made.code}`);
    const paired = await post(`${there}/api/pairing`, { code: made.code, name: "Phone" });
    const { token } = (await paired.json()) as { token: string };
    expect((await post(`${there}/api/locomotives`, engine, token)).status).toBe(201);
    expect((await post(`${there}/api/steamings`, { ...head, entries: [] }, token)).status).toBe(201);

    const reader = new EventReader(`${there}/api/live?token=${token}&lastEventId=0`);
    begun.push(() => reader.close());
    await reader.until(() => reader.events.length === 1);
    const id = server.store.devices.withToken(token)?.id;
    expect((await fetch(`${here}/api/devices/${id}`, { method: "DELETE" })).status).toBe(204);
    server.store.entries.put(head.id, { id: "secret", atS: 1, kind: "lap", count: 1 });
    expect(await reader.ended).toBeInstanceOf(Error);
    expect(reader.events.length).toBe(1);
    expect((await fetch(`${there}/api/live?token=${token}`)).status).toBe(401);
    expect((await post(`${there}/api/locomotives`, engine, token)).status).toBe(401);
  },
);
