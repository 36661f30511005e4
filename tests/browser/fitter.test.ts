import { expect, test } from "vitest";
import type { Service } from "../../src/logbook/service.ts";
import { drip, engineWith, outing } from "../care/season-logbook.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { chartsDrawn, visit } from "../support/browser-page.ts";
import { readPdf } from "../support/pdf-text.ts";
import { startServer } from "../support/server.ts";

const { browser, server } = await browserAndServer(startServer());

const book = () => `${server.address}/#/fitter/tansy`;

test("the Shed says how many fittings ask for attention and which is the worst, and leads to the book", async () => {
  const { page, troubles } = await visit(browser, server.address);
  const line = page.locator(".care-line").filter({ hasText: "to attend to" });
  await line.getByText("Right piston gland.").waitFor();
  await line.getByRole("link", { name: "Fitter's book" }).click();
  await page.getByRole("heading", { name: "Fitter's book: Tansy" }).waitFor();
  const states = await page.locator(".fittings .state").allInnerTexts();
  const rank = (state: string) => ["attend", "watch", "sound"].indexOf(state.trim());
  expect(states.length).toBe(8);
  expect(states.map(rank)).toEqual(states.map(rank).sort((a, b) => a - b));
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a service that is recorded is kept, starts the fitting afresh, and can be taken out again", async () => {
  const { page, troubles } = await visit(browser, `${book()}?fitting=right-gland`);
  await chartsDrawn(page);
  await page.getByRole("button", { name: "Record a service" }).click();
  await page.getByRole("combobox", { name: "What was done" }).selectOption("repacked");
  await page.getByLabel(/^When/).fill("2026-10-04T19:00");
  await page.getByLabel(/^Remark/).fill("four rings of yarn");
  await page.getByRole("button", { name: "Keep the service" }).click();
  await page.getByText("Kept: Right piston gland done.").waitFor();
  await page.getByText("Neither caught nor looked at in 0.0 h in steam").waitFor();
  const services = async () =>
    ((await server.ask("/api/services?locomotiveId=tansy")) as Service[]).filter(
      ({ note }) => note === "four rings of yarn",
    );
  expect(await services()).toMatchObject([{ fittingId: "right-gland", what: "repacked" }]);
  await page.getByRole("button", { name: /^Take out repacked 4 Oct 2026/ }).click();
  await page.getByText("The service is taken out.").waitFor();
  expect(await services()).toEqual([]);
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a service dated in the future is kept and asked about", async () => {
  const { page, troubles } = await visit(browser, `${book()}?fitting=turret`);
  await page.getByRole("button", { name: "Record a service" }).click();
  await page.getByRole("combobox", { name: "What was done" }).selectOption("nipped-up");
  await page.getByLabel(/^When/).fill("2099-10-10T19:00");
  await page.getByRole("button", { name: "Keep the service" }).click();
  await page.getByText("Its day is yet to come: is that right?").waitFor();
  await page
    .getByText("the service of 2099-10-10 is dated later than today and restarts nothing (is that its day?)")
    .waitFor();
  await page.getByRole("button", { name: /^Take out nipped up 10 Oct 2099/ }).click();
  await page.getByText("The service is taken out.").waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a limit is set, and parts that must come off are ticked from those already named", async () => {
  const { page, troubles } = await visit(browser, `${book()}?fitting=left-gland`);
  await page.getByRole("button", { name: "Limit and particulars" }).click();
  await page.getByLabel(/^Your limit/).fill("0.1");
  await page.getByRole("checkbox", { name: "cab roof" }).check();
  await page.getByLabel(/^Other parts/).fill("left footplate");
  await page.getByRole("button", { name: "Keep the particulars" }).click();
  await page.getByText("Kept: particulars of the left piston gland.").waitFor();
  await page.getByText("the owner's limit is 0.10").waitFor();
  const engine = (await server.ask("/api/locomotives/tansy")) as { fittings: { id: string }[] };
  expect(engine.fittings.find(({ id }) => id === "left-gland")).toMatchObject({
    limitGPerMin: 0.1,
    access: ["left slide bars", "cab roof", "left footplate"],
  });
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a limit that is none is refused at its field, and what was typed stays", async () => {
  const { page } = await visit(browser, `${book()}?fitting=turret`);
  await page.getByRole("button", { name: "Limit and particulars" }).click();
  await page.getByLabel(/^Your limit/).fill("plenty");
  await page.getByRole("button", { name: "Keep the particulars" }).click();
  await page.getByText("what you typed is still here").waitFor();
  const field = page.getByLabel(/^Your limit/);
  expect(await field.inputValue()).toBe("plenty");
  expect(await field.getAttribute("aria-invalid")).toBe("true");
  await page.context().close();
});

test("the sheet before the next steaming names the dismantling, and prints on one page without the buttons", async () => {
  const { page, troubles } = await visit(browser, `${book()}?jobs=1`);
  await page.getByRole("heading", { name: /Job 1: take off/ }).waitFor();
  const { pages, letters } = readPdf(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
  expect(pages).toBe(1);
  for (const words of [
    "Let her cool and lose all pressure before anything is taken off",
    "Made out on",
    "Job 1: take off right slide bars",
    "Right piston gland",
    "To read at the next steaming",
  ])
    expect(letters).toContain(words.replace(/\s+/g, ""));
  await page.emulateMedia({ media: "print" });
  expect(await page.getByRole("button", { name: "Print" }).isVisible()).toBe(false);
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("the usual fittings that are not listed are offered, and added with one tap", async () => {
  const { page, troubles } = await visit(browser, book());
  await page.getByText("Usual fittings that are not listed").click();
  await page.getByRole("button", { name: /^Add these \d+ fittings/ }).click();
  await page.getByText(/\d+ fittings are added/).waitFor();
  await page.getByRole("link", { name: "Hand pump", exact: true }).waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a fitting known by a catch without a dial alone is one to watch, and not one of which nothing is known", async () => {
  const engine = engineWith([{ id: "gland", name: "Pump ram gland", kind: "gland", limitGPerMin: 0.5 }]);
  const unread = { ...outing(0, []), entries: [drip("gland", 0.9)] };
  await server.ask("/api/logbook", "POST", {
    format: "lapwater-logbook",
    version: 1,
    locomotives: [engine],
    steamings: [unread],
    services: [],
  });
  const { page, troubles } = await visit(browser, `${server.address}/#/fitter/${engine.id}`);
  await page.getByText("0 to attend to, 1 to watch, 0 sound.").waitFor();
  expect(await page.locator(".fitting-name").textContent()).not.toContain("nothing known");
  await page.getByText("in steam since the log began; no service recorded").waitFor();
  await page.goto(`${server.address}/#/shed`);
  const line = page.locator(".care-line").filter({ hasText: "Pump ram gland." });
  expect(((await line.textContent()) ?? "").replace(/\s+/g, " ")).toMatch(
    /^0 to attend to, 1 to watch\. Fitter's book/,
  );
  expect(troubles).toEqual([]);
  await page.context().close();
});
