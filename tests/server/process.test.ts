import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, writeFileSync } from "node:fs";
import { type AddressInfo, createServer } from "node:net";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Database from "better-sqlite3";
import { afterEach, expect, test } from "vitest";
import { databaseName } from "../../server/store/open-database.ts";
import { openStore } from "../../server/store/store.ts";
import { engine, entries, steaming } from "./fixtures.ts";
import { emptyFolder } from "./running-app.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const begun: ChildProcess[] = [];
afterEach(async () => {
  for (const child of begun.splice(0)) {
    if (child.exitCode === null && child.signalCode === null) {
      child.kill("SIGKILL");
      await once(child, "exit");
    }
  }
});

interface Server {
  child: ChildProcess;
  said: { out: string; error: string };
  /** its exit code, or the signal that ended it */
  ended: Promise<number | string | null>;
}

function start(...args: string[]): Server {
  const child = spawn(process.execPath, ["--import", "tsx", "server/main.ts", ...args], {
    cwd: root,
    stdio: ["ignore", "pipe", "pipe"],
  });
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
  const line = /^Lapwater is at (http:\/\/127\.0\.0\.1:\d+)\n/;
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
