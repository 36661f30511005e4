import axe from "axe-core";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { tooWideBy } from "../support/browser-page.ts";
import { beginSteaming, bounceOver } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());

const screens = {
  "phone upright": { width: 390, height: 844 },
  "phone under its browser's bars": { width: 390, height: 664 },
  "phone on its side": { width: 844, height: 390 },
  tablet: { width: 820, height: 1180 },
};

/** What writes something down, or mends or takes back what was written. */
const CAPTURE_PX = 96;
const LAP_PX = 120;
/** All else that is touched while recording. */
const OTHER_PX = 64;
const GAP_PX = 12;
/** Layout is in fractions of a pixel. */
const ROUNDING_PX = 0.01;

/** Keys of an open pad that nobody sees without moving it. */
const keysOutOfSight = (page: Page) =>
  page.locator(".overlay.pad .key:visible").evaluateAll((keys) =>
    keys.flatMap((key) => {
      const { top, left, right, bottom } = key.getBoundingClientRect();
      const isSeen = top >= 0 && left >= 0 && right <= innerWidth + 0.5 && bottom <= innerHeight + 0.5;
      return isSeen ? [] : [`${key.textContent} (to ${bottom.toFixed(0)} of ${innerHeight})`];
    }),
  );

/** All that can be tapped, of what lies open over the page first. */
const targets = (page: Page) =>
  page.evaluate(() => {
    const top = document.querySelector(".lock, .overlay") ?? document.querySelector(".footplate");
    const all = top?.querySelectorAll(
      "button, a[href], select, textarea, input:not([type=radio]), label:has(input[type=radio]), .glass",
    );
    const drawn = [...(all ?? [])].filter((element) => element.getClientRects().length > 0);
    return drawn.map((element) => {
      const { x, y, width, height, bottom } = element.getBoundingClientRect();
      // what is known may scroll, and on a short screen what is asked: only what shows of it can be tapped
      const known = element.closest(".known, .asides")?.getBoundingClientRect();
      const shows = known === undefined ? height : Math.min(bottom, known.bottom) - Math.max(y, known.top);
      return {
        name: element.textContent ?? "",
        isLap: element.classList.contains("lap"),
        isCapture: element.matches(".key, .glass"),
        isDoing: element.closest(".doing") !== null,
        isAside: element.closest(".asides") !== null,
        x,
        y,
        width,
        height,
        shows,
      };
    });
  });
type Target = Awaited<ReturnType<typeof targets>>[number];

/** The clear space between two: along the axis on which they are farther apart. */
const gap = (a: Target, b: Target): number =>
  Math.max(
    Math.max(a.x, b.x) - Math.min(a.x + a.width, b.x + b.width),
    Math.max(a.y, b.y) - Math.min(a.y + a.shows, b.y + b.shows),
  );

const leastPx = ({ isLap, isCapture }: Target) => (isLap ? LAP_PX : isCapture ? CAPTURE_PX : OTHER_PX);

async function measured(page: Page, where: string): Promise<Target[]> {
  const found = await targets(page);
  expect(found.length, where).toBeGreaterThan(0);
  for (const [i, one] of found.entries()) {
    expect(one.width, `${where}: width of ${one.name}`).toBeGreaterThanOrEqual(leastPx(one) - ROUNDING_PX);
    const seen = one.isAside ? one.shows : one.height;
    expect(seen, `${where}: height of ${one.name}`).toBeGreaterThanOrEqual(leastPx(one) - ROUNDING_PX);
    for (const other of one.shows > 0 ? found.slice(i + 1).filter(({ shows }) => shows > 0) : []) {
      const between = `${where}: between ${one.name} and ${other.name}`;
      expect(gap(one, other), between).toBeGreaterThanOrEqual(GAP_PX - ROUNDING_PX);
    }
  }
  return found;
}

/** The whole of what the alarm says, with the words to look at the glass, and nothing over it. */
async function alarmInSight(page: Page, where: string): Promise<void> {
  const seen = await page.evaluate(() => {
    const alarms = document.querySelector(".alarms");
    if (alarms === null) return null;
    const all = document.createRange();
    all.selectNodeContents(alarms);
    const lines = [...all.getClientRects()].filter(({ width }) => width > 1);
    const covered = lines.filter(({ left, right, top, bottom }) =>
      [left + 0.5, right - 0.5].some((x) => {
        const at = [top + 1, bottom - 1].map((y) => document.elementFromPoint(x, y));
        return at.some((element) => element === null || !alarms.contains(element));
      }),
    );
    return { words: alarms.textContent, lines: lines.length, covered: covered.length };
  });
  expect(seen, where).toMatchObject({ covered: 0 });
  expect(seen?.lines, where).toBeGreaterThan(0);
  expect(seen?.words, where).toContain("Look at the glass.");
}

