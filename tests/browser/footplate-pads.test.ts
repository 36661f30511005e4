import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterEach, expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { bounceOver, kept, recordsOnPhone, tapBegin, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());
let page: Page;
afterEach(() => page.context().close());

async function phone(): Promise<string> {
  const context = await browser.newContext({ viewport: sizes.phone });
  context.setDefaultTimeout(15_000);
  page = await context.newPage();
  await page.goto(`${server.address}/#/footplate`);
  // whatever purpose the last one had
  await page.getByLabel("Purpose").selectOption("trial");
  return tapBegin(page);
}

const standing = async (id: string) =>
  (await recordsOnPhone(page, id)).filter((record) => record.deleted !== true).map(({ entry }) => entry);
const overlays = () => page.locator(".overlay").count();
const key = (name: string | RegExp) => page.locator(".overlay .key").filter({ hasText: name });
const shown = () => page.locator(".display-value").textContent();

test("the third figure keeps an amount as what is usual, which is said before and after, and an undo takes it out", async () => {
  const id = await phone();
  await tile(page, "Feed").click();
  await page.keyboard.type("12");
  await page.locator(".display", { hasText: "filled, cold; the next digit keeps it" }).waitFor();
  expect(await overlays()).toBe(1);
  await page.keyboard.type("0");
  await kept(page, 1);
  await page.locator(".said", { hasText: "fill, cold 120 ml kept" }).waitFor();
  expect(await standing(id)).toMatchObject([{ kind: "fill", ml: 120 }]);
  await page.getByRole("button", { name: "Undo fill" }).click();
  await kept(page, 2);
  expect(await standing(id)).toEqual([]);
});

test("what is not usual is kept by its key after two figures, or chosen by its ten and then alone, and may be typed after all", async () => {
  const id = await phone();
  await page.keyboard.press("f");
  await page.keyboard.type("20");
  await key("bottle").click();
  await kept(page, 1);
  await bounceOver(page);
  await page.keyboard.press("f");
  await key("drained").click();
  await page.locator(".by-tens-of", { hasText: "drained ml, about" }).waitFor();
  await bounceOver(page);
  await key(/^120$/).click();
  await bounceOver(page);
  await key("Back").click();
  await bounceOver(page);
  await key(/^130$/).click();
  await bounceOver(page);
  await key(/^134$/).click();
  await kept(page, 2);
  await bounceOver(page);
  await page.keyboard.press("u");
  await key("left").click();
  await page.keyboard.type("115");
  await kept(page, 3);
  await bounceOver(page);
  await page.keyboard.press("u");
  await key("left").click();
  await bounceOver(page);
  // nothing is kept that is out of sight
  await page.keyboard.press("Enter");
  expect(await overlays()).toBe(1);
  await key("Type it").click();
  await page.locator(".display", { hasText: "left" }).waitFor();
  await page.keyboard.type("9");
  await page.keyboard.press("Enter");
  await kept(page, 4);
  expect(await standing(id)).toMatchObject([
    { kind: "feed", by: "bottle", ml: 20 },
    { kind: "drained", ml: 134 },
    { kind: "fuel", action: "remaining", ml: 115 },
    { kind: "fuel", action: "remaining", ml: 9 },
  ]);
});

test("a state that was not noted yet can be noted either way, and one that was noted wrongly can be noted again", async () => {
  const id = await phone();
  const states = [
    ["By-pass open", { kind: "bypass", state: "open" }],
    ["Regulator shut", { kind: "regulator", state: "shut" }],
    ["Blower off", { kind: "blower", state: "off" }],
    ["Valve reseats", { kind: "valve", state: "reseats" }],
    ["By-pass shut", { kind: "bypass", state: "shut" }],
  ] as const;
  for (const [i, [name]] of states.entries()) {
    await page.keyboard.press("v");
    await key(name).click();
    await kept(page, i + 1);
    await bounceOver(page);
  }
  expect(await standing(id)).toMatchObject(states.map(([, state]) => state));
});

