import type { Page } from "playwright-core";
import { afterEach, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, beginSteaming, entriesAt, kept, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());
let page: Page;
afterEach(() => page.context().close());

async function phone(): Promise<string> {
  const context = await browser.newContext({ viewport: sizes.phone });
  context.setDefaultTimeout(8_000);
  page = await context.newPage();
  const id = await beginSteaming(page, server.address);
  await allSent(page);
  return id;
}

const firstPage = async () => {
  await page.evaluate(() => {
    location.hash = "#/footplate";
  });
  await page.getByRole("heading", { name: "Begin a steaming" }).waitFor();
};
/** in the list, which has those of other tests too */
const goingOn = (id: string) => page.locator(`a.key[href$="${id}"]`);
const dropKey = () => page.getByRole("button", { name: /^Drop it/ });
const notSent = (words: string) => page.locator(".title-block", { hasText: `Not sent${words}` }).waitFor();
const statusAt = async (id: string): Promise<number> =>
  (await fetch(`${server.address}/api/steamings/${id}`)).status;
const goneThere = (id: string) => expect.poll(() => statusAt(id), { timeout: 20_000 }).toBe(404);

test("a steaming in which nothing was written is dropped at a tap, here and at the server, and an undo brings it back to both", async () => {
  const id = await phone();
  expect(await statusAt(id)).toBe(200);
  await firstPage();
  await dropKey().click();
  const bar = page.locator(".just-over");
  await bar.getByText("is dropped.").waitFor();
  await goingOn(id).waitFor({ state: "detached" });
  await goneThere(id);
  await bar.getByRole("button", { name: "Undo" }).click();
  await tile(page, "Lap").click();
  await kept(page, 1);
  await allSent(page);
  expect((await entriesAt(server, id)).map(({ kind }) => kind)).toEqual(["lap"]);
  await firstPage();
  await goingOn(id).waitFor();
  expect(await dropKey().count()).toBe(0);
  // and after a reload nothing of it is left to be brought back
  await page.reload();
  await goingOn(id).waitFor();
  expect(await bar.count()).toBe(0);
});

test("what was written and undone again counts as nothing, once the server knows it", async () => {
  const id = await phone();
  await tile(page, "Lap").click();
  await kept(page, 1);
  await page.keyboard.press("z");
  await page.locator(".said", { hasText: "taken out" }).waitFor();
  await allSent(page);
  await firstPage();
  await dropKey().click();
  await page.locator(".just-over").waitFor();
  await goneThere(id);
});

test("with the server gone it is dropped and brought back as well, and the server is told when it answers again", async () => {
  const id = await phone();
  await firstPage();
  await dropKey().waitFor();
  await server.kill();
  await dropKey().click();
  await page.locator(".just-over").waitFor();
  await goingOn(id).waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Undo" }).click();
  await tile(page, "Lap").waitFor();
  await firstPage();
  await goingOn(id).waitFor();
  await dropKey().click();
  await goingOn(id).waitFor({ state: "detached" });
  await server.start();
  await goneThere(id);
});

test("one in which another device has written meanwhile stays at the server, and comes back here with what stands in it", async () => {
  const id = await phone();
  await firstPage();
  await dropKey().waitFor();
  const entry = { kind: "pressure", atS: 60, barG: 2 };
  await server.ask(`/api/steamings/${id}/entries/elsewhere`, "PUT", entry);
  await dropKey().click();
  await notSent("0, and 1 refused");
  expect((await entriesAt(server, id)).map(({ kind }) => kind)).toEqual(["pressure"]);
  await page.reload();
  await goingOn(id).waitFor();
  await goingOn(id).filter({ hasText: "refused by the server" }).click();
  await page.locator(".readings-now", { hasText: /2\s*bar/ }).waitFor();
});

test("going back to one that was dropped goes on with it", async () => {
  const id = await phone();
  await firstPage();
  await dropKey().click();
  await page.locator(".just-over").waitFor();
  await goneThere(id);
  await page.goto(`${server.address}/#/footplate/${id}`);
  await tile(page, "Lap").click();
  await kept(page, 1);
  await allSent(page);
  expect((await entriesAt(server, id)).map(({ kind }) => kind)).toEqual(["lap"]);
});

test("a day after it was begun a steaming goes on no more: it stands with what is over, and there too an empty one can be dropped", async () => {
  const id = await phone();
  await page.clock.setSystemTime(Date.now() + 25 * 3_600_000);
  await firstPage();
  await page.reload();
  await page.getByRole("heading", { name: "Over, kept on this phone" }).waitFor();
  expect(await goingOn(id).count()).toBe(0);
  const row = page.locator(".record-list li", { hasText: "nothing written" });
  await row.getByRole("button", { name: "Drop it" }).click();
  await page.locator(".just-over").waitFor();
  expect(await row.count()).toBe(0);
  await goneThere(id);
});
