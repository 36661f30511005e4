import type { BrowserContext, Page } from "playwright-core";
import { afterEach, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, beginSteaming, pairPhone, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer("--lan"));

afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});

/** The streams that a browser asked for, and of those the ones that lie open. */
function streamsOf(context: BrowserContext) {
  const asked: Page[] = [];
  const open = new Set<unknown>();
  context.on("request", (request) => {
    if (new URL(request.url()).pathname !== "/api/live") return;
    asked.push(request.frame().page());
    open.add(request);
  });
  const ended = (request: unknown) => open.delete(request);
  context.on("requestfailed", ended);
  context.on("requestfinished", ended);
  return { asked, open };
}

const fromElsewhere = (id: string, entryId: string, barG: number) =>
  server.ask(`/api/steamings/${id}/entries/${entryId}`, "PUT", { kind: "pressure", atS: 5 + barG, barG });
const shows = (page: Page, words: string) => tile(page, "Pressure").filter({ hasText: words }).waitFor();

async function recorder(context: BrowserContext): Promise<{ page: Page; id: string }> {
  await pairPhone(context, server);
  const page = await context.newPage();
  const id = await beginSteaming(page, server.lanAddress);
  await allSent(page);
  return { page, id };
}

/** The page goes out of sight whole and may come back, as with the browser's Back. */
const putAside = (page: Page) =>
  page.evaluate(() => dispatchEvent(new PageTransitionEvent("pagehide", { persisted: true })));
const bringBack = (page: Page) =>
  page.evaluate(() => dispatchEvent(new PageTransitionEvent("pageshow", { persisted: true })));

test("two tabs of one browser share one stream; both show what another device writes; when the tab that has it goes, the other takes over and misses nothing", async () => {
  const context = await browser.newContext({ viewport: sizes.phone });
  const streams = streamsOf(context);
  const { page, id } = await recorder(context);
  await fromElsewhere(id, "first", 1.1);
  await shows(page, "1.1 bar");
  const other = await context.newPage();
  await other.goto(page.url());
  await other.locator(".key.lap").waitFor();
  await fromElsewhere(id, "second", 1.2);
  await Promise.all([shows(page, "1.2 bar"), shows(other, "1.2 bar")]);
  expect([streams.asked.length, streams.open.size]).toEqual([1, 1]);
  expect(streams.asked[0]).toBe(page);
  await page.close();
  await fromElsewhere(id, "third", 1.3);
  await shows(other, "1.3 bar");
  expect(streams.asked.slice(1)).toEqual([other]);
});

test("a page that was put aside and comes back follows again, and has what happened meanwhile", async () => {
  const context = await browser.newContext({ viewport: sizes.phone });
  const { page, id } = await recorder(context);
  await fromElsewhere(id, "before", 2.1);
  await shows(page, "2.1 bar");
  await putAside(page);
  await fromElsewhere(id, "meanwhile", 2.2);
  await bringBack(page);
  await shows(page, "2.2 bar");
  await fromElsewhere(id, "after", 2.3);
  await shows(page, "2.3 bar");
});

test("a stream that is refused is asked for more and more rarely, up to a minute apart", async () => {
  const context = await browser.newContext({ viewport: sizes.phone });
  const page = await context.newPage();
  await page.clock.install();
  const streams = streamsOf(context);
  await context.route("**/api/live*", (route) =>
    route.fulfill({ status: 401, contentType: "application/json", body: "{}" }),
  );
  await page.goto(`${server.address}/#/shed`);
  await page.getByRole("heading", { name: "Shed" }).waitFor();
  const askedIn = async (minutes: number) => {
    const before = streams.asked.length;
    for (let i = 0; i < 40 * minutes; i++) {
      await page.clock.runFor(1500);
      // the refusal comes in its own time, whatever the page's clock says
      await expect.poll(() => streams.open.size).toBe(0);
    }
    return streams.asked.length - before;
  };
  await expect.poll(() => streams.asked.length).toBeGreaterThan(0);
  const first = await askedIn(2);
  const later = await askedIn(5);
  // without waiting longer each time there would be 80 and 200
  expect(first).toBeGreaterThanOrEqual(2);
  expect(first).toBeLessThanOrEqual(12);
  // at a wait of a minute, a quarter less by chance
  expect(later).toBeGreaterThanOrEqual(1);
  expect(later).toBeLessThanOrEqual(8);
});
