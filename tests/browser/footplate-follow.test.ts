import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { blankPlan } from "../../web/pages/tank-bench/blank-plan.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import {
  allSent,
  beginSteaming,
  bounceOver,
  entriesAt,
  kept,
  pairPhone,
  tile,
} from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer("--lan"));

interface Outcome {
  entries: { added: number; same: number; differs: number };
}

test("another device with a reading link sees the engine in steam, and her test sheet grows as entries are tapped", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  await pairPhone(phone, server);
  const recorder = await phone.newPage();

  const { code } = (await server.ask("/api/pairing/codes", "POST", { may: "view" })) as { code: string };
  const { token } = (await server.ask("/api/pairing", "POST", { code, name: "follower" })) as {
    token: string;
  };
  const follower = await (await browser.newContext({ viewport: sizes.laptop })).newPage();
  await follower.goto(`${server.lanAddress}/#/follow?token=${token}`);
  await follower.getByRole("heading", { name: "Shed" }).waitFor();
  expect(follower.url()).not.toContain(token);

  await beginSteaming(recorder, server.lanAddress);
  await tile(recorder, "Lap").click();
  const now = follower.getByRole("region", { name: "In steam now" });
  await now.getByText("1 entry, the last lap 1").waitFor();
  for (const name of ["Add an engine", "Take the demonstration out", "New steaming"])
    expect(await follower.getByRole("button", { name }).count(), name).toBe(0);
  await now.getByRole("link", { name: "To her Footplate" }).click();
  await follower.getByText("this phone may only view").waitFor();
  await tile(recorder, "Lap").click();
  await follower.getByLabel("What is known").getByText("the first").waitFor({ state: "detached" });
  expect(await follower.getByRole("button").allTextContents()).toEqual(["To the page itself"]);
  for (const key of ["l", "PageDown", "p"]) await follower.keyboard.press(key);
  expect(await follower.locator(".overlay").count()).toBe(0);
  await follower.goto(`${server.lanAddress}/#/footplate`);
  await follower.getByText("This phone may only view").waitFor();
  expect(await follower.getByRole("button", { name: /^Begin/ }).count()).toBe(0);
  await follower.goto(`${server.lanAddress}/#/shed`);
  await now.getByText("2 entries, the last lap 1").waitFor();
  await now.getByRole("link", { name: "Her test sheet" }).click();
  await follower.getByRole("option", { name: "all 2" }).waitFor({ state: "attached" });
  for (let i = 0; i < 3; i++) await tile(recorder, "Lap").click();
  await follower.getByRole("option", { name: "all 5" }).waitFor({ state: "attached" });

  // but for those that lead from a warning to its entry
  const keys = () =>
    follower
      .getByRole("main")
      .getByRole("button")
      .filter({ hasNotText: /^entry at/ })
      .allTextContents();
  expect(await keys()).toEqual(["Print the sheet"]);
  await follower.goto(`${server.lanAddress}/#/fitter/tansy`);
  await follower.getByText("to attend to").waitFor();
  expect(await keys()).toEqual([]);
  await follower.goto(`${server.lanAddress}/#/fitter/tansy?fitting=right-gland`);
  await follower.getByRole("listitem").filter({ hasText: "repacked" }).first().waitFor();
  expect(await keys()).toEqual([]);
  const [engine] = (await server.ask("/api/locomotives")) as Locomotive[];
  if (engine === undefined) throw new Error("the demonstration has no engine");
  await server.ask(`/api/locomotives/${engine.id}/plans/Kept`, "PUT", blankPlan(engine));
  await follower.goto(`${server.lanAddress}/#/tank-bench`);
  await follower.getByRole("button", { name: "Open Kept" }).waitFor();
  for (const name of ["Keep the plan", "Take out"])
    expect(await follower.getByRole("button", { name }).count(), name).toBe(0);
  await follower.goto(`${server.lanAddress}/#/compare`);
  await follower.getByText("Choose two runs or more").waitFor();
  expect(await keys()).toEqual([]);
  await follower.goto(`${server.lanAddress}/#/logbook`);
  await follower.getByText("This device may only view.").waitFor();
  expect(await keys()).toEqual(["Save all to a file"]);

  // the same pages of a phone that may write
  await recorder.goto(`${server.lanAddress}/#/fitter/tansy?fitting=right-gland`);
  await recorder.getByRole("button", { name: "Record a service" }).waitFor();
  await recorder
    .getByRole("button", { name: /^Take out/ })
    .first()
    .waitFor();
  await recorder.goto(`${server.lanAddress}/#/tank-bench`);
  await recorder.getByRole("button", { name: "Take out Kept" }).waitFor();
  await recorder.getByRole("button", { name: "Keep the plan" }).waitFor();
  await Promise.all([phone.close(), follower.context().close()]);
});