/** The bidding to look at the glass, where no alarm says it: on its first line whole, where nobody has scrolled. */
async function lookInSight(page: Page, where: string): Promise<void> {
  const isSeen = await page.evaluate(() => {
    scrollTo(0, 0);
    document.querySelector(".known")?.scrollTo(0, 0);
    const outlook = document.querySelector(".outlook") as Element;
    const words = document.createTreeWalker(outlook, NodeFilter.SHOW_TEXT);
    while (words.nextNode()) {
      const text = words.currentNode as Text;
      const from = text.data.indexOf("Look at the glass.");
      if (from === -1) continue;
      const range = document.createRange();
      range.setStart(text, from);
      range.setEnd(text, from + 18);
      return [...range.getClientRects()].every(({ left, right, top, height }) =>
        [left + 1, right - 1].every((x) => outlook.contains(document.elementFromPoint(x, top + height / 2))),
      );
    }
    return false;
  });
  expect(isSeen, where).toBe(true);
}

/** Each reading and its name whole, with nothing over them, and each age that is told, where nobody has scrolled. */
async function readingsInSight(page: Page, where: string): Promise<void> {
  const hidden = await page.evaluate(() => {
    // axe does
    scrollTo(0, 0);
    document.querySelector(".known")?.scrollTo(0, 0);
    const cells = [...document.querySelectorAll(".readings-now > div")];
    const parts = cells.flatMap((cell) => [...cell.querySelectorAll("dt, .reading, .age")]);
    const covered = parts.filter((part) => {
      const isAge = part.classList.contains("age");
      if (isAge && part.getClientRects().length === 0) return false;
      const text = document.createRange();
      text.selectNodeContents(part);
      const lines = [...text.getClientRects()].filter(({ width }) => width > 1);
      const isCovered = ({ left, right, top, height }: DOMRect) =>
        [left + 2, (left + right) / 2, right - 2].some((x) => {
          const at = document.elementFromPoint(x, top + height / 2);
          return at === null || !(part.contains(at) || at.contains(part));
        });
      return lines.length === 0 || lines.some(isCovered);
    });
    return covered.map((part) => part.textContent);
  });
  expect(hidden, `readings out of sight: ${where}`).toEqual([]);
}

