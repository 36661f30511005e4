import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { reportSchema } from "../../src/analysis/report-schema.ts";
import { CAUTION_SENTENCES } from "../../src/analysis/words/cautions.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { visit } from "../support/browser-page.ts";
import { readPdf } from "../support/pdf-text.ts";
import { startServer } from "../support/server.ts";
import { asNamed, isRounding, timesReported } from "../support/shown-figures.ts";
import { valveEngine, valveTest } from "../support/valve-test.ts";

const { browser, server } = await browserAndServer(startServer());

/** A4 within the sheet's margins, at 96 pixels to the inch. */
const paper = { width: 703, height: 1043 };

const sheetsOf = async () => (await server.ask("/api/steamings")) as { id: string; purpose: string }[];

/** One of each purpose, and each fifth of the rest. */
const someSheets = async () =>
  (await sheetsOf()).filter(
    (sheet, i, all) => i % 5 === 0 || all.findIndex((other) => other.purpose === sheet.purpose) === i,
  );

async function openSheet(id: string): Promise<{ page: Page; troubles: string[] }> {
  const opened = await visit(browser, `${server.address}/#/sheet/${id}`);
  await opened.page.getByRole("button", { name: "Print the sheet" }).waitFor();
  return opened;
}

const printed = async (page: Page) =>
  readPdf(await page.pdf({ preferCSSPageSize: true, printBackground: true }));

/** The page as it lies on paper, to be looked into. */
async function onPaper(page: Page): Promise<void> {
  await page.setViewportSize(paper);
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  await page.locator(".paper-sheet").waitFor();
}

const bare = (words: string) => words.replace(/\s+/g, "");

test("a sheet is one page whose words can be selected, drawn without a bitmap", async () => {
  for (const { id } of await someSheets()) {
    const { page, troubles } = await openSheet(id);
    const pdf = await printed(page);
    expect(pdf.pages, id).toBe(1);
    expect(pdf.images, id).toBe(0);
    for (const words of ["Remarks", "What it means", "working pressure", "Lapwater", "passes no boiler"])
      expect(pdf.letters, id).toContain(bare(words));
    for (const caution of CAUTION_SENTENCES) expect(pdf.letters, id).toContain(bare(caution));
    expect(troubles).toEqual([]);
    await page.context().close();
  }
});

test("the numbers on paper are those of the report, and each of them stands in the printed text", async () => {
  const [first] = (await sheetsOf()).filter((sheet) => sheet.purpose === "trial");
  const id = first?.id ?? "";
  const { page } = await openSheet(id);
  const { letters } = await printed(page);
  await onPaper(page);
  const report = await server.ask(`/api/steamings/${id}/report`);
  const rows = await page.locator("[data-paper-figure]").evaluateAll((elements) =>
    elements.map((element) => ({
      key: element.getAttribute("data-paper-figure") ?? "",
      name: element.querySelector("th")?.textContent ?? "",
      whole: element.querySelector("data")?.value ?? "",
      said: element.querySelector("data")?.textContent ?? "",
      unit: element.querySelector(".unit")?.textContent?.trim() ?? "",
      interval: element.querySelector(".interval")?.textContent ?? "",
    })),
  );
  expect(rows.length).toBeGreaterThan(12);
  for (const { key, name, whole, said, unit, interval } of rows) {
    const figure = key
      .split(".")
      .reduce<unknown>((part, name) => (part as Record<string, unknown>)[name], report);
    const { value, lo95, hi95 } = asNamed(figure as Reported, name) as Exclude<Reported, { value: null }>;
    expect(Number(whole), key).toBe(value);
    const factor = timesReported(unit);
    isRounding(said, value * factor, key);
    const [low = "", high = ""] = interval.split(" to ");
    if (interval !== "") {
      isRounding(low, lo95 * factor, key);
      isRounding(high, hi95 * factor, key);
    }
    expect(letters, key).toContain(bare(`${said}${unit}${interval}`));
  }
  await page.context().close();
});