test("what another device writes down comes onto the phone, and an undo there takes it out everywhere", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  await pairPhone(phone, server);
  const page = await phone.newPage();
  const id = await beginSteaming(page, server.lanAddress);
  await tile(page, "Lap").click();
  await kept(page, 1);
  await allSent(page);
  await server.ask(`/api/steamings/${id}/entries/from-elsewhere`, "PUT", {
    kind: "pressure",
    atS: 5,
    barG: 2.4,
  });
  await tile(page, "Pressure").filter({ hasText: "2.4 bar" }).waitFor();
  await page.getByRole("button", { name: "Undo lap 1" }).click();
  await page.locator(".said", { hasText: "taken out" }).waitFor();
  await allSent(page);
  expect((await entriesAt(server, id)).map((entry) => entry.id)).toEqual(["from-elsewhere"]);
  await phone.close();
});

test("a copy that was saved without the server comes in without doubles, before the entries are sent and after", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  await pairPhone(phone, server);
  const page = await phone.newPage();
  const id = await beginSteaming(page, server.lanAddress);
  await allSent(page);
  await phone.setOffline(true);
  for (let i = 1; i <= 3; i++) {
    await tile(page, "Lap").click();
    await kept(page, i);
  }
  await page.locator(".contact", { hasText: "3 kept here, not sent" }).waitFor();
  // leaving the page now asks first
  const asked = page.waitForEvent("dialog");
  await page.close({ runBeforeUnload: true });
  const dialog = await asked;
  expect(dialog.type()).toBe("beforeunload");
  await dialog.dismiss();
  await page.getByRole("button", { name: "More", exact: true }).click();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page
      .locator(".overlay")
      .getByRole("button", { name: /^Save a copy/ })
      .click(),
  ]);
  const file: unknown = JSON.parse(readFileSync(await download.path(), "utf8"));
  const first = (await server.ask("/api/logbook", "POST", file)) as Outcome;
  expect(first.entries).toMatchObject({ added: 3, same: 0, differs: 0 });
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await phone.setOffline(false);
  await allSent(page);
  const again = (await server.ask("/api/logbook", "POST", file)) as Outcome;
  expect(again.entries).toMatchObject({ added: 0, same: 3, differs: 0 });
  expect((await entriesAt(server, id)).length).toBe(3);
  await phone.close();
});

test("0.9, then 9 bar is kept, asked about, and mended by one tap", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  const page = await phone.newPage();
  const id = await beginSteaming(page, server.address);
  const type = async (keys: string) => {
    await tile(page, "Pressure").click();
    await bounceOver(page);
    for (const key of keys) {
      await page.locator(".digit-keys").getByRole("button", { name: key, exact: true }).click();
    }
  };
  await type("09");
  await bounceOver(page);
  await type("9.");
  await page.locator(".key.keep").click();
  await kept(page, 2);
  await page.getByText("0.9 bar, then 9 bar? It is kept.").waitFor();
  await allSent(page);
  expect(await entriesAt(server, id)).toMatchObject([{ barG: 0.9 }, { barG: 9 }]);
  await bounceOver(page);
  await page.getByRole("button", { name: "Make it 0.9 bar" }).click();
  await page.locator(".said", { hasText: "corrected to pressure 0.9 bar" }).waitFor();
  await allSent(page);
  expect(await entriesAt(server, id)).toMatchObject([{ barG: 0.9 }, { barG: 0.9 }]);
  expect(await page.locator(".doubt-bar").count()).toBe(0);
  await phone.close();
});

