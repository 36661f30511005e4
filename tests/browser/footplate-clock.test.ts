import { expect, test } from "vitest";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import {
  allSent,
  beginSteaming,
  entriesAt,
  kept,
  pairPhone,
  recordsOnPhone,
  tile,
} from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer("--lan"));

const HOUR_MS = 3_600_000;

/** The phone's wall clock told wrong by so much from the first line of the page on; its steady clock runs as ever. */
const skewed = (byMs: number) => `{
  const right = Date.now.bind(Date);
  window.lapwaterTestSkewMs = ${byMs};
  const Real = Date;
  window.Date = class extends Real {
    constructor(...given) {
      if (given.length === 0) super(right() + window.lapwaterTestSkewMs);
      else super(...given);
    }
    static now() { return right() + window.lapwaterTestSkewMs; }
  };
}`;

test.each([
  ["an hour fast", HOUR_MS],
  ["an hour slow", -HOUR_MS],
])("a phone whose clock is %s writes the server's time, within a second", async (_name, skewMs) => {
  const context = await browser.newContext({ viewport: sizes.phone });
  await pairPhone(context, server);
  await context.addInitScript(skewed(skewMs));
  const page = await context.newPage();
  const before = Date.now();
  const id = await beginSteaming(page, server.lanAddress);
  await tile(page, "Lap").click();
  const tappedBy = Date.now();
  await kept(page, 1);
  await allSent(page);
  const { startedAt } = (await server.ask(`/api/steamings/${id}`)) as { startedAt: string };
  const [lap] = await entriesAt(server, id);
  const lapMs = Date.parse(startedAt) + 1000 * (lap?.atS ?? Number.NaN);
  expect(Date.parse(startedAt)).toBeGreaterThan(before - 1000);
  expect(Date.parse(startedAt)).toBeLessThan(tappedBy + 1000);
  expect(lapMs).toBeGreaterThan(before - 1000);
  expect(lapMs).toBeLessThan(tappedBy + 1000);
  await context.close();
});

test.each([HOUR_MS, -HOUR_MS])(
  "who looks on with a clock that is wrong by %d ms sees what is in steam, and how long ago by the server's clock",
  async (skewMs) => {
    const startedAt = new Date(Date.now() - 60_000).toISOString().replace(/\.\d+Z$/, "+00:00");
    const entries = [{ kind: "pressure", barG: 3, atS: 10 }];
    const steaming = { locomotiveId: "tansy", purpose: "trial", startedAt, entries };
    await server.ask("/api/steamings", "POST", { ...steaming, id: `looked-on-${skewMs}` });
    const context = await browser.newContext({ viewport: sizes.phone });
    await pairPhone(context, server);
    await context.addInitScript(skewed(skewMs));
    const page = await context.newPage();
    await page.goto(`${server.lanAddress}/`);
    const line = page.locator(".in-steam li p", { hasText: /3 bar, \d+ s ago/ }).first();
    await line.waitFor();
    const [, agoS] = /3 bar, (\d+) s ago/.exec((await line.textContent()) ?? "") ?? [];
    expect(Number(agoS)).toBeGreaterThanOrEqual(49);
    await context.close();
    await server.ask(`/api/steamings/looked-on-${skewMs}`, "DELETE");
  },
);

test("a clock that is set while the server is away is noticed, and what was tapped before and after it keeps its true time", async () => {
  const context = await browser.newContext({ viewport: sizes.phone });
  await pairPhone(context, server);
  await context.addInitScript(skewed(0));
  const page = await context.newPage();
  const id = await beginSteaming(page, server.lanAddress);
  await allSent(page);
  await context.setOffline(true);
  await tile(page, "Lap").click();
  const firstBy = Date.now();
  await kept(page, 1);
  await page.evaluate((ms) => {
    (window as unknown as { lapwaterTestSkewMs: number }).lapwaterTestSkewMs = ms;
  }, -HOUR_MS);
  await tile(page, "Lap").click();
  const secondBy = Date.now();
  await kept(page, 2);
  await context.setOffline(false);
  await allSent(page);
  const { startedAt } = (await server.ask(`/api/steamings/${id}`)) as { startedAt: string };
  const atMs = (await entriesAt(server, id)).map((entry) => Date.parse(startedAt) + 1000 * entry.atS);
  expect(atMs.length).toBe(2);
  expect(Math.abs((atMs[0] ?? 0) - firstBy)).toBeLessThan(1000);
  expect(Math.abs((atMs[1] ?? 0) - secondBy)).toBeLessThan(1000);
  const raw = (await recordsOnPhone(page, id)) as unknown as { raw: { phoneMs: number; epoch: string } }[];
  expect((raw[0]?.raw.phoneMs ?? 0) - (raw[1]?.raw.phoneMs ?? 0)).toBeGreaterThan(HOUR_MS - 60_000);
  expect(raw[0]?.raw.epoch).not.toBe(raw[1]?.raw.epoch);
  await context.close();
});

test.each([
  ["20 min behind", -20, "back by 20 min"],
  ["an hour ahead", 60, "ahead by 60 min"],
])(
  "a server that comes back %s tears no steaming in two: times go on by the phone's clock, over a reload too, and it is said",
  async (_name, aheadMin, said) => {
    const context = await browser.newContext({ viewport: sizes.phone });
    await pairPhone(context, server);
    const page = await context.newPage();
    const id = await beginSteaming(page, server.lanAddress);
    await tile(page, "Lap").click();
    const firstMs = Date.now();
    await allSent(page);
    await server.kill();
    await server.start(aheadMin * 60_000);
    await page.locator(".contact", { hasText: `server's clock was set ${said}` }).waitFor();
    await tile(page, "Lap").click();
    const apartS = (Date.now() - firstMs) / 1000;
    await kept(page, 2);
    await allSent(page);
    const [first, second] = await entriesAt(server, id);
    expect(Math.abs((second?.atS ?? Number.NaN) - (first?.atS ?? Number.NaN) - apartS)).toBeLessThan(1);
    expect(await page.locator(".run-clock").textContent()).toMatch(/^0:/);
    // nor does a page that is loaded anew
    await page.reload();
    await page.locator(".contact", { hasText: `server's clock was set ${said}` }).waitFor();
    await tile(page, "Lap").click();
    const laterS = (Date.now() - firstMs) / 1000;
    await kept(page, 1);
    await allSent(page);
    const third = (await entriesAt(server, id))[2];
    expect(Math.abs((third?.atS ?? Number.NaN) - (first?.atS ?? Number.NaN) - laterS)).toBeLessThan(1);
    expect(await page.locator(".run-clock").textContent()).toMatch(/^0:/);
    await context.close();
    await server.kill();
    await server.start();
  },
);
