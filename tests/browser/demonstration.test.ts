import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { Comparison } from "../../src/compare/compare-runs.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { chartsDrawn, sizes, visit } from "../support/browser-page.ts";
import { startServer } from "../support/server.ts";
import { shownFigures } from "../support/shown-figures.ts";

const { browser, server } = await browserAndServer(startServer("--no-demo"));

interface ShedAnswer {
  engines: { locomotive: { name: string }; steamings: { id: string; title?: string; laps: number }[] }[];
}

const steamingsOf = async () => {
  const shed = (await server.ask("/api/shed")) as ShedAnswer;
  return shed.engines.flatMap((engine) => engine.steamings);
};

async function addDemonstration(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Start from the demonstration" }).click();
  await page.getByText("Invented data.").waitFor();
}

test("the demonstration goes in by one tap, says that it is invented, and goes out by one tap", async () => {
  const { page, troubles } = await visit(browser, server.address);
  await page.getByText("No engine stands here yet").waitFor();
  await addDemonstration(page);
  await page.getByText("demonstration, invented").waitFor();
  expect((await steamingsOf()).length).toBeGreaterThan(0);
  await page.getByRole("button", { name: "Take the demonstration out" }).click();
  await page.getByText("No engine stands here yet").waitFor();
  expect(await steamingsOf()).toEqual([]);
  await addDemonstration(page);
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("a test sheet is opened from the shed and every figure on it is the report's", async () => {
  const { page, troubles } = await visit(browser, server.address);
  const steaming = (await steamingsOf()).find((each) => each.laps > 0);
  await page
    .getByRole("link", { name: String(steaming?.title) })
    .first()
    .click();
  await chartsDrawn(page);
  const shown = await shownFigures(page);
  const report = await server.ask(`/api/steamings/${steaming?.id}/report`);
  expect(Object.keys(shown).sort()).toEqual(figureKeys(report).sort());
  for (const [key, figure] of Object.entries(shown)) figure.isOf(valueAt(report, key));
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("every chart has a sentence for those who do not see it, and a table of its points", async () => {
  const { page, troubles } = await visit(
    browser,
    `${server.address}/#/sheet/${(await steamingsOf())[0]?.id}`,
  );
  await chartsDrawn(page);
  const charts = page.locator("figure.chart");
  expect(await charts.count()).toBeGreaterThanOrEqual(3);
  for (const chart of await charts.all()) {
    const sentence = await chart.locator("figcaption").textContent();
    expect(await chart.getByRole("img").getAttribute("aria-label")).toBe(sentence);
    await chart.getByText("As a table").click();
    await chart.getByRole("row").nth(1).waitFor();
  }
  expect(troubles).toEqual([]);
  await page.context().close();
});

test.each(Object.keys(sizes) as (keyof typeof sizes)[])(
  "on a %s a sheet that grows waits for the finger that is on it, and then moves nothing",
  async (size) => {
    const id = String((await steamingsOf())[0]?.id);
    const { page, troubles } = await visit(browser, `${server.address}/#/sheet/${id}`, { size });
    await chartsDrawn(page);
    const write = (last: number) => {
      const note = {
        id: `0198c000-0000-7000-8000-0000000000${size.length}${last}`,
        kind: "note",
        text: `${size} ${last}`,
      };
      return server.ask(`/api/steamings/${id}/entries/${note.id}`, "PUT", { ...note, atS: 900 });
    };
    const { entries } = (await server.ask(`/api/steamings/${id}`)) as { entries: unknown[] };
    const noted = page.getByRole("option", { name: `all ${entries.length + 1}` });
    const summary = page.getByText("As a table").first();
    const top = async () => (await page.locator("figure.chart").first().boundingBox())?.y;
    const before = await top();
    await summary.hover();
    await page.mouse.down();
    const answered = page.waitForResponse(
      async (response) => response.url().endsWith("/sheet") && (await response.text()).includes(`${size} 1`),
    );
    await write(1);
    await answered;
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn))));
    expect(await noted.count()).toBe(0);
    await page.mouse.up();
    await page.locator("figure.chart").first().getByRole("row").nth(1).waitFor();
    await noted.waitFor({ state: "attached" });
    await write(2);
    await page.getByText("In steam: brought up to date at").waitFor();
    expect(await top()).toBe(before);
    expect(troubles).toEqual([]);
    await page.context().close();
  },
);

