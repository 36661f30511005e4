import type { Browser } from "playwright-core";
import { afterAll } from "vitest";
import { openBrowser } from "./browser.ts";

/** A browser beside a server that is starting, for all tests of a file; both are ended after the last of them. */
export async function browserAndServer<Server extends { stop(): Promise<void> }>(
  starting: Promise<Server>,
): Promise<{ browser: Browser; server: Server }> {
  const [browser, server] = await Promise.all([openBrowser(), starting]);
  afterAll(async () => {
    await browser.close();
    await server.stop();
  });
  return { browser, server };
}
