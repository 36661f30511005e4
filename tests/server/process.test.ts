import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { type AddressInfo, createServer } from "node:net";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Database from "better-sqlite3";
import { afterEach, expect, test } from "vitest";
import { lanAddresses } from "../../server/hosts.ts";
import { databaseName } from "../../server/store/open-database.ts";
import { openStore } from "../../server/store/store.ts";
import { engine, entries, steaming } from "./fixtures.ts";
import { emptyFolder } from "./running-app.ts";
import { testCertificate, testKey } from "./test-certificate.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const begun: ChildProcess[] = [];
afterEach(() => {
  for (const { pid } of begun.splice(0)) {
    if (pid === undefined) continue;
    try {
      process.kill(-pid, "SIGKILL");
    } catch {
      // nothing of it is left: as it should be
    }
  }
});

interface Server {
  child: ChildProcess;
  said: { out: string; error: string };
  /** its exit code, or the signal that ended it */
  ended: Promise<number | string | null>;
}

const start = (...args: string[]): Server =>
  run(process.execPath, ["--import", "tsx", "server/main.ts", ...args]);

function run(command: string, args: readonly string[]): Server {
  // in a group of its own, so that after the test all of it can be ended
  const child = spawn(command, args, { cwd: root, stdio: ["ignore", "pipe", "pipe"], detached: true });
  begun.push(child);
  const said = { out: "", error: "" };
  child.stdout?.on("data", (text) => {
    said.out += text;
  });
  child.stderr?.on("data", (text) => {
    said.error += text;
  });
  const ended = once(child, "close").then(([code, signal]) => code ?? signal);
  return { child, said, ended };
}

/** Where a server says it is, as soon as it says so. */
async function addressOf({ child, said, ended }: Server): Promise<string> {
  const line = /^Lapwater is at (https?:\/\/127\.0\.0\.1:\d+)\n/;
  let isEnded = false;
  ended.then(() => {
    isEnded = true;
  });
  while (!line.test(said.out)) {
    if (isEnded) throw new Error(`it ended: ${said.error}`);
    await Promise.race([child.stdout && once(child.stdout, "data"), ended]);
  }
  return line.exec(said.out)?.[1] ?? "";
}

const put = (url: string, body: unknown) =>
  fetch(url, {
    method: "PUT",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });

test.each(["SIGTERM", "SIGINT"] as const)(
  "it answers at the one line that it prints, ends with 0 on %s, and finds its data again",
  async (signal) => {
    const data = join(emptyFolder(), "made", "on", "demand");
    const first = start("--port", "0", "--data", data, "--no-demo");
    const address = await addressOf(first);
    expect((await put(`${address}/api/locomotives/engine-1`, engine)).status).toBe(201);
    first.child.kill(signal);
    expect(await first.ended).toBe(0);
    expect(first.said).toEqual({ out: `Lapwater is at ${address}\n`, error: "" });

    const second = start("--port", "0", "--data", data, "--no-demo");
    const again = await (await fetch(`${await addressOf(second)}/api/locomotives`)).json();
    expect(again).toEqual([engine]);
    second.child.kill(signal);
    expect(await second.ended).toBe(0);
  },
);

test("a signal to npm ends the server in good order, and nothing runs on behind it", async () => {
  const data = emptyFolder();
  const npm = run("npm", ["start", "--silent", "--", "--port", "0", "--data", data, "--no-demo"]);
  const address = await addressOf(npm);
  npm.child.kill("SIGTERM");
  expect(await npm.ended).toBe(0);
  await expect(fetch(`${address}/api/shed`)).rejects.toThrow("fetch failed");
  expect(npm.said.out).toBe(`Lapwater is at ${address}\n`);
});

test("with --lan it says its addresses in the networks and a code that pairs a phone there", async () => {
  const server = start("--port", "0", "--data", emptyFolder(), "--no-demo", "--lan");
  const address = await addressOf(server);
  const { port } = new URL(address);
  const others = lanAddresses()
    .filter((text) => !text.includes(":"))
    .map((text) => `http://${text}:${port}`);
  const post = (to: string, code: string) =>
    fetch(`${to}/api/pairing`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ code, name: "A phone" }),
    });
  expect((await fetch(`${address}/api/shed`)).status).toBe(200);
  for (const other of others) {
    expect([other, (await fetch(`${other}/api/shed`)).status]).toEqual([other, 401]);
  }
  const code = /code (\w{4}-\w{4}) /.exec(server.said.out)?.[1] ?? "none said";
  for (const other of others.slice(0, 1)) {
    const paired = await post(other, code);
    expect(paired.status).toBe(201);
    const { token } = (await paired.json()) as { token: string };
    const headers = { authorization: `Bearer ${token}` };
    expect((await fetch(`${other}/api/shed`, { headers })).status).toBe(200);
  }
  server.child.kill("SIGTERM");
  expect(await server.ended).toBe(0);
  const lines = server.said.out.trimEnd().split("\n");
  expect(lines.slice(0, 1 + others.length)).toEqual([
    `Lapwater is at ${address}`,
    ...others.map((other) => `and in this network at ${other}`),
  ]);
  expect(lines.at(-1)).toContain(others.length === 0 ? "no address in a network" : "anyone in this network");
  expect(server.said.error).toBe("");
});