test("a clicker counts its laps whatever lies open, a text being written too, and says so in sight", async () => {
  const id = await phone();
  let laps = 0;
  const click = async () => {
    await page.keyboard.press("PageDown");
    await kept(page, ++laps);
    await page.locator(".said-over", { hasText: `lap ${laps} kept` }).waitFor();
  };
  await page.getByRole("button", { name: "More", exact: true }).click();
  await click();
  await bounceOver(page);
  await key("All entries").click();
  await click();
  await page
    .getByRole("button", { name: /^Change lap/ })
    .first()
    .click();
  await click();
  await page.keyboard.press("Escape");
  await page.keyboard.press("n");
  await page.getByLabel("What is worth remembering").fill("a gust");
  await click();
  expect(await page.getByLabel("What is worth remembering").inputValue()).toBe("a gust");
  expect(await standing(id)).toHaveLength(4);
});

test("a clicker's other key takes back laps alone, and says what else stands in the way", async () => {
  const id = await phone();
  await page.keyboard.press("p");
  await page.keyboard.type("21");
  await kept(page, 1);
  await page.keyboard.press("PageDown");
  await kept(page, 2);
  await page.keyboard.press("PageUp");
  await page.locator(".said", { hasText: "lap 1 taken out" }).waitFor();
  await bounceOver(page);
  await page.keyboard.press("PageUp");
  await page.locator(".said", { hasText: "pressure 2.1 bar came last: Undo or Z takes it back" }).waitFor();
  expect(await standing(id)).toMatchObject([{ kind: "pressure", barG: 2.1 }]);
});

test("after a key of the pad was tapped, Enter keeps the number", async () => {
  const id = await phone();
  await tile(page, "Water").click();
  await bounceOver(page);
  await page.getByRole("button", { name: "in figures" }).click();
  await page.keyboard.type("12.");
  await page.keyboard.press("Enter");
  await kept(page, 1);
  expect(await standing(id)).toMatchObject([{ kind: "level", mm: 12 }]);
});

test("in quarters one tap keeps how the water was read, out of sight too; the way out lies beside, and under the glass", async () => {
  const id = await phone();
  const readings = [
    ["Three quarters", "read in quarters of the glass"],
    ["A quarter", "read in quarters of the glass"],
    ["Out of sight, below", "water out of sight below the glass"],
    ["Out of sight, above", "water out of sight above the glass"],
  ] as const;
  await page.keyboard.press("w");
  await page.getByRole("button", { name: "in quarters" }).click();
  for (const [i, [name]] of readings.entries()) {
    if (i > 0) await page.keyboard.press("w");
    await key(name).click();
    await kept(page, i + 1);
    await bounceOver(page);
  }
  const levels = await standing(id);
  expect(levels).toMatchObject(readings.map(([, note]) => ({ kind: "level", note })));
  const [three, one] = levels.map((entry) => (entry.kind === "level" ? entry.mm : Number.NaN));
  expect(three).toBeGreaterThan(one ?? Number.NaN);
  for (const way of ["in quarters", "on the glass"]) {
    await page.keyboard.press("w");
    await page.getByRole("button", { name: way }).click();
    const back = page.locator(".overlay .back-key");
    const box = await back.boundingBox();
    expect(box?.y ?? 0, way).toBeGreaterThan(sizes.phone.height / 2);
    await back.click();
    expect(await overlays()).toBe(0);
    await bounceOver(page);
  }
  expect(await standing(id)).toHaveLength(readings.length);
});

test("a tap on the drawn glass, a step and Keep write the level down, all from beside the glass", async () => {
  const id = await phone();
  await tile(page, "Water").click();
  await bounceOver(page);
  const glass = await page.locator(".glass").boundingBox();
  if (glass === null) throw new Error("no glass is drawn");
  await page.mouse.click(glass.x + glass.width / 2, glass.y + glass.height / 2);
  const tapped = Number(await shown());
  await page.getByRole("button", { name: "one division more" }).click();
  expect(Number(await shown())).toBe(tapped + 0.5);
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await kept(page, 1);
  expect(await standing(id)).toMatchObject([{ kind: "level", mm: tapped + 0.5 }]);
});