test("of a valve test with a logger: its samples, what it means, and why a figure is missing, with the report's numbers", async () => {
  await server.ask("/api/logbook", "POST", {
    format: "lapwater-logbook",
    version: 1,
    locomotives: [valveEngine()],
    steamings: [valveTest("reseat not written", { lifts: true }), valveTest("nothing but the logger", {})],
    services: [],
  });
  const ids = { bare: "nothing but the logger", lifted: "reseat not written" };
  const { page, troubles } = await openSheet(ids.lifted);
  const pdf = await printed(page);
  expect(pdf.pages).toBe(1);
  expect(pdf.images).toBe(0);
  const report = reportSchema.parse(await server.ask(`/api/steamings/${ids.lifted}/report`));
  const { lift, reseat, highest } = report.safetyValve ?? {};
  if (lift?.value == null || highest?.value == null || reseat?.value !== null)
    throw new Error("other figures");
  for (const words of [
    "fire lit for 10 min, 2 lifts of the safety valve, 2 readings, 3001 samples of pressure by a logger over 10 min (5 a second)",
    "What it means",
    `The valve lifted at ${lift.value.toFixed(2)}`,
    `By the readings the pressure came to ${highest.value.toFixed(2)}`,
    "What could not be told",
    "Safety valve (reseats at): the valve was not seen to reseat.",
    "air 15 °C, feed 15 °C",
    "Remarks",
  ])
    expect(pdf.letters).toContain(bare(words));
  await onPaper(page);
  expect(await page.locator("[data-paper-figure='safetyValve.lift'] data").getAttribute("value")).toBe(
    String(lift.value),
  );
  expect(troubles).toEqual([]);
  await page.context().close();

  const second = await openSheet(ids.bare);
  const { letters } = await printed(second.page);
  expect(letters).toContain(bare("Safety valve (lifts at): the valve was not seen to lift."));
  expect(letters).toContain(bare("What it means"));
  await second.page.context().close();
});

test("nothing is cut off, with room for remarks, on the sheets of the season and of simulated strangers", async () => {
  const shown = (await someSheets()).map(({ id }) => id);
  const locomotives = new Set<string>();
  for (const seed of [50_003, 50_010, 50_017, 50_024, 50_031, 50_038]) {
    const { locomotive, steaming } = simulate(randomPlan(seed), seed);
    const answer = await server.ask("/api/logbook", "POST", {
      format: "lapwater-logbook",
      version: 1,
      locomotives: [{ ...locomotive, id: `${locomotive.id}-${seed}` }],
      steamings: [{ ...steaming, locomotiveId: `${locomotive.id}-${seed}` }],
      services: [],
    });
    expect(answer).not.toHaveProperty("code");
    locomotives.add(locomotive.id);
    shown.push(steaming.id);
  }
  expect(locomotives.size).toBeGreaterThan(2);
  for (const id of shown) {
    const { page } = await openSheet(id);
    await onPaper(page);
    const sizes = await page.evaluate(() => {
      const of = (selector: string) => document.querySelector(selector);
      const body = of(".paper-body");
      const foot = of(".paper-sheet .title-block")?.getBoundingClientRect();
      const sheet = of(".paper-sheet")?.getBoundingClientRect();
      return {
        cutOff: (body?.scrollHeight ?? 1e4) - (body?.clientHeight ?? 0),
        remarks: of(".paper-rules")?.clientHeight ?? 0,
        footInside: (foot?.bottom ?? 1e4) - (sheet?.bottom ?? 0),
        wide: (of(".paper-sheet")?.scrollWidth ?? 1e4) - (of(".paper-sheet")?.clientWidth ?? 0),
      };
    });
    expect(sizes.cutOff, id).toBeLessThanOrEqual(0);
    expect(sizes.remarks, id).toBeGreaterThan(45);
    expect(sizes.footInside, id).toBeLessThanOrEqual(0.5);
    expect(sizes.wide, id).toBeLessThanOrEqual(0);
    await page.context().close();
  }
});
