import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** A server on an address and a data folder of its own that can be killed and started again. */
export interface RestartableServer {
  /** http://127.0.0.1:port */
  address: string;
  /** the same at the machine's address in its network; the loopback one where it has none */
  lanAddress: string;
  ask(path: string, method?: string, body?: unknown): Promise<unknown>;
  /** kill -9: it has no time to finish anything */
  kill(): Promise<void>;
  start(): Promise<void>;
  stop(): Promise<void>;
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, "127.0.0.1");
  await once(probe, "listening");
  const bound = probe.address();
  probe.close();
  await once(probe, "close");
  if (bound === null || typeof bound === "string") throw new Error("no port was given");
  return bound.port;
}

const lanName = (): string =>
  Object.values(networkInterfaces())
    .flatMap((each) => each ?? [])
    .find((each) => !each.internal && each.family === "IPv4")?.address ?? "127.0.0.1";

/** @param options more of the server's own, such as --lan */
export async function restartableServer(...options: readonly string[]): Promise<RestartableServer> {
  const folder = mkdtempSync(join(tmpdir(), "lapwater-restart-test-"));
  const port = await freePort();
  const address = `http://127.0.0.1:${port}`;
  let child: ChildProcess | null = null;

  const start = async () => {
    const started = spawn(
      process.execPath,
      ["--import", "tsx", "server/main.ts", "--port", String(port), "--data", folder, ...options],
      { cwd: root, stdio: ["ignore", "pipe", "pipe"] },
    );
    child = started;
    let complaints = "";
    started.stderr.on("data", (text) => {
      complaints += text;
    });
    for await (const line of createInterface({ input: started.stdout })) {
      if (line.startsWith("Lapwater is at")) {
        started.stdout.resume();
        return;
      }
    }
    throw new Error(`the server ended before it said where it is: ${complaints}`);
  };
  const end = async (signal: NodeJS.Signals) => {
    const running = child;
    child = null;
    if (running === null || running.exitCode !== null || running.signalCode !== null) return;
    const ended = once(running, "exit");
    running.kill(signal);
    await ended;
  };
  await start();
  return {
    address,
    lanAddress: `http://${lanName()}:${port}`,
    ask: async (path, method = "GET", body) => {
      const response = await fetch(`${address}${path}`, {
        method,
        ...(body === undefined
          ? {}
          : { body: JSON.stringify(body), headers: { "content-type": "application/json" } }),
      });
      return response.status === 204 ? undefined : response.json();
    },
    kill: () => end("SIGKILL"),
    start,
    stop: async () => {
      await end("SIGTERM");
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