const contrastOnly = ["color-contrast"];
const guidelines = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** @param wanted rules or tags @param enhanced contrast of 7:1, as read in full sun */
async function withoutViolations(
  page: Page,
  where: string,
  whole: boolean,
  enhanced: boolean,
): Promise<void> {
  const rules = enhanced ? [...contrastOnly, "color-contrast-enhanced"] : contrastOnly;
  const options: axe.RunOptions = whole
    ? { runOnly: guidelines, rules: enhanced ? { "color-contrast-enhanced": { enabled: true } } : {} }
    : { runOnly: { type: "rule", values: rules } };
  const found = await page.evaluate(async (how) => {
    const { violations } = await (window as unknown as { axe: typeof axe }).axe.run(how);
    return violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(" | ")}`,
    );
  }, options);
  expect(found, where).toEqual([]);
}

describe.each(["sun", "normal", "night"])("in the %s light", (theme) => {
  test.each(Object.entries(screens))(
    "on a %s what is tapped is large and apart in every state, never moves, nothing runs off the side, and axe finds nothing",
    async (name, viewport) => {
      const context = await browser.newContext({ viewport });
      context.setDefaultTimeout(15_000);
      await context.addInitScript((chosen) => {
        localStorage.setItem("lapwater.theme", JSON.stringify([chosen]));
      }, theme);
      const page = await context.newPage();
      // contrast is measured everywhere; all else that axe looks at in one light on every screen and once in each other
      const whole = theme === "normal" || name === "phone upright";
      const look = async (where: string) => {
        const found = await measured(page, where);
        await withoutViolations(page, where, whole, theme === "sun");
        expect(await tooWideBy(page), where).toBeLessThanOrEqual(0);
        expect(await keysOutOfSight(page), `${where}: keys of the pad beyond the screen`).toEqual([]);
        return found;
      };
      const opened = (heading: RegExp) =>
        page.locator(".overlay").filter({ has: page.getByRole("heading", { name: heading }) });
      const sheet = async (key: string, heading: RegExp) => {
        await page.keyboard.press(key);
        await opened(heading).waitFor();
      };
      const back = async () => {
        await page.keyboard.press("Escape");
        await page.locator(".overlay").waitFor({ state: "detached" });
      };
      const type = async (key: string, heading: RegExp, digits: string) => {
        await sheet(key, heading);
        await page.keyboard.type(digits);
        await page.keyboard.press("Enter");
        await page.locator(".overlay").waitFor({ state: "detached" });
      };

      const id = await beginSteaming(page, server.address);
      await page.evaluate(axe.source);
      const later: string[] = [];
      page.on("request", (request) => {
        if (request.resourceType() === "script") later.push(request.url());
      });
      const bare = (await look("the Footplate")).filter(({ isDoing }) => isDoing);
      expect(bare.length).toBe(9);
      // under a browser's bars what is done takes more than half of the screen
      const isTall = viewport.height > 800;
      for (const { name: which, y, height } of isTall ? bare : []) {
        expect(y + height / 2, `the middle of ${which}`).toBeGreaterThanOrEqual(viewport.height / 2);
      }
      /** in whatever state, what is done stands where the thumb found it first */
      const unmoved = async (where: string) => {
        const now = (await look(where)).filter(({ isDoing }) => isDoing);
        const place = ({ x, y, width, height }: Target) => [x, y, width, height];
        expect(now.map(place), where).toEqual(bare.map(place));
      };

      await page.keyboard.press("l");
      await page.locator(".water-question").waitFor();
      await unmoved("asked how high the water is");
      await readingsInSight(page, "asked how high the water is");
      await lookInSight(page, "asked how high the water is");
      await type("p", /^Pressure/, "4.6");
      await page.getByText("Far above working pressure.").waitFor();
      await unmoved("far above working pressure, and asked how high the water is");
      await readingsInSight(page, "far above working pressure, and asked how high the water is");
      await page.keyboard.press("z");
      await page.locator(".alarms").waitFor({ state: "detached" });
      await page.getByRole("button", { name: "Not now" }).click();
      await sheet("p", /^Pressure/);
      await look("Pressure");
      await back();
      for (const [i, way] of ["on the glass", "in quarters", "in figures"].entries()) {
        await sheet("w", /^Water/);
        await page.getByRole("button", { name: way }).click();
        await look(`Water ${way}`);
        if (i < 2) await back();
      }
      await page.keyboard.type("12.");
      await look("Water, a number typed");
      await page.getByRole("button", { name: "Keep", exact: true }).click();
      await page.locator(".overlay").waitFor({ state: "detached" });
      await unmoved("with an undo offered");
      await sheet("f", /^Feed/);
      await look("Feed");
      await bounceOver(page);
      await page
        .locator(".overlay .meaning")
        .filter({ hasText: "injector" })
        .or(page.locator(".others:visible"))
        .last()
        .click();
      await bounceOver(page);
      if (!(await page.locator(".by-tens").isVisible()))
        await page.locator(".overlay .meaning").filter({ hasText: "injector" }).click();
      await page.locator(".by-tens").waitFor();
      await look("Feed, about how much");
      await bounceOver(page);
      await page.locator(".by-tens .key").getByText("120", { exact: true }).click();
      await page.locator(".by-tens .key").getByText("129", { exact: true }).waitFor();
      await look("Feed, exactly");
      await back();
      await sheet("u", /^Fuel/);
      await look("Fuel");
      await page.keyboard.type("10");
      await look("Fuel, two digits typed");
      await page.keyboard.type("0");
      await page.locator(".said", { hasText: "100 ml added kept" }).waitFor();
      await sheet("v", /^Fire and valves/);
      await look("Valves");
      await back();
      await sheet("d", /^Which fitting/);
      await look("Fittings");
      await page.locator(".overlay .key").first().click();
      await page.getByRole("button", { name: /^Catch its drip/ }).waitFor();
      await look("one fitting");
      await bounceOver(page);
      await page.getByRole("button", { name: /^Catch its drip/ }).click();
      await page.locator(".drip-bar").waitFor();
      await unmoved("a cup held");

      await page.keyboard.press("l");
      await page.keyboard.press("l");
      // on the shortest screen it waits for the cup
      await page.locator(".doubt-bar", { hasText: "tapped twice?" }).waitFor({ state: "attached" });
      await unmoved("a lap in doubt and a cup held");
      await bounceOver(page);
      await page.getByRole("button", { name: /^Stop: / }).click();
      await opened(/^Caught from/).waitFor();
      await look("a drip to be weighed");
      await page.keyboard.type("0.5");
      await page.keyboard.press("Enter");
      await page.locator(".drip-bar").waitFor({ state: "detached" });
      await type("p", /^Pressure/, "0.9");
      await type("p", /^Pressure/, "9.");
      await page.getByRole("button", { name: "Make it 0.9 bar" }).waitFor();
      await unmoved("a pressure in doubt, above working");
      await readingsInSight(page, "a pressure in doubt, above working");
      await type("w", /^Water/, "0.5");
      await page.getByText("Low water.").waitFor();
      await unmoved("low water");
      await alarmInSight(page, "low water");
      await page.keyboard.press("l");
      await page.keyboard.press("l");
      await page.locator(".doubt-bar").waitFor();
      await unmoved("low water and a lap in doubt");
      await readingsInSight(page, "low water and a lap in doubt");
      await alarmInSight(page, "low water and a lap in doubt");

      await sheet("n", /^Note/);
      await look("Note");
      await back();
      for (const [which, heading] of [
        ["Air", /^Air/],
        ["Boiler", /^Boiler/],
        ["Particulars", /^This steaming/],
        ["All entries", /^Written down/],
      ] as const) {
        await page.getByRole("button", { name: "More", exact: true }).click();
        await opened(/^More/).waitFor();
        if (which === "Air") await look("More");
        await bounceOver(page);
        await page.locator(".overlay .key").filter({ hasText: which }).click();
        await opened(heading).waitFor();
        await look(which);
        if (which !== "All entries") await back();
        await bounceOver(page);
      }
      await page
        .locator(".overlay")
        .getByRole("button", { name: /^Change/ })
        .first()
        .click();
      await opened(/^Change/).waitFor();
      await look("a change");
      await back();
      await bounceOver(page);
      await page.evaluate(() => {
        const { add } = IDBObjectStore.prototype;
        Object.assign(window, { lapwaterTestAdd: add });
        IDBObjectStore.prototype.add = () => {
          throw new DOMException("no room", "QuotaExceededError");
        };
      });
      await page.keyboard.press("l");
      await page.locator(".unkept-bar").waitFor();
      await unmoved("an entry that could not be kept");
      await page.getByRole("button", { name: "More", exact: true }).click();
      await bounceOver(page);
      await page.locator(".overlay .key").filter({ hasText: "All entries" }).click();
      await page.locator(".overlay .not-kept").waitFor();
      await look("an entry that could not be kept, in the list");
      await bounceOver(page);
      await page.evaluate(() => {
        const { lapwaterTestAdd } = window as unknown as { lapwaterTestAdd: IDBObjectStore["add"] };
        IDBObjectStore.prototype.add = lapwaterTestAdd;
      });
      await page
        .locator(".overlay")
        .getByRole("button", { name: /^Keep it again/ })
        .click();
      await page.locator(".overlay .not-kept").waitFor({ state: "detached" });
      await back();
      await bounceOver(page);
      await page.getByRole("button", { name: "More", exact: true }).click();
      await bounceOver(page);
      await page.locator(".overlay .key").filter({ hasText: "Lock" }).click();
      await page.locator(".lock").waitFor();
      await look("locked");
      await page.locator(".lock").getByRole("button", { name: "1", exact: true }).click();
      await page.locator(".lock").getByRole("button", { name: "2", exact: true }).click();
      await page.locator(".lock").getByRole("button", { name: "3", exact: true }).click();
      await server.ask(`/api/steamings/${id}`, "DELETE");
      await page.keyboard.press("l");
      await page.locator(".contact", { hasText: "refused, kept here" }).waitFor();
      await unmoved("refused by the server");
      await page.getByRole("button", { name: "More", exact: true }).click();
      await bounceOver(page);
      await page.getByRole("button", { name: "This steaming is over" }).click();
      await page.locator(".just-over").waitFor();
      await withoutViolations(page, "a steaming that is over", whole, theme === "sun");
      // with the server gone nothing more could be fetched: all of it was there from the first load on
      expect(later).toEqual([]);
      await context.close();
    },
    180_000,
  );
});
