import type { Page } from "playwright-core";
import { afterEach, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { kept } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});

interface Heard {
  hertz: number[];
  buzzes: string[];
}

const hearing = () => {
  const heard: Heard = { hertz: [], buzzes: [] };
  Object.assign(window, { lapwaterTestHeard: heard });
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (...given) {
    heard.hertz.push(this.frequency.value);
    start.apply(this, given);
  };
  Object.defineProperty(Navigator.prototype, "vibrate", {
    value: (pattern: number | number[]) => {
      heard.buzzes.push(String(pattern));
      return true;
    },
  });
};

/** A page on a steaming that goes on since so long, as its entries tell. */
async function onSteaming(id: string, sinceS: number, entries: readonly object[]): Promise<Page> {
  const startedAt = new Date(Date.now() - 1000 * sinceS).toISOString().replace(/\.\d+Z$/, "+00:00");
  await server.ask("/api/steamings", "POST", {
    id,
    locomotiveId: "tansy",
    purpose: "trial",
    startedAt,
    entries,
  });
  const context = await browser.newContext({ viewport: sizes.phone });
  await context.addInitScript(hearing);
  const page = await context.newPage();
  await page.goto(`${server.address}/#/footplate/${id}`);
  await page.locator(".key.lap").waitFor();
  return page;
}

const heardOn = (page: Page): Promise<Heard> =>
  page.evaluate(() => (window as unknown as { lapwaterTestHeard: Heard }).lapwaterTestHeard);

const TICK = 1800;
const DUE = 880;
const ALARM = [660, 990];
const marks = { danger: "M2 2H14V14H2Z", caution: "M8 1.5 15.5 14.5H0.5Z" } as const;

const lit = { atS: 0, kind: "fire", state: "lit" };
const pressure = (atS: number, barG: number) => ({ atS, kind: "pressure", barG });
const level = (atS: number, mm: number) => ({ atS, kind: "level", mm });
/** A run that has drawn the water down from 20 mm so far by its last reading, at 420 s. */
const drawnDownTo = (mm: number) => [
  lit,
  pressure(0, 3),
  { atS: 0, kind: "regulator", state: "open" },
  ...Array.from({ length: 8 }, (_, i) => level(60 * i, 20 - ((20 - mm) * i) / 7)),
  pressure(420, 3),
];

// the engine works at 3 bar, and her lowest level is 2 mm
test.each([
  ["low-water", "Low water.", "danger", 60, [lit, level(50, 2)]],
  ["reckoned-low", "Low water by the reckoning.", "danger", 610, drawnDownTo(3)],
  ["soon-low", "Water soon low.", "caution", 425, drawnDownTo(6)],
  [
    "unread",
    "Water not looked at since 1:00.",
    "caution",
    500,
    [lit, level(0, 20), level(60, 20), pressure(490, 2.9)],
  ],
  ["far-above", "Far above working pressure.", "danger", 60, [lit, pressure(50, 3.4)]],
  ["above", "Above working pressure.", "caution", 60, [lit, pressure(50, 3.1)]],
  ["falling", "Pressure falling fast.", "caution", 60, [lit, pressure(0, 3), pressure(50, 1.5)]],
] as const)(
  "%s is said in a word with its mark, sounds and buzzes, and says to look at the glass",
  async (id, word, grade, sinceS, entries) => {
    const page = await onSteaming(id, sinceS, entries);
    const alarms = page.locator(".alarms");
    await alarms.waitFor();
    expect(await alarms.textContent()).toContain(` ${word} Look at the glass.`);
    expect(await alarms.locator(".alarm-left:visible").count()).toBe(0);
    expect(await alarms.getAttribute("class")).toBe(`alarms ${grade}`);
    expect(await alarms.getAttribute("role")).toBe(grade === "danger" ? "alert" : "status");
    const drawn = alarms.locator("strong .mark path");
    expect(await drawn.count()).toBe(1);
    expect(await drawn.getAttribute("d")).toBe(marks[grade]);
    const box = await drawn.boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(10);
    // a browser gives no sound before the first touch: with it, what stands there is heard, once
    await page.keyboard.press("n");
    await page.keyboard.press("Escape");
    await expect
      .poll(async () => (await heardOn(page)).hertz.filter((each) => ALARM.includes(each)))
      .toEqual([660, 990, 660]);
    expect((await heardOn(page)).buzzes).toContain("200,100,200,100,200");
  },
);

test("where nothing is the matter there is no alarm: nothing is marked, and nothing sounds but the tick", async () => {
  const page = await onSteaming("sound", 60, [lit, level(40, 20), pressure(50, 2.9)]);
  await page.keyboard.press("l");
  await kept(page, 1);
  expect(await page.locator(".alarms").count()).toBe(0);
  expect(await heardOn(page)).toEqual({ hertz: [TICK], buzzes: ["25"] });
});

test("a first lap with nothing read says in a word that readings are due, and makes no sound of it", async () => {
  const page = await onSteaming("first-lap", 60, []);
  await page.keyboard.press("l");
  await kept(page, 1);
  await page.locator(".key.due").filter({ hasText: "Water" }).waitFor();
  expect((await heardOn(page)).hertz).toEqual([TICK]);
});

test("what is due for its whole time has a tone of its own", async () => {
  const page = await onSteaming("long-unread", 3600, [{ atS: 5, kind: "lap", count: 1 }]);
  await page.keyboard.press("n");
  await page.keyboard.press("Escape");
  await expect.poll(async () => (await heardOn(page)).hertz).toContain(DUE);
});
