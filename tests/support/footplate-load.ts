import type { Browser, Response } from "playwright-core";
import { allSent, beginSteaming, kept } from "./footplate.ts";

export interface ScriptSent {
  text: string;
  /** of its body as it came over the wire, packed */
  bytes: number;
}

/** All scripts that a first visit to the Footplate fetches, until a lap is with the server. */
export async function scriptsOfFirstVisit(browser: Browser, address: string): Promise<ScriptSent[]> {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" });
  try {
    const scripts: Promise<ScriptSent>[] = [];
    page.on("response", (response) => {
      if (response.request().resourceType() === "script") scripts.push(sent(response));
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

async function sent(response: Response): Promise<ScriptSent> {
  const packing = await response.headerValue("content-encoding");
  if (packing !== "gzip") throw new Error(`${response.url()} came ${packing ?? "unpacked"}, not gzipped`);
  const [text, { responseBodySize }] = await Promise.all([response.text(), response.request().sizes()]);
  return { text, bytes: responseBodySize };
}

export const bytesSent = (scripts: readonly ScriptSent[]): number =>
  scripts.reduce((sum, { bytes }) => sum + bytes, 0);
