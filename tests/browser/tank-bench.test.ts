import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { layoutOf } from "../../src/sizing/layout.ts";
import { piecesOf } from "../../src/sizing/sheet-pieces.ts";
import { A4, SCALE_BAR_MM, templatePages } from "../../src/sizing/templates.ts";
import { blankPlan } from "../../web/pages/tank-bench/blank-plan.ts";
import { violations } from "../support/accessibility.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes, tooWideBy, visit } from "../support/browser-page.ts";
import { type PdfLine, pdfPages } from "../support/pdf-lines.ts";
import { startServer } from "../support/server.ts";

const { browser, server } = await browserAndServer(startServer());

const bench = async (options: Parameters<typeof visit>[2] = {}) => {
  const visited = await visit(browser, `${server.address}/#/tank-bench`, options);
  await visited.page.getByText("is expected to draw").waitFor();
  return visited;
};

const openFolds = (page: Page) =>
  page.locator("details").evaluateAll((folds) => {
    for (const fold of folds) (fold as HTMLDetailsElement).open = true;
  });

describe.each(["sun", "normal", "night"])("in the %s light", (theme) => {
  test.each(Object.keys(sizes) as (keyof typeof sizes)[])(
    "on a %s the bench and its templates break nothing of WCAG 2.2 AA and do not scroll sideways",
    async (size) => {
      const { page, troubles } = await bench({ theme, size });
      await openFolds(page);
      await page.getByRole("button", { name: "Add a well tank" }).click();
      expect(await violations(page), "bench").toEqual([]);
      expect(await tooWideBy(page), "bench").toBeLessThanOrEqual(0);
      await page.getByRole("button", { name: "Full-size templates" }).click();
      await page.getByRole("heading", { name: "Templates, full size" }).waitFor();
      expect(await violations(page), "templates").toEqual([]);
      expect(await tooWideBy(page), "templates").toBeLessThanOrEqual(0);
      expect(troubles).toEqual([]);
      await page.context().close();
    },
  );
});

test("wherever the page is scrolled to, nothing lies over a field, nor over the one that is typed in", async () => {
  const { page } = await bench({ size: "phone" });
  await openFolds(page);
  const end = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
  for (const part of [0, 0.13, 0.29, 0.47, 0.71, 1]) {
    await page.evaluate((y) => scrollTo(0, y), part * end);
    expect(await violations(page), `at ${part}`).toEqual([]);
  }
  for (const field of await page.locator(".bench-inputs input[type=text]").all()) {
    await field.focus();
    const free = await field.evaluate((one) => {
      const strip = document.querySelector(".bench-strip")?.getBoundingClientRect();
      const own = one.getBoundingClientRect();
      return strip !== undefined && (own.bottom <= strip.top || own.top >= strip.bottom);
    });
    expect(free, (await field.getAttribute("id")) ?? "").toBe(true);
  }
  await page.context().close();
});

test("a cleading of bright metal is chosen, and its loss is told with the plan still one to keep", async () => {
  const { page } = await bench();
  await openFolds(page);
  const lost = page.locator(".figure-group", { hasText: "W lost as lagged" }).locator("p.hint").first();
  const before = await lost.textContent();
  await page.getByLabel("Cleading is").selectOption({ label: "bright brass" });
  await page.getByText("a boiler in bright brass cleading").waitFor();
  expect(await lost.textContent()).not.toBe(before);
  expect(await page.getByText("Not reckoned yet.").count()).toBe(0);
  await page.getByRole("button", { name: "0.14: pine" }).click();
  expect(await page.getByRole("textbox", { name: "Lagging conducts" }).inputValue()).toBe("0.14");
  await page.context().close();
});

test("no text of the bench is smaller than 14 px", async () => {
  const { page } = await bench({ size: "phone" });
  await openFolds(page);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("main *")].flatMap((element) => {
      const own = [...element.childNodes].some(
        (node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? "").trim() !== "",
      );
      const size = Number.parseFloat(getComputedStyle(element).fontSize);
      return own && size < 13.99 ? [`${size} px: ${element.textContent}`] : [];
    }),
  );
  expect(small).toEqual([]);
  await page.context().close();
});

test("a new user plans, finds a length, keeps the plan, opens it again and sets another beside it", async () => {
  const { page, troubles } = await bench();
  const lead = page.locator("p.lead");
  await page.getByRole("textbox", { name: "Length of the run laps" }).fill("20");
  await lead.getByText("For 20 laps").waitFor();
  await page.getByRole("textbox", { name: "Loading gauge, whole width" }).fill("9 ft 6 in");
  await page.getByText("95.00 mm").waitFor();
  await page.getByLabel("Size to be found").selectOption({ label: "least height of tank 1" });
  await lead.getByText("enough").waitFor();
  await page.getByLabel("Name of this plan").fill("Twenty laps");
  await page.getByRole("button", { name: "Keep the plan" }).click();
  await page.getByText("Kept: Twenty laps").waitFor();

  await page.getByRole("slider", { name: "Length of the run, slider" }).fill("60");
  await lead.getByText("For 60 laps").waitFor();
  await page.getByLabel("Compare it with").selectOption("Twenty laps");
  const table = page.getByRole("table", { name: "Two plans beside each other" });
  expect(await table.getByRole("row").count()).toBe(12);
  expect(await table.getByRole("row", { name: "planned run 60 laps 20 laps" }).count()).toBe(1);
  expect(await table.getByRole("columnheader", { name: "Twenty laps" }).count()).toBe(1);

  await page.reload();
  // what was not kept under a name goes on where it was
  await lead.getByText("For 60 laps").waitFor();
  await page.getByRole("button", { name: "Open Twenty laps" }).click();
  await lead.getByText("For 20 laps").waitFor();
  expect(await page.getByRole("textbox", { name: "Loading gauge, whole width" }).inputValue()).toBe(
    "9 ft 6 in",
  );
  await page.getByRole("button", { name: "Begin a new plan" }).click();
  await lead.getByText("For 30 laps").waitFor();
  expect(await page.getByLabel("Name of this plan").inputValue()).toBe("");
  await page.getByRole("button", { name: "Take out Twenty laps" }).click();
  await page.getByText("Taken out: Twenty laps").waitFor();
  await page.getByRole("button", { name: "Put it back" }).click();
  await page.getByText("Put back: Twenty laps").waitFor();
  await page.reload();
  await page.getByRole("button", { name: "Open Twenty laps" }).waitFor();
  expect(troubles).toEqual([]);
  await page.context().close();
});

