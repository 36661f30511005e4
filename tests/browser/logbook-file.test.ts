import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { readLogbook } from "../../src/logbook/read-logbook.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { visit } from "../support/browser-page.ts";
import { startServer } from "../support/server.ts";
import { smallLogbook } from "../support/small-logbook.ts";

const { browser, server } = await browserAndServer(startServer("--no-demo"));

async function bringIn(page: Page, name: string, text: string): Promise<void> {
  await page
    .getByLabel("Bring in a file")
    .setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
  await page.getByRole("heading", { name }).waitFor();
}

/** The small logbook with four things wrong, each of another sort. */
function malformed(): string {
  const file = smallLogbook();
  return JSON.stringify({
    ...file,
    locomotives: file.locomotives.map((engine) => ({
      ...engine,
      workingPressureBarG: "three",
      whistle: true,
    })),
    steamings: file.steamings.map((steaming) => ({
      ...steaming,
      startedAt: "yesterday",
      entries: [...steaming.entries, { kind: "pressure", atS: 900, barG: null }],
    })),
  });
}

test("a file is looked at before it is added, added, and the same file again adds nothing", async () => {
  const { page, troubles } = await visit(browser, server.address);
  const text = JSON.stringify(smallLogbook());
  await bringIn(page, "small.json", text);
  await page.getByRole("row", { name: "entries 8 0 0" }).waitFor();
  expect(await server.ask("/api/locomotives")).toEqual([]);
  await page.getByRole("button", { name: "Add it" }).click();
  await page.getByText("small.json is in: 1 engine, 1 steaming, 8 entries added.").waitFor();
  await page.getByRole("heading", { name: "Small", exact: true }).waitFor();
  await bringIn(page, "again.json", text);
  await page.getByRole("row", { name: "entries 0 8 0" }).waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a malformed file shows every problem that the format finds, and nothing that was kept is lost", async () => {
  const { page, troubles } = await visit(browser, server.address);
  const before = await server.ask("/api/logbook");
  await bringIn(page, "malformed.json", malformed());
  const reading = readLogbook(malformed());
  const problems = reading.ok ? [] : reading.problems;
  expect(problems.length).toBe(4);
  const listed = await page.locator(".problems li").allInnerTexts();
  expect(listed).toEqual(
    problems.map((problem) => `${problem.path}: came ${problem.came}; wanted ${problem.wanted}`),
  );
  expect(await page.getByRole("button", { name: "Add it" }).count()).toBe(0);
  await page.getByRole("button", { name: "Leave it" }).click();
  await page.getByRole("heading", { name: "Small", exact: true }).waitFor();
  expect(await server.ask("/api/logbook")).toEqual(before);
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a file that is no JSON is refused in words", async () => {
  const { page } = await visit(browser, server.address);
  await bringIn(page, "holiday.jpg", "not a logbook");
  await page.getByText("Nothing was added:").waitFor();
  await page.getByText("the body is not JSON").waitFor();
  await page.context().close();
});

test("a file dropped on the panel is looked at like one that was picked", async () => {
  const { page, troubles } = await visit(browser, server.address);
  const panel = page.getByRole("region", { name: "Logbook files" });
  await panel.waitFor();
  const transfer = await page.evaluateHandle((text) => {
    const held = new DataTransfer();
    held.items.add(new File([text], "dropped.json", { type: "application/json" }));
    return held;
  }, JSON.stringify(smallLogbook()));
  await panel.dispatchEvent("drop", { dataTransfer: transfer });
  await page.getByRole("heading", { name: "dropped.json" }).waitFor();
  await page.getByRole("row", { name: "entries 0 8 0" }).waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});
