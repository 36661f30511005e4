import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { randomOf } from "../../sample-data/simulator/random.ts";
import { openBrowser } from "../support/browser.ts";
import { sizes } from "../support/browser-page.ts";
import {
  allSent,
  beginSteaming,
  bounceOver,
  entriesAt,
  pairPhone,
  recordsOnPhone,
  tile,
} from "../support/footplate.ts";
import { type RestartableServer, restartableServer } from "../support/restartable-server.ts";

let browser: Browser;
let server: RestartableServer;
beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), restartableServer("--lan")]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const ENTRIES = 200;

/** A tab of the one browser, and how much it has said to be kept. */
interface Tab {
  page: Page;
  said: number;
}

/** At the place where the lap is: it never moves. */
async function tapLap(tab: Tab): Promise<void> {
  const { width, height } = sizes.phone;
  await tab.page.touchscreen.tap(width / 2, height - 130);
}

async function tapPressure(tab: Tab, digits: string): Promise<void> {
  await tile(tab.page, "Pressure").click();
  await bounceOver(tab.page);
  for (const digit of digits) {
    await tab.page.locator(".digit-keys .key").getByText(digit, { exact: true }).click({ delay: 100 });
  }
  await bounceOver(tab.page);
}

/** Until the tab says that what was tapped is kept: from then on nothing may lose it. */
async function kept(tab: Tab): Promise<void> {
  tab.said++;
  await tab.page.locator(`.said.done[data-number="${tab.said}"]`).waitFor({ timeout: 10_000 });
}

test("200 entries tapped in two tabs at the network's address, with the server killed and the page reloaded at random, arrive once each, the same and in order", async () => {
  const context = await browser.newContext({ viewport: sizes.phone, hasTouch: true });
  await pairPhone(context, server);
  const first: Tab = { page: await context.newPage(), said: 0 };
  const steamingId = await beginSteaming(first.page, server.lanAddress);
  await allSent(first.page);
  const second: Tab = { page: await context.newPage(), said: 0 };
  await second.page.goto(first.page.url());
  await second.page.locator(".key.lap").waitFor();

  const random = randomOf(20_260_503, "taps");
  const tapped: object[] = [];
  let restarting = Promise.resolve();
  let isUp = true;
  let kills = 0;
  let reloads = 0;
  for (let i = 0; i < ENTRIES; i++) {
    const tab = random.chance(0.7) ? first : second;
    if (random.chance(0.8)) {
      await tapLap(tab);
      tapped.push({ kind: "lap", count: 1 });
    } else {
      const digits = String(random.whole(10, 34));
      await tapPressure(tab, digits);
      tapped.push({ kind: "pressure", barG: Number(digits) / 10 });
    }
    await kept(tab);
    if (i % 40 === 20) {
      kills++;
      isUp = false;
      await restarting;
      await server.kill();
    }
    // a while later, so that taps fall into the time without a server
    if (i % 40 === 29) {
      restarting = server.start();
      isUp = true;
    }
    // the page itself comes from the server, so it must be there for a reload
    if (isUp && random.chance(0.03)) {
      reloads++;
      await restarting;
      await tab.page.reload();
      tab.said = 0;
      await tab.page.locator(".key.lap").waitFor();
    }
  }
  if (!isUp) restarting = server.start();
  await restarting;
  await Promise.all([allSent(first.page), allSent(second.page)]);

  const onPhone = await recordsOnPhone(first.page, steamingId);
  const onServer = await entriesAt(server, steamingId);
  expect(kills).toBeGreaterThanOrEqual(5);
  expect(reloads).toBeGreaterThanOrEqual(3);
  expect(onPhone.map(({ entry: { id, atS, ...said } }) => said)).toEqual(tapped);
  expect(onServer).toEqual(onPhone.map(({ entry }) => entry));
  expect(new Set(onServer.map(({ id }) => id)).size).toBe(ENTRIES);
  expect(onServer.every((entry, i) => entry.atS >= (onServer[i - 1]?.atS ?? 0))).toBe(true);
  await context.close();
}, 240_000);
