import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

export interface RunningServer {
  port: number;
  /** http://127.0.0.1:port */
  address: string;
  /** the answer of a path as JSON, whatever its status */
  ask(path: string, method?: string, body?: unknown): Promise<unknown>;
  /** a token of a newly paired device; only with --lan */
  pair(may: "record" | "view"): Promise<string>;
  stop(): Promise<void>;
}

/** The real server as its own process, on a free port, with an empty data folder of its own. */
export async function startServer(...options: readonly string[]): Promise<RunningServer> {
  if (!existsSync(join(root, "web", "dist", "index.html"))) {
    throw new Error("the pages are not built: `npm test` builds them, or `node server/setup.mjs --web`");
  }
  const folder = mkdtempSync(join(tmpdir(), "lapwater-browser-test-"));
  const child = spawn(
    process.execPath,
    ["--import", "tsx", "server/main.ts", "--port", "0", "--data", folder, ...options],
    { cwd: root, stdio: ["ignore", "pipe", "pipe"] },
  );
  let complaints = "";
  child.stderr.on("data", (text) => {
    complaints += text;
  });
  const ended = once(child, "exit");
  const stop = async () => {
    if (child.exitCode === null && child.signalCode === null) {
      child.kill("SIGTERM");
      await ended;
    }
    rmSync(folder, { recursive: true, force: true });
  };
  for await (const line of createInterface({ input: child.stdout })) {
    const port = /^Lapwater is at http:\/\/127\.0\.0\.1:(\d+)$/.exec(line)?.[1];
    if (port === undefined) continue;
    const address = `http://127.0.0.1:${port}`;
    const ask = async (path: string, method = "GET", body?: unknown): Promise<unknown> => {
      const response = await fetch(`${address}${path}`, {
        method,
        ...(body === undefined
          ? {}
          : { body: JSON.stringify(body), headers: { "content-type": "application/json" } }),
      });
      return response.status === 204 ? undefined : response.json();
    };
    const pair = async (may: "record" | "view"): Promise<string> => {
      const { code } = (await ask("/api/pairing/codes", "POST", { may })) as { code: string };
      const answer = await ask("/api/pairing", "POST", { code, name: "A browser under test" });
      return (answer as { token: string }).token;
    };
    return { port: Number(port), address, ask, pair, stop };
  }
  await stop();
  throw new Error(`the server ended before it said where it is: ${complaints}`);
}

/** Names under which this machine may be asked: localhost, and its address in each of its networks. */
export function ownNames(): string[] {
  const addresses = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
  const inNetworks = addresses.filter((each) => !each.internal && each.family === "IPv4");
  return ["localhost", ...inNetworks.map((each) => each.address)];
}
