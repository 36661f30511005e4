import { gzipSync } from "node:zlib";
import type { Browser } from "playwright-core";
import { allSent, beginSteaming, kept } from "./footplate.ts";

/** The texts of all scripts that a first visit to the Footplate fetches, until a lap is with the server. */
export async function scriptsOfFirstVisit(browser: Browser, address: string): Promise<string[]> {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" });
  try {
    const scripts: Promise<string>[] = [];
    page.on("response", (response) => {
      if (response.request().resourceType() === "script") scripts.push(response.text());
    });
    await beginSteaming(page, address);
    await page.locator(".key.lap").click();
    await kept(page, 1);
    await allSent(page);
    return await Promise.all(scripts);
  } finally {
    await page.close();
  }
}

/** As the build packs them and the server sends them. */
export const gzippedBytes = (scripts: readonly string[]): number =>
  scripts.reduce((sum, script) => sum + gzipSync(script, { level: 9, memLevel: 7 }).length, 0);
