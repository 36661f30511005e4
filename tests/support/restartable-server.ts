import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import http from "node:http";
import https from "node:https";
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
  /** @param aheadMs by which its clock is ahead of this machine's from then on */
  start(aheadMs?: number): Promise<void>;
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

/** The answer as JSON, whatever its status. @param certificate of a server on https, taken for good as it is */
function asked(address: string, method: string, body: unknown, certificate?: string): Promise<unknown> {
  const text = body === undefined ? undefined : JSON.stringify(body);
  const headers = text === undefined ? {} : { "content-type": "application/json" };
  return new Promise((resolve, reject) => {
    const request =
      certificate === undefined
        ? http.request(address, { method, headers, agent: false })
        : https.request(address, { method, headers, agent: false, ca: certificate });
    request.once("error", reject);
    request.once("response", (response) => {
      let answer = "";
      response.setEncoding("utf8").on("data", (part: string) => {
        answer += part;
      });
      response.once("error", reject);
      response.once("end", () => resolve(answer === "" ? undefined : JSON.parse(answer)));
    });
    request.end(text);
  });
}

/** What has Node tell a time so far ahead: an hour passes at once. */
function clockAhead(ms: number): string[] {
  if (ms === 0) return [];
  const code = `const Real = Date; const now = () => Real.now() + ${ms};
    globalThis.Date = class extends Real {
      constructor(...given) { if (given.length === 0) super(now()); else super(...given); }
      static now() { return now(); }
    };`;
  return ["--import", `data:text/javascript,${encodeURIComponent(code)}`];
}

/** @param options more of the server's own, such as --lan */
export async function restartableServer(...options: readonly string[]): Promise<RestartableServer> {
  const folder = mkdtempSync(join(tmpdir(), "lapwater-restart-test-"));
  const port = await freePort();
  const named = options.indexOf("--tls-cert");
  const certificate = named === -1 ? undefined : readFileSync(options[named + 1] ?? "", "utf8");
  const protocol = certificate === undefined ? "http" : "https";
  const address = `${protocol}://127.0.0.1:${port}`;
  let child: ChildProcess | null = null;

  const start = async (aheadMs = 0) => {
    const started = spawn(
      process.execPath,
      [
        ...clockAhead(aheadMs),
        "--import",
        "tsx",
        "server/main.ts",
        "--port",
        String(port),
        "--data",
        folder,
        ...options,
      ],
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
    lanAddress: `${protocol}://${lanName()}:${port}`,
    ask: (path, method = "GET", body) => asked(`${address}${path}`, method, body, certificate),
    kill: () => end("SIGKILL"),
    start,
    stop: async () => {
      await end("SIGTERM");
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
