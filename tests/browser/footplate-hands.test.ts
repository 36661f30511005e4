import type { Page } from "playwright-core";
import { afterEach, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { beginSteaming, bounceOver, kept, recordsOnPhone, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());
let page: Page;
afterEach(() => page.context().close());

const upright = { width: 390, height: 844 };
const onItsSide = { width: 844, height: 390 };

/** A phone on which what sounds, buzzes and keeps the screen on is counted. */
async function phone(viewport = upright): Promise<string> {
  const context = await browser.newContext({ viewport });
  context.setDefaultTimeout(15_000);
  await context.addInitScript(() => {
    const counts = { tones: 0, buzzes: 0, asked: 0, released: 0 };
    Object.assign(window, { lapwaterTestCounts: counts });
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (...given) {
      counts.tones++;
      start.apply(this, given);
    };
    Object.defineProperty(Navigator.prototype, "vibrate", {
      value: () => {
        counts.buzzes++;
        return true;
      },
    });
    Object.defineProperty(Navigator.prototype, "wakeLock", {
      value: {
        request: async () => {
          counts.asked++;
          return {
            release: async () => {
              counts.released++;
            },
          };
        },
      },
    });
  });
  page = await context.newPage();
  return beginSteaming(page, server.address);
}

interface Counts {
  tones: number;
  buzzes: number;
  asked: number;
  released: number;
}
const counts = (): Promise<Counts> =>
  page.evaluate(() => ({ ...(window as unknown as { lapwaterTestCounts: Counts }).lapwaterTestCounts }));
const standing = async (id: string) =>
  (await recordsOnPhone(page, id)).filter((record) => record.deleted !== true).map(({ entry }) => entry);
const more = async (what: string) => {
  await page.getByRole("button", { name: "More", exact: true }).click();
  await bounceOver(page);
  await page.locator(".overlay .key").filter({ hasText: what }).click();
  await bounceOver(page);
};
const choose = async (...choices: (readonly [string, string])[]) => {
  await page.getByRole("button", { name: "More", exact: true }).click();
  await bounceOver(page);
  for (const [legend, choice] of choices) {
    await page.getByRole("group", { name: legend }).getByText(choice, { exact: true }).click();
  }
  await page.keyboard.press("Escape");
  await bounceOver(page);
};
const isOpen = async () => (await page.locator(".overlay").count()) > 0;

test("a clicker's key counts one lap however long it is held, over an open pad too, and its other key undoes", async () => {
  const id = await phone();
  for (let i = 0; i < 5; i++) await page.keyboard.down("PageDown");
  await page.keyboard.up("PageDown");
  await kept(page, 1);
  await tile(page, "Pressure").click();
  await page.keyboard.press("PageDown");
  await kept(page, 2);
  expect(await isOpen()).toBe(true);
  await page.keyboard.press("Escape");
  expect(await standing(id)).toHaveLength(2);
  await page.keyboard.press("PageUp");
  await page.locator(".said", { hasText: "taken out" }).waitFor();
  expect(await standing(id)).toHaveLength(1);
});

test("a keyboard opens each pad, types once for a key that is held, and steps on for as long as an arrow is", async () => {
  const id = await phone();
  const titles = {
    p: "Pressure",
    w: "Water in the glass",
    f: "Feed",
    u: "Fuel",
    v: "Fire and valves",
    d: "Which fitting?",
    n: "Note",
  };
  for (const [key, title] of Object.entries(titles)) {
    await page.keyboard.press(key);
    await page.getByRole("heading", { name: new RegExp(`^${title.replace("?", "\\?")}`) }).waitFor();
    await page.keyboard.press("Escape");
    expect(await isOpen()).toBe(false);
  }
  await page.keyboard.press("p");
  for (let i = 0; i < 4; i++) await page.keyboard.down("1");
  await page.keyboard.up("1");
  expect(await page.locator(".display-value").textContent()).toBe("0.1");
  for (let i = 0; i < 3; i++) await page.keyboard.down("ArrowUp");
  await page.keyboard.up("ArrowUp");
  expect(await page.locator(".display-value").textContent()).toBe("0.4");
  for (let i = 0; i < 3; i++) await page.keyboard.down("Enter");
  await page.keyboard.up("Enter");
  await kept(page, 1);
  await page.keyboard.press("l");
  await kept(page, 2);
  await page.keyboard.press("z");
  await page.locator(".said", { hasText: "lap 1 taken out" }).waitFor();
  expect(await standing(id)).toMatchObject([{ kind: "pressure", barG: 0.4 }]);
});

test.each([
  ["upright", upright],
  ["on its side", onItsSide],
])(
  "locked %s, no tap and no letter writes anything, a clicker does, and only 1, 2, 3 in turn unlock",
  async (_name, viewport) => {
    const id = await phone(viewport);
    const lap = await tile(page, "Lap").boundingBox();
    const undo = await page.getByRole("button", { name: /^Undo/ }).boundingBox();
    await more("Lock");
    const known = await page.locator(".run-clock").boundingBox();
    for (const box of [lap, undo, known]) {
      if (box === null) throw new Error("not on the page");
      await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    }
    for (const key of ["l", "p", "z", "Escape"]) await page.keyboard.press(key);
    const place = (name: string) => page.locator(".lock").getByRole("button", { name, exact: true }).click();
    for (const name of ["1", "3", "2", "3", "1", "1"]) await place(name);
    expect(await page.locator(".lock").count()).toBe(1);
    expect(await standing(id)).toEqual([]);
    await page.keyboard.press("PageDown");
    await kept(page, 1);
    await place("3");
    for (const name of ["1", "2", "3"]) await place(name);
    expect(await page.locator(".lock").count()).toBe(0);
    await bounceOver(page);
    await tile(page, "Lap").click();
    await kept(page, 2);
  },
);

test("for a left hand the keys stand the other way round, and stay so", async () => {
  await phone(onItsSide);
  const middles = async () => {
    const boxes = [tile(page, "Lap"), tile(page, "Pressure"), tile(page, "Feed"), page.locator(".known")];
    const found = await Promise.all(boxes.map((box) => box.boundingBox()));
    return found.map((box) => (box === null ? Number.NaN : box.x + box.width / 2));
  };
  const [lap = 0, pressure = 0, feed = 0, known = 0] = await middles();
  expect([known < pressure, pressure < feed, feed < lap]).toEqual([true, true, true]);
  await choose(["Hand", "left"]);
  await page.reload();
  await tile(page, "Lap").waitFor();
  const [lapLeft = 0, pressureLeft = 0, feedLeft = 0, knownLeft = 0] = await middles();
  expect([lapLeft < feedLeft, feedLeft < pressureLeft, pressureLeft < knownLeft]).toEqual([true, true, true]);
});

test("a tap ticks and buzzes, an alarm sounds and buzzes, and each of them can be switched off", async () => {
  await phone();
  const during = async (act: () => Promise<unknown>) => {
    const before = await counts();
    await act();
    const after = await counts();
    return { tones: after.tones - before.tones, buzzes: after.buzzes - before.buzzes };
  };
  let said = 0;
  const lap = async () => {
    await tile(page, "Lap").click();
    await kept(page, ++said);
    await page.locator(".said", { hasText: "lap 1" }).waitFor();
  };
  const water = async (mm: string, alarm: boolean) => {
    await page.keyboard.press("w");
    await page.keyboard.type(mm);
    await page.keyboard.press("Enter");
    await kept(page, ++said);
    await page.getByText("Low water.").waitFor({ state: alarm ? "visible" : "detached" });
  };
  // with the glass and the dial read, no reading is due that would speak up besides
  await water("12.", false);
  await page.keyboard.press("p");
  await page.keyboard.type("2.5");
  await page.keyboard.press("Enter");
  await kept(page, ++said);
  expect(await during(lap)).toEqual({ tones: 1, buzzes: 1 });
  // three tones of the alarm besides the tick
  const alarmed = await during(() => water("0.5", true));
  expect(alarmed.tones).toBe(4);
  expect(alarmed.buzzes).toBeGreaterThanOrEqual(2);
  await water("12.", false);
  await choose(["Sound of alarms", "off"]);
  expect((await during(() => water("0.5", true))).tones).toBe(1);
  await choose(["Tick at a tap", "off"]);
  expect((await during(() => water("12.", false))).tones).toBe(0);
  await choose(["Buzz", "off"]);
  expect(await during(() => water("0.5", true))).toEqual({ tones: 0, buzzes: 0 });
  await choose(["Sound of alarms", "on"]);
  await water("12.", false);
  expect(await during(() => water("0.5", true))).toEqual({ tones: 3, buzzes: 0 });
});

test("the screen is kept on while the Footplate is in sight, asked for again when it comes back, and let go when it is left", async () => {
  await phone();
  await page.waitForFunction(
    () => (window as unknown as { lapwaterTestCounts: Counts }).lapwaterTestCounts.asked > 0,
  );
  const { asked } = await counts();
  await page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
  expect((await counts()).asked).toBe(asked + 1);
  const { released } = await counts();
  await page.evaluate(() => {
    location.hash = "#/shed";
  });
  await page.getByRole("heading", { name: "Shed" }).waitFor();
  expect((await counts()).released).toBe(released + 1);
});

test("undo after a change puts back what stood before, and only then takes entries out, the latest first", async () => {
  const id = await phone();
  const pressure = async (digits: string, number: number) => {
    await page.keyboard.press("p");
    await page.keyboard.type(digits);
    await kept(page, number);
  };
  await pressure("21", 1);
  await pressure("22", 2);
  await more("All entries");
  await page.getByRole("button", { name: /^Change pressure 2.1 bar/ }).click();
  await page.getByLabel(/^Pressure by the gauge/).fill("2.5");
  await page.getByRole("button", { name: "Keep the change" }).click();
  await page.locator(".said", { hasText: "corrected to pressure 2.5 bar" }).waitFor();
  const values = async () =>
    (await standing(id)).map((entry) => (entry.kind === "pressure" ? entry.barG : null));
  expect(await values()).toEqual([2.5, 2.2]);
  const undo = async (name: string, said: string) => {
    await bounceOver(page);
    await page.getByRole("button", { name }).click();
    await page.locator(".said", { hasText: said }).waitFor();
  };
  await undo("Undo change of pressure", "back to pressure 2.1 bar");
  expect(await values()).toEqual([2.1, 2.2]);
  await undo("Undo pressure", "pressure 2.2 bar taken out");
  expect(await values()).toEqual([2.1]);
  await undo("Undo pressure", "pressure 2.1 bar taken out");
  await pressure("23", 7);
  // the change and its undo have both reached the server, or will
  await page.locator(".contact", { hasText: "all sent" }).waitFor();
  const { entries } = (await server.ask(`/api/steamings/${id}`)) as { entries: { barG: number }[] };
  expect(entries.map(({ barG }) => barG)).toEqual([2.3]);
});

test.each([
  ["record", "Footplate"],
  ["view", "Shed"],
])("a code that lets a device %s leads to the %s", async (may, room) => {
  const lan = await restartableServer("--lan");
  try {
    const { code } = (await lan.ask("/api/pairing/codes", "POST", { may })) as { code: string };
    page = await (await browser.newContext({ viewport: upright })).newPage();
    await page.goto(`${lan.lanAddress}/#/pair?code=${code}`);
    await page.getByRole("button", { name: "Pair it" }).click();
    await page.getByRole("heading", { name: room, exact: true, level: 1 }).waitFor();
    expect(new URL(page.url()).hash).toBe(`#/${room.toLowerCase()}`);
  } finally {
    await lan.stop();
  }
});