test("a run that begins without any level is asked once how high the water is", async () => {
  await phone();
  const question = page.locator(".water-question");
  await page.keyboard.press("p");
  await page.keyboard.type("21");
  await kept(page, 1);
  expect(await question.count()).toBe(0);
  await page.keyboard.press("l");
  await question.getByRole("button", { name: "Read it" }).click();
  await page.getByRole("heading", { name: /^Water in the glass/ }).waitFor();
  await page.keyboard.press("Escape");
  await page.keyboard.press("l");
  await kept(page, 3);
  expect(await question.count()).toBe(0);
  await page.reload();
  await tile(page, "Lap").waitFor();
  expect(await question.count()).toBe(0);
});

test("where a level was read before the run nobody is asked for it", async () => {
  await phone();
  await page.keyboard.press("w");
  await page.keyboard.type("12.");
  await page.keyboard.press("Enter");
  await kept(page, 1);
  await page.keyboard.press("l");
  await kept(page, 2);
  expect(await page.locator(".water-question").count()).toBe(0);
});

test("a steaming said to be over by mistake goes on at one tap, above all else on the page", async () => {
  const id = await phone();
  await page.getByRole("button", { name: "More", exact: true }).click();
  await page.getByRole("button", { name: "This steaming is over" }).click();
  const bar = page.locator(".just-over");
  const [undo, begin] = [
    bar.getByRole("button", { name: "Undo" }),
    page.getByRole("button", { name: /^Begin: / }),
  ];
  expect((await undo.boundingBox())?.y).toBeLessThan((await begin.boundingBox())?.y ?? 0);
  await undo.click();
  await tile(page, "Lap").waitFor();
  expect(page.url()).toContain(id);
  await page.goto(`${server.address}/#/footplate`);
  await page.getByRole("heading", { name: "Going on" }).waitFor();
  expect(await bar.count()).toBe(0);
});

test("a steaming that was said to be over stays on the phone, is saved from there, and goes on where it stood", async () => {
  const id = await phone();
  await page.keyboard.press("l");
  await kept(page, 1);
  await page.getByRole("button", { name: "More", exact: true }).click();
  await page.getByRole("button", { name: "This steaming is over" }).click();
  const over = page.locator("section", {
    has: page.getByRole("heading", { name: "Over, kept on this phone" }),
  });
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    over.getByRole("button", { name: "Save a copy" }).click(),
  ]);
  const { steamings } = JSON.parse(readFileSync(await file.path(), "utf8"));
  expect(steamings).toMatchObject([{ id, entries: [{ kind: "lap" }] }]);
  await over.getByText("a copy with 1 entry is handed to the browser").waitFor();
  await over.getByRole("button", { name: "Go on with it" }).click();
  await tile(page, "Lap").click();
  await page.locator(".said", { hasText: "lap 2 kept" }).waitFor();
  await page.goto(`${server.address}/#/footplate`);
  await page.getByRole("heading", { name: "Going on" }).waitFor();
  expect(await over.count()).toBe(0);
});

test("a copy holds what the phone's store does not take, and says that it was saved", async () => {
  await phone();
  await page.evaluate(() => {
    IDBObjectStore.prototype.add = () => {
      throw new DOMException("no room", "QuotaExceededError");
    };
  });
  await page.keyboard.press("l");
  await page.locator(".unkept-bar").waitFor();
  await page.getByRole("button", { name: "More", exact: true }).click();
  await bounceOver(page);
  await key("All entries").click();
  await page.locator(".overlay li", { hasText: "lap 1 NOT kept: only this open page has it" }).waitFor();
  await page.keyboard.press("Escape");
  await bounceOver(page);
  await page.getByRole("button", { name: "More", exact: true }).click();
  await bounceOver(page);
  const [file] = await Promise.all([page.waitForEvent("download"), key("Save a copy").click()]);
  const { steamings } = JSON.parse(readFileSync(await file.path(), "utf8"));
  expect(steamings[0].entries).toMatchObject([{ kind: "lap" }]);
  await page.locator(".said-over", { hasText: "a copy with 1 entry" }).waitFor();
});

