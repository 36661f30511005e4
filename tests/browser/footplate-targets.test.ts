import axe from "axe-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openBrowser } from "../support/browser.ts";
import { tooWideBy } from "../support/browser-page.ts";
import { beginSteaming, tile } from "../support/footplate.ts";
import { type RestartableServer, restartableServer } from "../support/restartable-server.ts";

let browser: Browser;
let server: RestartableServer;
beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), restartableServer()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const screens = {
  "phone upright": { width: 390, height: 844 },
  "phone on its side": { width: 844, height: 390 },
  tablet: { width: 820, height: 1180 },
};

const TARGET_PX = 96;
const LAP_PX = 120;
const GAP_PX = 12;
/** Layout is in fractions of a pixel. */
const ROUNDING_PX = 0.01;

/** All that is tapped to write something down, with what lies open over the page first. */
const targets = (page: Page) =>
  page.evaluate(() => {
    const over = document.querySelector(".overlay");
    return [...(over ?? document).querySelectorAll(".key, .glass")].map((element) => {
      const { x, y, width, height } = element.getBoundingClientRect();
      return {
        name: element.textContent ?? "",
        isLap: element.classList.contains("lap"),
        x,
        y,
        width,
        height,
      };
    });
  });
type Target = Awaited<ReturnType<typeof targets>>[number];

/** The clear space between two: along the axis on which they are farther apart. */
const gap = (a: Target, b: Target): number =>
  Math.max(
    Math.max(a.x, b.x) - Math.min(a.x + a.width, b.x + b.width),
    Math.max(a.y, b.y) - Math.min(a.y + a.height, b.y + b.height),
  );

async function measured(page: Page, where: string): Promise<void> {
  const found = await targets(page);
  expect(found.length, where).toBeGreaterThan(0);
  for (const [i, one] of found.entries()) {
    const least = one.isLap ? LAP_PX : TARGET_PX;
    expect(one.width, `${where}: width of ${one.name}`).toBeGreaterThanOrEqual(least - ROUNDING_PX);
    expect(one.height, `${where}: height of ${one.name}`).toBeGreaterThanOrEqual(least - ROUNDING_PX);
    for (const other of found.slice(i + 1)) {
      const between = `${where}: between ${one.name} and ${other.name}`;
      expect(gap(one, other), between).toBeGreaterThanOrEqual(GAP_PX - ROUNDING_PX);
    }
  }
}

async function withoutViolations(page: Page, where: string, enhanced: boolean): Promise<void> {
  await page.evaluate(axe.source);
  const found = await page.evaluate(async (strictly) => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
    const { violations } = await (window as unknown as { axe: typeof axe }).axe.run({
      runOnly: tags,
      rules: strictly ? { "color-contrast-enhanced": { enabled: true } } : {},
    });
    return violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`,
    );
  }, enhanced);
  expect(found, where).toEqual([]);
}

describe.each(["sun", "normal", "night"])("in the %s light", (theme) => {
  test.each(Object.entries(screens))(
    "on a %s what is tapped is large and apart, nothing runs off the side, and axe finds nothing",
    async (name, viewport) => {
      const context = await browser.newContext({ viewport });
      await context.addInitScript((chosen) => {
        localStorage.setItem("lapwater.theme", JSON.stringify([chosen]));
      }, theme);
      const page = await context.newPage();
      // what axe looks at is the same on every screen but for its width: once in each light, and in one light on all
      const looks = theme === "normal" || name === "phone upright";
      const accessible = async (where: string) => {
        if (looks) await withoutViolations(page, where, theme === "sun");
        expect(await tooWideBy(page), where).toBeLessThanOrEqual(0);
      };
      await beginSteaming(page, server.address);
      const later: string[] = [];
      page.on("request", (request) => {
        if (request.resourceType() === "script") later.push(request.url());
      });
      await measured(page, "the Footplate");
      await accessible("the Footplate");
      for (const opened of ["Pressure", "Water", "Feed", "Fuel", "Valves", "Drip"]) {
        await tile(page, opened).click();
        await page.locator(".overlay").waitFor();
        await measured(page, opened);
        await accessible(opened);
        if (opened === "Water") {
          for (const way of ["in figures", "in quarters", "on the glass"]) {
            await page.getByRole("button", { name: way }).click();
            await measured(page, `${opened} ${way}`);
          }
        }
        if (opened === "Drip") {
          await page.locator(".overlay .key").first().click();
          await measured(page, "one fitting");
        }
        await page.getByRole("button", { name: "Back", exact: true }).click();
      }
      await page.getByRole("button", { name: "More", exact: true }).click();
      await measured(page, "More");
      await accessible("More");
      // with the server gone nothing more could be fetched: all of it was there from the first load on
      expect(later).toEqual([]);
      await context.close();
    },
  );
});