test("with a certificate it says that it is at https; with a key of another one it says so and exits 1", async () => {
  const folder = emptyFolder();
  const cert = join(folder, "cert.pem");
  const key = join(folder, "key.pem");
  writeFileSync(cert, testCertificate);
  writeFileSync(key, testKey);
  const files = ["--tls-cert", cert, "--tls-key", key];
  const server = start("--port", "0", "--data", join(folder, "data"), "--no-demo", ...files);
  const address = await addressOf(server);
  expect(address).toMatch(/^https:/);
  server.child.kill("SIGTERM");
  expect(await server.ended).toBe(0);
  expect(server.said).toEqual({ out: `Lapwater is at ${address}\n`, error: "" });

  writeFileSync(key, "nonsense");
  const line = await refused("--port", "0", "--data", join(folder, "untouched"), ...files);
  expect(line).toContain(`--tls-key: came ${key}`);
  expect(existsSync(join(folder, "untouched"))).toBe(false);
});

test("every entry that was answered is there after the process was killed in the middle", async () => {
  const data = emptyFolder();
  const server = start("--port", "0", "--data", data, "--no-demo");
  const address = await addressOf(server);
  await put(`${address}/api/locomotives/engine-1`, engine);
  await put(`${address}/api/steamings/steaming-1`, { ...steaming, entries: undefined });
  const answered: string[] = [];
  for (const entry of entries) {
    const sent = put(`${address}/api/steamings/steaming-1/entries/${entry.id}`, entry);
    if (entry.id === "e12") server.child.kill("SIGKILL");
    const status = await sent.then(
      (response) => response.status,
      () => 0,
    );
    if (status === 201) answered.push(entry.id);
  }
  expect(await server.ended).toBe("SIGKILL");
  expect(answered.length).toBeGreaterThanOrEqual(11);
  const store = openStore(data);
  const kept = store.entries.ofSteaming("steaming-1").map(({ id }) => id);
  store.close();
  expect(answered.filter((id) => !kept.includes(id))).toEqual([]);
});

async function refused(...args: string[]): Promise<string> {
  const server = start(...args);
  expect(await server.ended).toBe(1);
  expect(server.said.out).toBe("");
  const lines = server.said.error.split("\n");
  expect(lines).toEqual([expect.stringMatching(/^Lapwater: /), ""]);
  return lines[0] ?? "";
}

test("a port in use is one clear line and exit 1", async () => {
  const occupant = createServer();
  occupant.listen(0, "127.0.0.1");
  await once(occupant, "listening");
  const { port } = occupant.address() as AddressInfo;
  const line = await refused("--port", String(port), "--data", emptyFolder(), "--no-demo");
  expect(line).toContain(`port ${port} is in use`);
  occupant.close();
});

test("a folder that cannot be used is one clear line and exit 1", async () => {
  const file = join(emptyFolder(), "file");
  writeFileSync(file, "");
  expect(await refused("--port", "0", "--data", file)).toContain(`the data folder ${file} cannot be used`);
});

test("a database newer than the program is one clear line and exit 1", async () => {
  const data = emptyFolder();
  openStore(data).close();
  const newer = new Database(join(data, databaseName));
  newer.pragma("user_version = 1000");
  newer.close();
  expect(await refused("--port", "0", "--data", data)).toContain("newer than this program's");
});

test("an unknown option is one clear line and exit 1", async () => {
  expect(await refused("--colour", "green")).toContain("--colour");
});

test("a request that is no HTTP is answered in the one form of refusals", async () => {
  const data = join(emptyFolder(), "data");
  mkdirSync(data);
  const server = start("--port", "0", "--data", data, "--no-demo");
  const { port } = new URL(await addressOf(server));
  const { connect } = await import("node:net");
  const socket = connect(Number(port), "127.0.0.1");
  let answer = "";
  socket.on("data", (text) => {
    answer += text;
  });
  socket.write("nonsense\r\n\r\n");
  await once(socket, "close");
  expect(answer).toMatch(/^HTTP\/1\.1 400 /);
  expect(JSON.parse(answer.split("\r\n\r\n")[1] ?? "")).toEqual({
    code: "bad-request",
    message: "the request cannot be read",
  });
});
