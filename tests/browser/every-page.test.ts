import axe from "axe-core";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { violations } from "../support/accessibility.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { chartsDrawn, sizes, tooWideBy, visit } from "../support/browser-page.ts";
import { ownNames, startServer } from "../support/server.ts";

const { browser, server } = await browserAndServer(startServer("--lan"));
const steamings = (await server.ask("/api/steamings")) as { id: string; laps: number }[];
const runs = steamings.filter((steaming) => steaming.laps > 0).map((steaming) => steaming.id);

/** Each page with as much of it open as there is: folds, forms, tables and choices. */
const pages: Record<string, (page: Page) => Promise<void>> = {
  shed: async (page) => {
    await go(page, "#/shed");
    await page.getByText("Invented data.").waitFor();
    await page.getByText("Units and light").click();
    await page.getByRole("button", { name: "Edit" }).first().click();
    await openFolds(page);
  },
  "test sheet": async (page) => {
    await go(page, `#/sheet/${runs[0]}`);
    await chartsDrawn(page);
    await page.getByRole("button", { name: "Write down an entry" }).click();
    await openFolds(page);
  },
  compare: async (page) => {
    await go(page, `#/compare?runs=${runs.slice(0, 4).join(",")}&by=lit`);
    await chartsDrawn(page);
    await openFolds(page);
  },
  footplate: async (page) => {
    await go(page, "#/footplate");
    await page.getByRole("button", { name: /^Begin: / }).waitFor();
    await openFolds(page);
  },
  "a choice of sheets": async (page) => {
    await go(page, "#/sheet");
    await page.getByRole("heading", { name: "Which test sheet?" }).waitFor();
  },
  "fitter's book": async (page) => {
    await go(page, "#/fitter/tansy");
    await page.getByRole("heading", { name: "Fitter's book: Tansy" }).waitFor();
    await openFolds(page);
  },
  "a fitting": async (page) => {
    await go(page, "#/fitter/tansy?fitting=right-gland");
    await page.getByRole("heading", { name: "Right piston gland" }).waitFor();
    await chartsDrawn(page);
    await page.getByText("As a table").click();
  },
  "recording a service": async (page) => {
    await go(page, "#/fitter/tansy?fitting=turret");
    await page.getByRole("button", { name: "Record a service" }).click();
    await page.getByRole("combobox", { name: "What was done" }).waitFor();
  },
  "limit and particulars": async (page) => {
    await go(page, "#/fitter/tansy?fitting=left-gland");
    await page.getByRole("button", { name: "Limit and particulars" }).click();
    await page.getByRole("group", { name: "Must come off to reach it" }).waitFor();
  },
  "before the next steaming": async (page) => {
    await go(page, "#/fitter/tansy?jobs=1");
    await page.getByRole("heading", { name: "Before the next steaming of Tansy" }).waitFor();
  },
  "tank bench": async (page) => {
    await go(page, "#/tank-bench");
    await page.getByText("is expected to draw").waitFor();
    await openFolds(page);
  },
  "full-size templates": async (page) => {
    await go(page, "#/tank-bench");
    await page.getByText("is expected to draw").waitFor();
    await page.getByRole("button", { name: "Full-size templates" }).click();
    await page.getByRole("heading", { name: "Templates, full size" }).waitFor();
  },
  logbook: async (page) => {
    await go(page, "#/logbook");
    await page.getByRole("button", { name: "Make a code" }).waitFor();
    await openFolds(page);
  },
};

const go = async (page: Page, hash: string) => {
  await page.goto(new URL(hash, page.url()).href);
};

const openFolds = (page: Page) =>
  page.locator("details").evaluateAll((folds) => {
    for (const fold of folds) (fold as HTMLDetailsElement).open = true;
  });

/** axe takes two seconds a page where nothing else runs, and there are many pages. */
const patienceMs = 240_000;

describe.each(["sun", "normal", "night"])("in the %s light", (theme) => {
  test.each(Object.keys(sizes) as (keyof typeof sizes)[])(
    "on a %s no page breaks WCAG 2.2 AA, scrolls sideways, errs or asks another machine",
    async (size) => {
      const { page, troubles } = await visit(browser, server.address, { theme, size });
      for (const [name, show] of Object.entries(pages)) {
        await show(page);
        expect(await violations(page), name).toEqual([]);
        expect(await tooWideBy(page), name).toBeLessThanOrEqual(0);
      }
      expect(troubles).toEqual([]);
      await page.context().close();
    },
    patienceMs,
  );
});

test(
  "in bright sun every text stands at 7 to 1 or more on its ground",
  async () => {
    const { page } = await visit(browser, server.address, { theme: "sun" });
    for (const [name, show] of Object.entries(pages)) {
      await show(page);
      await page.evaluate(axe.source);
      const low = await page.evaluate(async () => {
        const found = await (window as unknown as { axe: typeof axe }).axe.run({
          runOnly: { type: "rule", values: ["color-contrast-enhanced"] },
          rules: { "color-contrast-enhanced": { enabled: true } },
        });
        return found.violations.flatMap(({ nodes }) => nodes.map((node) => node.html.slice(0, 160)));
      });
      expect(low, name).toEqual([]);
    }
    await page.context().close();
  },
  patienceMs,
);

test("no text is smaller than 14 px", async () => {
  const { page } = await visit(browser, server.address, { size: "phone" });
  for (const [name, show] of Object.entries(pages)) {
    await show(page);
    const small = await page.evaluate(() => {
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      const found: string[] = [];
      while (walker.nextNode()) {
        const { parentElement, textContent } = walker.currentNode;
        if (parentElement === null || (textContent ?? "").trim() === "") continue;
        const size = Number.parseFloat(getComputedStyle(parentElement).fontSize);
        if (size < 14) found.push(`${size} px: ${textContent}`);
      }
      return found;
    });
    expect(small, name).toEqual([]);
  }
  await page.context().close();
});

test.each(ownNames())("the pages work under the name %s as they do on this machine's own", async (name) => {
  const paired = name === "localhost" ? {} : { token: await server.pair("record") };
  const address = `http://${name}:${server.port}`;
  const { page, troubles } = await visit(browser, address, { size: "phone", ...paired });
  await page.getByText("Invented data.").waitFor();
  await go(page, `#/sheet/${runs[0]}`);
  await chartsDrawn(page);
  await page.getByRole("button", { name: "Write down an entry" }).click();
  await page.getByRole("combobox", { name: "What" }).selectOption("note");
  await page.getByLabel(/^Note/).fill(`written down at ${name}`);
  await page.getByRole("button", { name: "Keep the entry" }).click();
  await page.getByText("Kept: note").waitFor();
  const { entries } = (await server.ask(`/api/steamings/${runs[0]}`)) as { entries: { text?: string }[] };
  expect(entries.filter((entry) => entry.text === `written down at ${name}`).length).toBe(1);
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("the keyboard alone reaches a sheet, opens a figure's doubt and reads the charts", async () => {
  const { page, troubles } = await visit(browser, `${server.address}/#/sheet/${runs[0]}`);
  await chartsDrawn(page);
  const figure = page.locator("details.figure-line").first();
  await figure.locator("summary").focus();
  await page.keyboard.press("Enter");
  await figure.getByText("Where the doubt comes from").waitFor();
  const slider = page.getByRole("slider", { name: "Read the charts at" });
  await slider.focus();
  await page.keyboard.press("ArrowRight");
  await page.locator(".readings", { hasText: "0:01" }).waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});
