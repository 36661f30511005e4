import type { Page } from "playwright-core";
import { afterEach, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, beginSteaming, entriesAt, kept, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());

afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});

/** A store that fails when it is told to: its connections are closed, and new ones are denied. */
const fragile = `{
  const open = IDBFactory.prototype.open;
  const opened = [];
  window.denyStore = false;
  window.closeStore = () => { for (const database of opened.splice(0)) database.close(); };
  IDBFactory.prototype.open = function (...given) {
    if (window.denyStore) throw new DOMException("the store is full", "QuotaExceededError");
    const request = open.apply(this, given);
    request.addEventListener("success", () => opened.push(request.result));
    return request;
  };
}`;

interface Fragile {
  denyStore: boolean;
  closeStore: () => void;
}

const deny = (page: Page, denied: boolean) =>
  page.evaluate((now) => {
    const store = window as unknown as Fragile;
    store.denyStore = now;
    if (now) store.closeStore();
  }, denied);

async function recorder(): Promise<{ page: Page; id: string }> {
  const context = await browser.newContext({ viewport: sizes.phone });
  await context.addInitScript(fragile);
  const page = await context.newPage();
  const id = await beginSteaming(page, server.address);
  await allSent(page);
  return { page, id };
}

test("a store that the browser closed under the page is opened anew: what is tapped then is kept and sent", async () => {
  const { page, id } = await recorder();
  await page.evaluate(() => (window as unknown as Fragile).closeStore());
  await tile(page, "Lap").click();
  await kept(page, 1);
  await page.evaluate(() => (window as unknown as Fragile).closeStore());
  await tile(page, "Lap").click();
  await kept(page, 2);
  await expect.poll(async () => (await entriesAt(server, id)).length).toBe(2);
  await allSent(page);
});

test("where the store takes nothing the page says so, asks before it is left, and keeps the entries at their own time once it can", async () => {
  const { page, id } = await recorder();
  await deny(page, true);
  await tile(page, "Lap").click();
  await page.locator(".said.danger", { hasText: "NOT kept: the store is full" }).waitFor();
  const bar = page.getByRole("alert").filter({ hasText: "Not kept: lap 1." });
  await bar.waitFor();
  const tappedBy = Date.now();
  await page.locator(".contact", { hasText: "all sent" }).waitFor({ state: "detached" });
  const asked = page.waitForEvent("dialog");
  await page.close({ runBeforeUnload: true });
  const dialog = await asked;
  expect(dialog.type()).toBe("beforeunload");
  await dialog.dismiss();
  await bar.getByRole("button", { name: "Keep it again" }).click();
  await page.locator(".said.danger[data-number='2']").waitFor();
  await tile(page, "Lap").click();
  await page.getByText("Not kept: lap 1 and 1 before it.").waitFor();

  await deny(page, false);
  await page.getByRole("button", { name: "Keep it again" }).click();
  await page.locator(".unkept-bar").waitFor({ state: "detached" });
  await expect.poll(async () => (await entriesAt(server, id)).length).toBe(2);
  await allSent(page);
  const [first, second] = await entriesAt(server, id);
  const { startedAt } = (await server.ask(`/api/steamings/${id}`)) as { startedAt: string };
  expect(Date.parse(startedAt) + 1000 * (first?.atS ?? Number.NaN)).toBeLessThan(tappedBy + 1500);
  expect((second?.atS ?? 0) > (first?.atS ?? 0)).toBe(true);
});

test("what could not be kept is kept with the next entry that can", async () => {
  const { page, id } = await recorder();
  await deny(page, true);
  await tile(page, "Lap").click();
  await page.locator(".unkept-bar").waitFor();
  await deny(page, false);
  await tile(page, "Lap").click();
  await page.locator(".unkept-bar").waitFor({ state: "detached" });
  await expect.poll(async () => (await entriesAt(server, id)).length).toBe(2);
});

test("a store that fails while it is sent from does not end the sending for good", async () => {
  const { page, id } = await recorder();
  await page.context().setOffline(true);
  await tile(page, "Lap").click();
  await kept(page, 1);
  await deny(page, true);
  await page.context().setOffline(false);
  await page.locator(".contact", { hasText: "this browser's store fails" }).waitFor();
  await deny(page, false);
  await allSent(page);
  expect((await entriesAt(server, id)).length).toBe(1);
});