test("on a secure address the Footplate opens without the server, begins a steaming, and sends it when the server is back", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  const first = await phone.newPage();
  await first.goto(`${server.address}/#/footplate`);
  await first.getByRole("button", { name: /^Begin: / }).waitFor();
  await first.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await first.close();
  await server.kill();
  const page = await phone.newPage();
  const id = await beginSteaming(page, server.address);
  await tile(page, "Lap").click();
  await page.locator(".contact", { hasText: "2 kept here, not sent" }).waitFor();
  await server.start();
  await allSent(page);
  expect(await entriesAt(server, id)).toMatchObject([{ kind: "lap", count: 1 }]);
  await phone.close();
});

test("entries of a steaming that was taken out at the server stay on the phone, are said to be refused, and hold up no other steaming", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  const page = await phone.newPage();
  const gone = await beginSteaming(page, server.address);
  await allSent(page);
  await server.ask(`/api/steamings/${gone}`, "DELETE");
  await tile(page, "Lap").click();
  await page.locator(".contact", { hasText: "1 refused, kept here" }).waitFor();
  expect(await page.locator(".contact").textContent()).not.toContain("all sent");
  // leaving the page asks first, and the first page says that it is here alone
  const asked = page.waitForEvent("dialog");
  await page.close({ runBeforeUnload: true });
  await (await asked).dismiss();
  await page.goto(`${server.address}/#/footplate`);
  await page.getByText("0, and 1 refused, kept here").waitFor();
  await page.getByRole("link", { name: /refused by the server/ }).waitFor();
  const other = await beginSteaming(page, server.address);
  await tile(page, "Lap").click();
  await kept(page, 1);
  await allSent(page);
  expect((await entriesAt(server, other)).length).toBe(1);

  await page.goto(`${server.address}/#/footplate/${gone}`);
  await page.locator(".contact", { hasText: "1 refused, kept here" }).waitFor();
  await page.getByText("it was taken out at the server").waitFor();
  await page.getByRole("button", { name: "Send it again" }).click();
  await expect.poll(async () => (await entriesAt(server, gone))?.length).toBe(1);
  await allSent(page);
  await phone.close();
});

test("what another device wrote comes back at its own time when it is put back, and not at the time of the tap", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  const page = await phone.newPage();
  const id = await beginSteaming(page, server.address);
  await allSent(page);
  const pressure = { kind: "pressure", atS: -600, barG: 2.4 };
  await server.ask(`/api/steamings/${id}/entries/from-elsewhere`, "PUT", pressure);
  await page.getByRole("button", { name: "More", exact: true }).click();
  await page.getByRole("button", { name: /^All entries/ }).click();
  await page.getByText("pressure 2.4 bar").first().waitFor();
  await page.getByRole("button", { name: /^Take out/ }).click();
  await bounceOver(page);
  await page.getByRole("button", { name: /^Put back/ }).click();
  await page.getByText("Written down: 2").waitFor();
  await expect.poll(async () => (await entriesAt(server, id)).map(({ atS }) => atS)).toEqual([-600]);
  await phone.close();
});

test("a corrected time is the one that an entry is put back at", async () => {
  const phone = await browser.newContext({ viewport: sizes.phone });
  const page = await phone.newPage();
  const id = await beginSteaming(page, server.address);
  await tile(page, "Lap").click();
  await kept(page, 1);
  await allSent(page);
  const [lap] = await entriesAt(server, id);
  const path = `/api/steamings/${id}/entries/${lap?.id}?correction=true`;
  await server.ask(path, "PUT", { ...lap, atS: -900 });
  await page.getByRole("button", { name: "More", exact: true }).click();
  await page.getByRole("button", { name: /^All entries/ }).click();
  await page.getByText("was 1 at").waitFor();
  await page.getByRole("button", { name: /^Take out/ }).click();
  await bounceOver(page);
  await page.getByRole("button", { name: /^Put back/ }).click();
  await expect.poll(async () => (await entriesAt(server, id)).map(({ atS }) => atS)).toEqual([-900]);
  await phone.close();
});
