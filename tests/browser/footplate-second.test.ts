import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, beginSteaming, entriesAt, kept, pairPhone, tile } from "../support/footplate.ts";
import { type RestartableServer, restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer("--lan"));

async function pairedPhone(at: RestartableServer): Promise<Page> {
  const phone = await browser.newContext({ viewport: sizes.phone });
  await pairPhone(phone, at);
  return phone.newPage();
}

const beginKey = (page: Page) => page.getByRole("button", { name: /^Begin: / });
const goingOn = (page: Page) => page.locator("section", { hasText: "Going on" }).locator("a.key");

async function steamingsAt(at: RestartableServer): Promise<string[]> {
  const { engines } = (await at.ask("/api/shed")) as { engines: { steamings: { id: string }[] }[] };
  return engines.flatMap(({ steamings }) => steamings.map(({ id }) => id));
}

test("a second phone lists what goes on at the server, records there, and is asked before it begins another of the engine", async () => {
  const [first, second] = [await pairedPhone(server), await pairedPhone(server)];
  const asked: string[] = [];
  second.on("request", (request) => asked.push(new URL(request.url()).pathname));
  await second.goto(`${server.lanAddress}/#/footplate`);
  await beginKey(second).waitFor();
  expect(await goingOn(second).count()).toBe(0);

  // begun by the first, it appears on the second's open page
  const id = await beginSteaming(first, server.lanAddress);
  await goingOn(second).getByText("on another device").waitFor();
  const before = await steamingsAt(server);
  expect(before).toContain(id);

  await beginKey(second).click();
  const question = second.getByRole("alert").filter({ hasText: "She is in steam already" });
  await question.waitFor();
  expect(await question.textContent()).toContain("on another device");
  expect(await steamingsAt(server)).toEqual(before);
  // whoever is about to light up does not wait for the reports of a whole season
  expect(asked).toContain("/api/footplate");
  expect(asked).not.toContain("/api/shed");
  await question.getByRole("link", { name: "Go on with it" }).click();

  await tile(second, "Lap").click();
  await kept(second, 1);
  await allSent(second);
  expect((await entriesAt(server, id)).map(({ kind }) => kind)).toEqual(["lap"]);
  await tile(first, "Lap").getByText("2").waitFor();

  // the same phone again, which has it in its own store now: asked once, and then another begins
  await second.goto(`${server.lanAddress}/#/footplate`);
  await goingOn(second).waitFor();
  expect(await goingOn(second).count()).toBe(1);
  await beginKey(second).click();
  expect(await question.textContent()).not.toContain("another device");
  await question.getByRole("button", { name: "Begin another" }).click();
  await second.locator(".key.lap").waitFor();
  await allSent(second);
  expect((await steamingsAt(server)).length).toBe(before.length + 1);
});

test("without the server a steaming begins at the tap, unless this phone itself has one of the engine going on", async () => {
  const own = await restartableServer("--lan");
  try {
    const phone = await pairedPhone(own);
    await phone.goto(`${own.lanAddress}/#/footplate`);
    await beginKey(phone).waitFor();
    await own.kill();
    await beginKey(phone).click();
    await phone.locator(".key.lap").waitFor();
    await phone.evaluate(() => {
      location.hash = "#/footplate";
    });
    await beginKey(phone).click();
    await phone.getByRole("alert").filter({ hasText: "She is in steam already" }).waitFor();
  } finally {
    await own.stop();
  }
});

test("a hydraulic test, cold, is no part of a fire: nobody is asked about it, nor when one is begun", async () => {
  const own = await restartableServer("--lan");
  try {
    const phone = await pairedPhone(own);
    const begin = async (purpose: string) => {
      await phone.goto(`${own.lanAddress}/#/footplate`);
      await phone.getByLabel("Purpose").selectOption(purpose);
      await beginKey(phone).click();
    };
    const begun = () => phone.locator(".key.lap").waitFor();
    await begin("cold-hold");
    await begun();
    await begin("trial");
    await begun();
    await begin("trial");
    await phone
      .getByRole("alert")
      .filter({ hasText: /She is in steam already:\s*trial/ })
      .waitFor();
    await phone.reload();
    await begin("cold-hold");
    await begun();
  } finally {
    await own.stop();
  }
});
