import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach } from "vitest";
import { buildApp, type Places } from "../../server/app.ts";
import type { App } from "../../server/app-type.ts";
import type { Config } from "../../server/config.ts";
import { openStore, type Store } from "../../server/store/store.ts";
import { engine, steaming } from "./fixtures.ts";

const begun: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const end of begun.splice(0).reverse()) await end();
});

/** A new empty folder, removed after the test. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "lapwater-test-"));
  begun.push(async () => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export interface Answer {
  status: number;
  body: unknown;
  text: string;
  headers: Record<string, unknown>;
}

export interface RunningApp {
  app: App;
  store: Store;
  folder: string;
  ask: (
    method: "GET" | "POST" | "PUT" | "DELETE" | "PATCH",
    url: string,
    body?: unknown,
    headers?: Record<string, string>,
  ) => Promise<Answer>;
}

/** The server without a listener, on an empty folder; asked by injected requests. */
export async function runningApp(
  config: Partial<Config> = {},
  places: Partial<Places> = {},
): Promise<RunningApp> {
  const folder = emptyFolder();
  const store = openStore(folder);
  begun.push(async () => void store.close());
  const whole = {
    port: 0,
    dataFolder: folder,
    lan: false,
    demonstration: false,
    hostsAllowed: [],
    tls: null,
    ...config,
  };
  const nowhere = join(folder, "nowhere");
  const app = await buildApp(whole, store, { pages: nowhere, demonstration: nowhere, ...places });
  begun.push(() => app.close());
  const ask: RunningApp["ask"] = async (method, url, body, headers = {}) => {
    const asText = typeof body === "string" ? body : JSON.stringify(body);
    const response = await app.inject({
      method,
      url,
      headers: body === undefined ? headers : { "content-type": "application/json", ...headers },
      ...(body === undefined ? {} : { payload: asText }),
    });
    const isJson = String(response.headers["content-type"]).includes("json");
    return {
      status: response.statusCode,
      text: response.body,
      body: isJson && response.body !== "" ? (JSON.parse(response.body) as unknown) : undefined,
      headers: response.headers,
    };
  };
  return { app, store, folder, ask };
}

/** The same with the test engine and its steaming in it. */
export async function steamedApp(): Promise<RunningApp> {
  const running = await runningApp();
  await running.ask("POST", "/api/locomotives", engine);
  await running.ask("POST", "/api/steamings", steaming);
  return running;
}