test.each(Object.keys(sizes) as (keyof typeof sizes)[])(
  "on a %s a sheet that cannot be brought up to date says so where the reader is, and moves nothing as that comes and goes",
  async (size) => {
    const id = String((await steamingsOf())[0]?.id);
    const { page } = await visit(browser, `${server.address}/#/sheet/${id}`, { size });
    await chartsDrawn(page);
    // at the top of the page, where the browser itself keeps nothing in its place
    const top = async () => (await page.locator("figure.chart").first().boundingBox())?.y;
    const before = await top();
    const sheets = `**/api/steamings/${id}/sheet`;
    await page.route(sheets, (route) => route.abort());
    const note = { kind: "note", atS: 900, text: "while nobody answered" };
    await server.ask(`/api/steamings/${id}/entries/0198c000-behind-${size}`, "PUT", note);
    const behind = page.getByRole("alert").filter({ hasText: "Not brought up to date" });
    await behind.waitFor();
    expect(await top()).toBe(before);
    const { y = 0, height = 0 } = (await behind.boundingBox()) ?? {};
    expect(y + height).toBeLessThanOrEqual(sizes[size].height + 1.5);
    expect(height).toBeLessThan(sizes[size].height / 4);
    await page.unroute(sheets);
    await behind.getByRole("button", { name: "Try again" }).click();
    await behind.waitFor({ state: "detached" });
    expect(await top()).toBe(before);
    // what did not come is not said to have come
    expect(await page.getByText("In steam: brought up to date at").count()).toBe(0);
    await page.context().close();
  },
);

test("two runs are compared, and each difference stands with the server's verdict", async () => {
  const [first, second] = (await steamingsOf()).filter((each) => each.laps > 0);
  const { page, troubles } = await visit(browser, `${server.address}/#/compare`);
  await page.getByText("Choose two runs or more").waitFor();
  await page
    .getByRole("checkbox", { name: String(first?.title) })
    .first()
    .check();
  await page
    .getByRole("checkbox", { name: String(second?.title) })
    .first()
    .check();
  await chartsDrawn(page);
  const comparison = (await server.ask("/api/compare", "POST", {
    steamings: [first?.id, second?.id],
    alignBy: "lit",
  })) as Comparison;
  const judged = comparison.differences.filter((difference) => difference.toldApart !== null);
  expect(judged.length).toBeGreaterThan(0);
  for (const { key, words } of judged) {
    const verdict = page.locator(`[data-figure="${key} B"] .against`);
    expect(await verdict.textContent()).toContain(words);
  }
  await page.getByRole("radio", { name: "first lap" }).check();
  await page.getByText("since the first lap").waitFor();
  expect(page.url()).toContain("by=first-lap");
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("the reader's units are kept from one visit of the page to the next", async () => {
  const { page, troubles } = await visit(
    browser,
    `${server.address}/#/sheet/${(await steamingsOf())[0]?.id}`,
  );
  await page.getByText("Units and light").click();
  await page.getByRole("radio", { name: "psi" }).check();
  await page.locator("figcaption", { hasText: "psi" }).waitFor();
  await page.reload();
  await page.locator("figcaption", { hasText: "psi" }).waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});

/** Places of all figures of a report: objects with a value, whether it can be had or not. */
function figureKeys(part: unknown, path = ""): string[] {
  if (part === null || typeof part !== "object") return [];
  if ("value" in part && ("unit" in part || "why" in part)) return [path];
  return Object.entries(part).flatMap(([key, inner]) =>
    figureKeys(inner, path === "" ? key : `${path}.${key}`),
  );
}

function valueAt(part: unknown, path: string): unknown {
  return path.split(".").reduce<unknown>((inner, key) => (inner as Record<string, unknown>)[key], part);
}