test("the browser's way back closes what lies open first, whatever is typed, and only then leaves the recorder", async () => {
  const id = await phone();
  const recorder = page.url();
  for (let i = 0; i < 2; i++) {
    await tile(page, "Pressure").click();
    await page.keyboard.type("4");
    await page.goBack();
    await page.locator(".overlay").waitFor({ state: "detached" });
    expect(page.url()).toBe(recorder);
    await bounceOver(page);
  }
  await tile(page, "Lap").click();
  await kept(page, 1);
  await tile(page, "Pressure").click();
  await bounceOver(page);
  // nothing typed yet: the way out lies under the thumb
  await page.locator(".digit-keys .key", { hasText: "Back" }).click();
  await page.locator(".overlay").waitFor({ state: "detached" });
  await page.goBack();
  await page.getByRole("heading", { name: "Going on" }).waitFor();
  expect(await standing(id)).toMatchObject([{ kind: "lap" }]);
});

test("digits end in the decimals of the gauge, whatever was read before: 4 is 0.4, and 40 is 4.0 and kept", async () => {
  const id = await phone();
  await page.keyboard.press("p");
  await page.keyboard.type("4");
  expect(await shown()).toBe("0.4");
  await key("Keep").click();
  await kept(page, 1);
  await bounceOver(page);
  await page.keyboard.press("p");
  await page.keyboard.type("40");
  await kept(page, 2);
  expect(await standing(id)).toMatchObject([
    { kind: "pressure", barG: 0.4 },
    { kind: "pressure", barG: 4 },
  ]);
});

test("on a laptop all that is known stands in sight above the keys, and bids to look at the glass", async () => {
  await phone();
  await page.setViewportSize(sizes.laptop);
  const glass = await page.locator(".outlook").boundingBox();
  const keys = await page.locator(".doing").boundingBox();
  expect((glass?.y ?? Number.NaN) + (glass?.height ?? Number.NaN)).toBeLessThanOrEqual(keys?.y ?? Number.NaN);
});

test("in a cold hold the strokes of the pump and the pressure they reached are tapped, and going above working pressure is no danger", async () => {
  const context = await browser.newContext({ viewport: sizes.phone });
  page = await context.newPage();
  await page.goto(`${server.address}/#/footplate`);
  await page.getByLabel("Purpose").selectOption("cold-hold");
  await page.getByRole("button", { name: /^Begin/ }).click();
  await page.locator(".key.lap").waitFor();
  const id = page.url().split("/").at(-1) ?? "";
  await tile(page, "Strokes").click();
  await page.keyboard.type("12");
  await page.keyboard.press("Enter");
  await page.getByText("12 strokes: to what pressure?").waitFor();
  await page.keyboard.type("4.5");
  await page.keyboard.press("Enter");
  await kept(page, 1);
  expect(await standing(id)).toMatchObject([{ kind: "strokes", count: 12, barG: 4.5 }]);
  await page.keyboard.press("p");
  await page.keyboard.type("4.5");
  await page.keyboard.press("Enter");
  await kept(page, 2);
  await tile(page, "Pressure").filter({ hasText: "4.5 bar" }).waitFor();
  expect(await page.locator(".alarms").count()).toBe(0);
});

/** A run of twenty laps with the glass read, put in beside the phone, and its forecast. */
async function forecast(id: string): Promise<void> {
  const course = [
    { kind: "pressure", barG: 3, atS: -700 },
    { kind: "level", mm: 14, atS: -690 },
    { kind: "regulator", state: "open", atS: -680 },
    ...Array.from({ length: 20 }, (_, i) => ({ kind: "lap", count: 1, atS: -650 + 30 * i })),
    { kind: "level", mm: 10.5, atS: -300 },
    { kind: "level", mm: 8.5, atS: -30 },
    { kind: "pressure", barG: 2.9, atS: -25 },
  ];
  for (const [i, entry] of course.entries())
    await server.ask(`/api/steamings/${id}/entries/${id}-${i}`, "PUT", entry);
  await tile(page, "Pressure").filter({ hasText: "2.9 bar" }).waitFor();
  // the phone may work it out before all of them are there
  await page.locator(".outlook .span").waitFor({ state: "attached" });
}

/** A pressure that raises an alarm and a question. */
async function alarmAndQuestion(): Promise<void> {
  await page.keyboard.press("p");
  await page.keyboard.type("9.");
  await page.keyboard.press("Enter");
  await page.locator(".alarms").waitFor();
  await page.locator(".doubt-bar").waitFor();
}

