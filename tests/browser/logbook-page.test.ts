import { statSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { afterAll, describe, expect, test } from "vitest";
import { violations } from "../support/accessibility.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes, tooWideBy, visit } from "../support/browser-page.ts";
import { startServer } from "../support/server.ts";

const [{ browser, server }, alone] = await Promise.all([
  browserAndServer(startServer("--lan")),
  startServer("--no-demo"),
]);
afterAll(() => alone.stop());

const room = (address: string) => `${address}/#/logbook`;
const devices = (page: Page) => page.getByRole("region", { name: "Paired devices" });
const press = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).click();

const textOf = async (place: Locator): Promise<string> => (await place.textContent()) ?? "";

/** The status with which the server answers the device whose page it is. */
const statusOf = (page: Page, method: string, path: string): Promise<number> =>
  page.evaluate(
    async ([how, where]) => {
      const [token] = JSON.parse(localStorage.getItem("lapwater.token") ?? "[]") as string[];
      const response = await fetch(where, { method: how, headers: { authorization: `Bearer ${token}` } });
      return response.status;
    },
    [method, path] as const,
  );

test("a code made here pairs a phone at the network's address; the phone is listed, removed, and refused at once", async () => {
  const { page, troubles } = await visit(browser, room(server.address));
  await press(page, "Make a code");
  await page.getByRole("img", { name: "The pairing page, for a camera" }).waitFor();
  await page.getByText("This is plain http:").waitFor();
  const code = await textOf(page.locator(".given-pass .code"));
  const pairingPage = await textOf(page.locator(".given-pass code", { hasText: "#/pair" }));
  expect(new URL(pairingPage).host).not.toBe(new URL(server.address).host);

  const phone = await (await browser.newContext({ viewport: sizes.phone })).newPage();
  await phone.goto(pairingPage);
  await phone.getByLabel("Code that the server shows").fill(code);
  await phone.getByLabel("Name of this phone").fill("Trackside");
  await press(phone, "Pair it");
  await phone.getByRole("button", { name: /^Begin: / }).waitFor();
  expect(await statusOf(phone, "GET", "/api/shed")).toBe(200);

  await page.getByText("Trackside is paired.").waitFor();
  expect(await page.locator(".given-pass").count()).toBe(0);
  const line = devices(page).getByRole("listitem").filter({ hasText: "Trackside" });
  await line.getByText(/^may record, since \d+ \w+ \d{4}, \d\d:\d\d$/).waitFor();
  await press(page, "Remove Trackside");
  await page.getByText("Trackside is refused at once").waitFor();
  expect(await statusOf(phone, "GET", "/api/shed")).toBe(200);
  await press(page, "Remove Trackside");
  await page.getByText("Trackside is removed: it is refused from now on.").waitFor();
  await line.waitFor({ state: "detached" });
  expect(await statusOf(phone, "GET", "/api/shed")).toBe(401);
  await phone.goto(`${new URL(pairingPage).origin}/#/logbook`);
  await phone.getByText("this device is not paired").first().waitFor();
  await phone.getByRole("link", { name: "Pair this device" }).click();
  await phone.getByLabel("Code that the server shows").waitFor();
  expect(troubles).toEqual([]);
  await Promise.all([phone.context().close(), page.context().close()]);
});

test("a reading link shows what is kept and changes nothing", async () => {
  const { page, troubles } = await visit(browser, room(server.address));
  await page.getByLabel("For whom").fill("Club night");
  await press(page, "Make a reading link");
  await page.getByRole("heading", { name: "Reading link for Club night" }).waitFor();
  const link = await textOf(page.locator(".given-pass code", { hasText: "#/follow" }));
  await devices(page).getByText("may view, since").waitFor();

  const reader = await (await browser.newContext({ viewport: sizes.phone })).newPage();
  await reader.goto(link);
  await reader.getByText("Invented data.").waitFor();
  await reader.goto(`${new URL(link).origin}/#/logbook`);
  await reader.getByText("This device may only view.").waitFor();
  expect(await reader.getByRole("button", { name: "Make a code" }).count()).toBe(0);
  expect(await statusOf(reader, "GET", "/api/shed")).toBe(200);
  expect(await statusOf(reader, "POST", "/api/backups")).toBe(403);

  await press(page, "Remove Club night");
  await page.getByText("Its reading link no longer opens anything.").waitFor();
  await press(page, "Remove Club night");
  await page.getByText("Club night is removed").waitFor();
  await page.locator(".given-pass").waitFor({ state: "detached" });
  expect(await statusOf(reader, "GET", "/api/shed")).toBe(401);
  expect(troubles).toEqual([]);
  await Promise.all([reader.context().close(), page.context().close()]);
});

test("a paired phone is told that codes are made at the server's own machine", async () => {
  const token = await server.pair("record");
  const { address } = (await server.ask("/api/pairing/codes", "POST", { may: "view" })) as {
    address: string;
  };
  const { page } = await visit(browser, room(address), { size: "phone", token });
  await press(page, "Make a code");
  await page.getByText("a code is made on the machine that the server runs on").waitFor();
  await page.context().close();
});

test("where the server answers on its own machine only, the way to the network is told", async () => {
  const { page } = await visit(browser, room(alone.address));
  await press(page, "Make a code");
  await page.getByText("npm start -- --lan").waitFor();
  await press(page, "Make a reading link");
  await page.getByText("No other device can reach this server yet:").waitFor();
  expect(await page.locator(".given-pass").count()).toBe(0);
  await page.context().close();
});

test("a safe copy is told by its name, its size and where it lies", async () => {
  const { page, troubles } = await visit(browser, room(alone.address));
  await press(page, "Keep a safe copy now");
  const told = page.locator(".safe-copy .notice.done");
  await told.waitFor();
  const [name = "", folder = ""] = await told.locator("code").allInnerTexts();
  expect(name).toMatch(/^lapwater-\d{8}T\d{6}\.\d{3}Z\.sqlite$/);
  const kilobytes = Number(/, (\d+) kB, in /.exec(await textOf(told))?.[1]);
  expect(kilobytes).toBe(Math.round(statSync(`${folder}/${name}`).size / 1000));
  expect(troubles).toEqual([]);
  await page.context().close();
});

describe.each(["sun", "normal", "night"])("the Logbook in the %s light", (theme) => {
  test.each(Object.keys(sizes) as (keyof typeof sizes)[])(
    "on a %s breaks no WCAG 2.2 AA, scrolls not sideways, errs not and asks no other machine",
    async (size) => {
      const { page, troubles } = await visit(browser, room(server.address), { theme, size });
      await page.getByLabel("For whom").fill("The signalman");
      await press(page, "Make a reading link");
      await page.getByRole("img", { name: "The reading link, for a camera" }).waitFor();
      await devices(page).getByText("The signalman").first().waitFor();
      expect(await violations(page), "a link").toEqual([]);
      expect(await tooWideBy(page), "a link").toBeLessThanOrEqual(0);
      await press(page, "Make a code");
      await page.getByRole("img", { name: "The pairing page, for a camera" }).waitFor();
      await devices(page)
        .getByRole("button", { name: /^Remove/ })
        .first()
        .click();
      await press(page, "Keep a safe copy now");
      await page.locator(".safe-copy .notice.done").waitFor();
      expect(await violations(page), "a code").toEqual([]);
      expect(await tooWideBy(page), "a code").toBeLessThanOrEqual(0);
      expect(troubles).toEqual([]);
      await page.context().close();
    },
  );
});