test("what is no length is said at its field, and the figures stay as they were", async () => {
  const { page } = await bench();
  const before = await page.locator("p.lead").textContent();
  await page.getByRole("textbox", { name: "Height outside" }).fill("tall");
  await page.getByText("Not reckoned yet.").waitFor();
  expect(await page.locator("p.lead").textContent()).toBe(before);
  await page.getByRole("textbox", { name: "Height outside" }).fill("1 1/4 in");
  await page.getByText("31.75 mm").waitFor();
  expect(await page.getByText("Not reckoned yet.").count()).toBe(0);
  await page.context().close();
});

test("an odd scale is typed, and what is no scale is said at its field", async () => {
  const { page } = await bench();
  const scale = page.getByRole("combobox", { name: "Scale" });
  await scale.fill("1:1000");
  await page.getByText("Wanted: a scale from 1:250 to 1:1").waitFor();
  await scale.fill("11 mm to the foot");
  await page.getByText("99.00 mm").waitFor();
  expect(await page.getByText("Not reckoned yet.").count()).toBe(0);
  await page.context().close();
});

test("nothing stands blank between the parts of the bench, in sight or out of it", async () => {
  const { page } = await bench({ size: "phone" });
  const gaps = await page.evaluate(() => {
    const parts = [...document.querySelectorAll(".bench-part, .bench-results > .figure-group")];
    return parts.flatMap((part) => {
      const shown = [...part.children].map((child) => child.getBoundingClientRect().bottom);
      const blank = part.getBoundingClientRect().bottom - Math.max(...shown);
      return Math.abs(blank) > 40 ? [`${part.className}: ${blank} px`] : [];
    });
  });
  expect(gaps).toEqual([]);
  await page.context().close();
});

/** Farthest that a line of the plan is from one of the PDF, mm. */
function farthest(from: readonly [number, number], to: readonly [number, number], drawn: readonly PdfLine[]) {
  const distance = (a: readonly [number, number], b: readonly [number, number]) =>
    Math.hypot(a[0] - b[0], a[1] - b[1]);
  return Math.min(
    ...drawn.flatMap(({ fromMm, toMm }) => [
      Math.max(distance(from, fromMm), distance(to, toMm)),
      Math.max(distance(from, toMm), distance(to, fromMm)),
    ]),
  );
}

test("templates printed to PDF measure true: every cut line and the scale bar within 0.1 mm on paper", async () => {
  const { page } = await bench({ theme: "night" });
  const [engine] = (await server.ask("/api/locomotives")) as Locomotive[];
  if (engine === undefined) throw new Error("the demonstration has no engine");
  const { tanks } = blankPlan(engine);
  if (tanks === undefined) throw new Error("a blank plan has tanks");
  const layout = layoutOf(tanks, undefined, engine.boiler.outerDiameterMm);
  const expected = templatePages(piecesOf(engine, layout));
  await page.getByRole("button", { name: "Full-size templates" }).click();
  await page.getByRole("button", { name: `Print ${expected.length} pages` }).waitFor();
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  expect((pdf.toString("latin1").match(/\/Type\s*\/Page\b/g) ?? []).length).toBe(expected.length);
  expect(pdf.toString("latin1")).toMatch(/\/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]/);
  const drawn = pdfPages(pdf);
  expect(drawn).toHaveLength(expected.length);
  let lines = 0;
  let worst = 0;
  expected.forEach(({ items }, i) => {
    for (const item of items) {
      if (item.kind !== "line" || !["cut", "register"].includes(item.stroke)) continue;
      const ring = item.closed ? [...item.points, ...item.points.slice(0, 1)] : item.points;
      ring.slice(1).forEach(([x, y], p) => {
        const [fromX, fromY] = ring[p] ?? [Number.NaN, Number.NaN];
        const away = farthest([fromX, A4.heightMm - fromY], [x, A4.heightMm - y], drawn[i] ?? []);
        worst = Math.max(worst, away);
        lines += 1;
      });
    }
    const bars = (drawn[i] ?? []).filter(({ fromMm, toMm }) => {
      const length = Math.hypot(toMm[0] - fromMm[0], toMm[1] - fromMm[1]);
      return Math.abs(length - SCALE_BAR_MM) < 0.1 && Math.abs(fromMm[1] - toMm[1]) < 0.01;
    });
    expect(bars.length).toBeGreaterThanOrEqual(1);
  });
  expect(lines).toBeGreaterThan(80);
  console.log(`templates: ${lines} lines, farthest ${worst.toFixed(3)} mm`);
  expect(worst).toBeLessThan(0.1);
  await page.context().close();
});