test("an alarm and a question together cut no line of the forecast in two, and leave its first", async () => {
  await forecast(await phone());
  await alarmAndQuestion();
  const { cut, whole } = await page.evaluate(() => {
    const box = document.querySelector(".outlook")?.getBoundingClientRect() as DOMRect;
    const text = document.createRange();
    text.selectNodeContents(document.querySelector(".outlook") as Element);
    const inSight = [...text.getClientRects()].filter(
      ({ left, top }) => left < box.right && top < box.bottom,
    );
    const foot = document.querySelector(".known")?.getBoundingClientRect().bottom ?? 0;
    const isWhole = ({ bottom }: DOMRect) => bottom <= Math.min(box.bottom, foot) + 1;
    return { cut: inSight.filter((line) => !isWhole(line)).length, whole: inSight.filter(isWhole).length };
  });
  expect(cut).toBe(0);
  expect(whole).toBeGreaterThan(0);
});

test("on the shortest screen the forecast ends with a whole sentence, and its minutes stand with the alarm while a question is asked", async () => {
  const id = await phone();
  await page.setViewportSize({ width: 390, height: 664 });
  await forecast(id);
  const sentences = await page.evaluate(() => {
    const box = document.querySelector(".outlook")?.getBoundingClientRect() as DOMRect;
    return [...document.querySelectorAll(".outlook-more > span")].map((sentence) => {
      const inSight = [...sentence.getClientRects()].map(
        ({ left, bottom }) => left < box.right && bottom <= box.bottom + 1,
      );
      return new Set(inSight).size === 1 ? inSight[0] : "in part";
    });
  });
  expect(sentences).toContain(true);
  expect(sentences).not.toContain("in part");
  await alarmAndQuestion();
  const left = page.locator(".alarms .alarm-left");
  const [minutes, besideAlarm] = await page.evaluate(() =>
    [".outlook .span", ".alarms .alarm-left"].map((each) => document.querySelector(each)?.textContent),
  );
  expect(minutes).toMatch(/^\d+ to \d+ min$/);
  expect(besideAlarm).toContain(`${minutes} of water.`);
  const [told, alarm, asks] = await Promise.all(
    [left, page.locator(".alarms"), page.locator(".doubt-bar")].map((each) => each.boundingBox()),
  );
  const foot = (box: typeof told) => (box?.y ?? Number.NaN) + (box?.height ?? Number.NaN);
  expect(foot(told ?? null)).toBeLessThanOrEqual(foot(alarm ?? null));
  expect(foot(alarm ?? null)).toBeLessThanOrEqual(asks?.y ?? Number.NaN);
  await page.keyboard.press("w");
  await page.keyboard.type("0.5");
  await page.keyboard.press("Enter");
  await page.getByText("Low water.").waitFor();
  // nothing is promised of water that is low
  expect(await left.count()).toBe(0);
  expect(await page.locator(".outlook").textContent()).toBe("Look at the glass.");
});

test("what a run is asked goes once it is said to be a test with cold water", async () => {
  await phone();
  await page.keyboard.press("l");
  await page.locator(".water-question").waitFor();
  await page.keyboard.press("l");
  await page.locator(".doubt-bar", { hasText: "tapped twice?" }).waitFor();
  await page.getByRole("button", { name: "More", exact: true }).click();
  await bounceOver(page);
  await key("Particulars").click();
  await page.getByLabel("Purpose").selectOption("cold-hold");
  await page.getByRole("button", { name: "Keep the change" }).click();
  await tile(page, "Strokes").waitFor();
  expect(await page.locator(".doubt-bar").count()).toBe(0);
});

test("air in frost is typed after its sign, and kept below nothing", async () => {
  const id = await phone();
  await page.getByRole("button", { name: "More", exact: true }).click();
  await bounceOver(page);
  await key("Air").click();
  await bounceOver(page);
  for (const digit of ["−", "1", "2"]) {
    await page.locator(".digit-keys .key").getByText(digit, { exact: true }).click();
    await bounceOver(page);
  }
  await kept(page, 1);
  expect(await standing(id)).toMatchObject([{ kind: "temperature", of: "ambient", celsius: -12 }]);
});
