import { gzipSync } from "node:zlib";
import { openBrowser } from "../support/browser.ts";
import { startServer } from "../support/server.ts";

/** All script that a first visit to the Footplate fetches, gzipped bytes: with the server gone there is no more to come. */
export async function footplateScriptBytes(): Promise<number> {
  const [browser, server] = await Promise.all([openBrowser(), startServer()]);
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" });
    const sizes: Promise<number>[] = [];
    page.on("response", (response) => {
      if (response.request().resourceType() === "script") {
        sizes.push(response.body().then((body) => gzipSync(body).length));
      }
    });
    await page.goto(`${server.address}/#/footplate`);
    await page.getByRole("button", { name: /^Begin: / }).click();
    await page.locator(".key.lap").waitFor();
    return (await Promise.all(sizes)).reduce((sum, bytes) => sum + bytes, 0);
  } finally {
    await browser.close();
    await server.stop();
  }
}
