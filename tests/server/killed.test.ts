import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { afterEach, expect, test } from "vitest";
import { openStore } from "../../server/store/store.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { engine, head } from "./fixtures.ts";
import { emptyFolder } from "./running-app.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const begun: ChildProcess[] = [];
afterEach(() => {
  for (const child of begun.splice(0)) child.kill("SIGKILL");
});

const kills = 6;
const ofOneSender = 400;
/** Seven starts of a process, on a machine that may be busy. */
const patienceMs = 180_000;
const atOnce = 20;

/** The server as a process of its own, which is killed and started again on the same data. */
class Mortal {
  readonly #data: string;
  #child: ChildProcess | null = null;
  /** where it is; waits while it is down */
  address: Promise<string> = Promise.reject(new Error("not started"));

  constructor(data: string) {
    this.#data = data;
    this.address.catch(() => undefined);
  }

  start(): void {
    const options = ["--port", "0", "--data", this.#data, "--no-demo"];
    const child = spawn(process.execPath, ["--import", "tsx", "server/main.ts", ...options], {
      cwd: root,
      stdio: ["ignore", "pipe", "inherit"],
    });
    begun.push(child);
    this.#child = child;
    const line = once(createInterface({ input: child.stdout }), "line");
    this.address = Promise.race([line, once(child, "exit")]).then(([said]) => {
      if (typeof said !== "string") throw new Error("the server ended before it said where it is");
      return said.replace("Lapwater is at ", "");
    });
  }

  /** Kills it as it stands, and starts the next one when it is gone. */
  async kill(): Promise<void> {
    const child = this.#child;
    if (child === null) return;
    const gone = once(child, "exit");
    child.kill("SIGKILL");
    this.address = gone.then(() => {
      this.start();
      return this.address;
    });
    await gone;
  }

  async stop(): Promise<void> {
    const child = this.#child;
    if (child === null) return;
    const gone = once(child, "exit");
    child.kill("SIGTERM");
    expect((await gone)[0]).toBe(0);
  }
}

type Sent = Entry & { id: string };
const entriesOf = (sender: string): Sent[] =>
  Array.from({ length: ofOneSender }, (_, i) => ({
    id: `${sender}-${i}`,
    atS: i,
    kind: "pressure",
    barG: i / 100,
  }));

test(
  "killed again and again under load, the server loses no entry that it answered and keeps none twice",
  async () => {
    const data = emptyFolder();
    const server = new Mortal(data);
    server.start();
    const answered = new Map<string, number>();
    let unanswered = 0;
    let killed = 0;
    const sendersEntries = ["a", "b", "c", "d"].map(entriesOf);
    const batched = entriesOf("batch");
    const whole = [...sendersEntries, batched].flat();

    /** Sends until there is an answer, as the phones do. */
    async function send(method: string, path: string, body: unknown): Promise<Response> {
      for (;;) {
        const address = await server.address;
        try {
          const response = await fetch(`${address}/api${path}`, {
            method,
            headers: { "content-type": "application/json" },
            body: JSON.stringify(body),
          });
          const text = await response.text();
          return new Response(text, { status: response.status });
        } catch {
          unanswered++;
        }
      }
    }

    function note(id: string, status: number): void {
      answered.set(id, status);
      const share = whole.length / (kills + 1);
      if (killed < kills && answered.size > share * (killed + 1)) {
        killed++;
        server.kill();
      }
    }

    await send("PUT", "/locomotives/engine-1", engine);
    await send("PUT", "/steamings/steaming-1", head);
    await Promise.all([
      ...sendersEntries.map(async (entries) => {
        for (const entry of entries) {
          const { status } = await send("PUT", `/steamings/steaming-1/entries/${entry.id}`, entry);
          note(entry.id, status);
        }
      }),
      (async () => {
        for (let from = 0; from < batched.length; from += atOnce) {
          const response = await send(
            "POST",
            "/steamings/steaming-1/entries",
            batched.slice(from, from + atOnce),
          );
          for (const { id, status } of (await response.json()) as { id: string; status: number }[]) {
            note(id, status);
          }
        }
      })(),
    ]);
    await server.address;
    await server.stop();

    expect(killed).toBe(kills);
    // it was under load when it was killed: requests were broken off
    expect(unanswered).toBeGreaterThanOrEqual(kills);
    expect([...new Set(answered.values())].filter((status) => status !== 200 && status !== 201)).toEqual([]);
    const store = openStore(data);
    const kept = store.entries.ofSteaming("steaming-1");
    const changes = store.changes.after(0, 100_000);
    store.close();
    const byId = (a: Sent, b: Sent) => (a.id < b.id ? -1 : 1);
    expect(kept.toSorted(byId)).toEqual(whole.toSorted(byId));
    const told = changes.filter(({ what }) => what === "entry-added").map(({ entryId }) => entryId);
    expect(told.toSorted()).toEqual(whole.map(({ id }) => id).toSorted());
    // each sender's own in the order in which it sent them
    for (const entries of [...sendersEntries, batched]) {
      const ids = new Set(entries.map(({ id }) => id));
      expect(kept.filter(({ id }) => ids.has(id))).toEqual(entries);
    }
  },
  patienceMs,
);
