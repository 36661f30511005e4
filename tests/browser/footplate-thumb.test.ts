import type { Locator, Page } from "playwright-core";
import { beforeEach, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { beginSteaming, bounceOver, kept, recordsOnPhone, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());
let page: Page;
let steamingId: string;
beforeEach(async () => {
  await page?.context().close();
  const context = await browser.newContext({ viewport: sizes.phone, hasTouch: true });
  context.setDefaultTimeout(10_000);
  page = await context.newPage();
  steamingId = await beginSteaming(page, server.address);
});

/** So much later the second touch of a bounce comes down, by the browser's stamp of it. */
const BOUNCES_AFTER_S = 0.04;

/** A wet thumb: the touch comes down twice at the same place. The stamps are given, so that a busy machine bounces alike. */
async function bounce(what: Locator): Promise<void> {
  const box = await what.boundingBox();
  if (box === null) throw new Error("nothing to tap");
  const touchPoints = [{ x: box.x + box.width / 2, y: box.y + box.height / 2 }];
  const session = await page.context().newCDPSession(page);
  const touch = async (timestamp: number) => {
    await session.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints, timestamp });
    await session.send("Input.dispatchTouchEvent", {
      type: "touchEnd",
      touchPoints: [],
      timestamp: timestamp + 0.01,
    });
  };
  const first = Date.now() / 1000;
  await touch(first);
  await touch(first + BOUNCES_AFTER_S);
  await session.detach();
}
const digit = (key: string) => page.locator(".digit-keys").getByRole("button", { name: key, exact: true });
const writtenDown = async () =>
  (await recordsOnPhone(page, steamingId))
    .filter((record) => record.deleted !== true)
    .map(({ entry }) => entry);

test("a last digit whose touch bounces is kept once, and the second touch does nothing to what lies beneath", async () => {
  const digits = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "0"];
  for (const [i, last] of digits.entries()) {
    await tile(page, "Pressure").tap();
    await bounceOver(page);
    await digit("3").tap();
    await bounceOver(page);
    await bounce(digit(last));
    await kept(page, i + 1);
    await bounceOver(page);
    expect(await page.locator(".overlay").count(), `after ${last}`).toBe(0);
  }
  expect(await writtenDown()).toMatchObject(
    digits.map((last) => ({ kind: "pressure", barG: Number(`3.${last}`) })),
  );
});

test("a third digit whose touch bounces keeps an amount of several meanings once, and a meaning or a ten that bounces is chosen and keeps nothing", async () => {
  for (const [i, last] of ["0", "9", "5"].entries()) {
    await tile(page, "Feed").tap();
    await bounceOver(page);
    await digit("1").tap();
    await bounceOver(page);
    await digit("2").tap();
    await bounceOver(page);
    await bounce(digit(last));
    await kept(page, i + 1);
    await bounceOver(page);
    expect(await page.locator(".overlay").count(), `after ${last}`).toBe(0);
  }
  expect(await writtenDown()).toMatchObject([{ ml: 120 }, { ml: 129 }, { ml: 125 }]);
  await tile(page, "Feed").tap();
  await bounceOver(page);
  await bounce(page.locator(".overlay .meaning").filter({ hasText: "drained" }));
  await bounceOver(page);
  for (const ten of ["110", "120", "130", "140"]) {
    await bounce(page.locator(".by-tens .key").getByText(ten, { exact: true }));
    await bounceOver(page);
    await page
      .locator(".by-tens .key")
      .getByText(`${Number(ten) + 9}`, { exact: true })
      .waitFor();
    await page.locator(".by-tens .back-key").tap();
    await bounceOver(page);
  }
  expect(await page.locator(".overlay").count()).toBe(1);
  expect((await writtenDown()).length).toBe(3);
});

test("a tile whose touch bounces opens its pad and types nothing; a digit in the middle that bounces is typed once", async () => {
  await bounce(tile(page, "Pressure"));
  await bounceOver(page);
  await bounce(digit("2"));
  await bounceOver(page);
  await digit("2").tap();
  await kept(page, 1);
  expect(await writtenDown()).toMatchObject([{ kind: "pressure", barG: 2.2 }]);
});

test("a valve's key whose touch bounces is kept once", async () => {
  await tile(page, "Valves").tap();
  await bounceOver(page);
  await bounce(page.locator(".overlay .key").filter({ hasText: "Regulator open" }));
  await kept(page, 1);
  await bounceOver(page);
  expect(await page.locator(".overlay").count()).toBe(0);
  expect(await writtenDown()).toMatchObject([{ kind: "regulator", state: "open" }]);
});

test("a lap whose touch bounces is kept and asked about, and an undo that bounces takes out one", async () => {
  await bounce(tile(page, "Lap"));
  await kept(page, 2);
  await page.locator(".doubt-bar", { hasText: "tapped twice?" }).waitFor();
  expect((await writtenDown()).length).toBe(2);
  await bounce(page.getByRole("button", { name: /^Undo/ }));
  await page.locator(".said", { hasText: "taken out" }).waitFor();
  await bounceOver(page);
  expect((await writtenDown()).length).toBe(1);
});

test("soon after a pad is left, a tap at another place counts", async () => {
  await tile(page, "Pressure").tap();
  await bounceOver(page);
  await digit("3").tap();
  await digit("1").tap();
  await tile(page, "Lap").tap({ force: true });
  await kept(page, 2);
  expect((await writtenDown()).map(({ kind }) => kind)).toEqual(["pressure", "lap"]);
});
