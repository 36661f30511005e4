import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, BOUNCE_MS, entriesAt, kept, tapBegin, tile } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());

const season = JSON.parse(
  readFileSync(new URL("../../sample-data/demonstration.logbook.json", import.meta.url), "utf8"),
) as LogbookFile;

/** What is done at the phone, and when: an entry, or a cup that is put under a fitting. */
type Act = { atS: number; entry: Entry } | { atS: number; cupUnder: string };

/** A cup is put there as long before its entry as it was held. */
const actsOf = (entries: readonly Entry[]): Act[] =>
  entries
    .flatMap((entry): Act[] =>
      entry.kind === "drip"
        ? [
            { atS: entry.atS - entry.overS, cupUnder: entry.fitting },
            { atS: entry.atS, entry },
          ]
        : [{ atS: entry.atS, entry }],
    )
    .sort((a, b) => a.atS - b.atS);

/** A thumb that counts. */
function thumb(page: Page) {
  let taps = 0;
  const tap = async (what: ReturnType<Page["locator"]>) => {
    taps++;
    // no thumb comes down again sooner
    await page.clock.fastForward(BOUNCE_MS);
    // straight at its place: were something else in the way, that would get the tap and the entry not be kept
    await what.click({ force: true });
  };
  return {
    count: () => taps,
    tile: (name: string) => tap(tile(page, name)),
    key: (name: string | RegExp) => tap(page.locator(".overlay .key").filter({ hasText: name }).first()),
    /** of several keys of one meaning the last that begins below the number, if it goes so far */
    meaning: async (name: string, number: number) => {
      const keys = page.locator(".overlay .meaning").filter({ hasText: new RegExp(`^${name}`) });
      const begins = (await keys.allTextContents()).map((text) =>
        Number(/from ([0-9.]+)/.exec(text)?.[1] ?? 0),
      );
      const fits = (least: number) =>
        least <= number && (least === 0 || least >= TYPED || number < least + SINGLY);
      await tap(keys.nth(begins.findLastIndex(fits)));
    },
    /** by its ten and then alone */
    chosen: async (number: number) => {
      const keys = page.locator(".by-tens .digit-keys .key:not(.back-key)");
      for (const _of of ["about", "exactly"]) {
        const numbers = (await keys.allTextContents()).map(Number);
        await tap(keys.nth(numbers.findLastIndex((each) => each <= number)));
      }
    },
    digits: async (digits: string) => {
      for (const digit of digits) {
        await tap(page.locator(".digit-keys .key").getByText(digit, { exact: true }));
      }
    },
    more: () => tap(page.getByRole("button", { name: "More", exact: true })),
    stop: (name: string) => tap(page.getByRole("button", { name: `Stop: ${name}` })),
    isOpen: async () => (await page.locator(".overlay").count()) > 0,
  };
}
type Thumb = ReturnType<typeof thumb>;

const things = { regulator: "Regulator", bypass: "By-pass", blower: "Blower", fire: "Fire" } as const;
const meanings = {
  added: "put in",
  remaining: "left",
  fill: "filled",
  drained: "drained",
  blowdown: "blown down",
  "hand-pump": "hand pump",
  bottle: "bottle",
  "axle-pump": "axle pump",
  injector: "injector",
} as const;
const thermometers = { ambient: "Air", feed: "Feed water", boiler: "Boiler", flue: "Flue" } as const;

/** So many figures are typed of what is usual, and one less of what is not, whose key keeps them. */
const TYPED = 1000;
/** A further key of what is weighed is for so many grams, each alone. */
const SINGLY = 170;

/** Digits as the pad takes them: 3.6 at one decimal is 36. */
const digitsOf = (value: number, decimals: number): string =>
  String(Math.round(value * 10 ** decimals)).padStart(decimals + 1, "0");

/** Taps one entry in, as its owner would. @param last the last entry of its sort, for readings that repeat @param usual the meaning that an amount is taken for */
async function tapIn(
  hand: Thumb,
  entry: Entry,
  last: Entry | undefined,
  engine: Locomotive,
  usual: string,
): Promise<void> {
  const fittingName = (id: string) => engine.fittings.find((fitting) => fitting.id === id)?.name ?? id;
  const number = async (name: string, digits: string, same: boolean) => {
    await hand.tile(name);
    if (!same) await hand.digits(digits);
    if (await hand.isOpen()) await hand.key("Keep");
  };
  const amount = async (name: string, number: number, of: keyof typeof meanings, same = false) => {
    await hand.tile(name);
    const isTyped = number < (of === usual ? TYPED : TYPED / 10);
    if (!same && isTyped) await hand.digits(String(number));
    if (!(await hand.isOpen())) return;
    if (isTyped || same) return hand.key(meanings[of]);
    await hand.meaning(meanings[of], number);
    await hand.chosen(number);
  };
  switch (entry.kind) {
    case "lap":
      return hand.tile("Lap");
    case "pressure":
      return number(
        "Pressure",
        digitsOf(entry.barG, 1),
        last?.kind === "pressure" && last.barG === entry.barG,
      );
    case "level":
      return number("Water", digitsOf(entry.mm, 1), last?.kind === "level" && last.mm === entry.mm);
    case "feed": {
      const same = last?.kind === "feed" && last.ml === entry.ml && last.by === entry.by;
      return amount("Feed", entry.strokes ?? entry.ml, entry.by, same);
    }
    case "fill":
    case "drained":
    case "blowdown":
      return amount("Feed", entry.ml, entry.kind);
    case "fuel":
      return amount("Fuel", entry.ml ?? entry.g ?? Number.NaN, entry.action);
    case "temperature":
      await hand.more();
      await hand.key(thermometers[entry.of]);
      if (entry.of === "ambient" || entry.of === "feed") return hand.digits(String(entry.celsius));
      return hand.chosen(entry.celsius);
    case "strokes":
      await hand.tile("Strokes");
      if (last?.kind !== "strokes" || last.count !== entry.count) await hand.digits(String(entry.count));
      if (await hand.isOpen()) await hand.key("Keep");
      return hand.digits(digitsOf(entry.barG, 1));
    case "fire":
    case "regulator":
    case "bypass":
    case "blower":
      await hand.tile("Valves");
      return hand.key(`${things[entry.kind]} ${entry.state}`);
    case "valve":
      await hand.tile("Valves");
      return hand.key(`Valve ${entry.state}`);
    case "phase":
      await hand.tile("Valves");
      return hand.key(new RegExp(`^${entry.name === "shut-in" ? "shut in" : entry.name}`));
    case "look":
      await hand.tile("Drip");
      await hand.key(fittingName(entry.fitting));
      return hand.key(entry.grade);
    case "drip":
      await hand.stop(fittingName(entry.fitting));
      await hand.digits(digitsOf(entry.g, 2).replace(/^0+(?=\d)/, ""));
      return hand.key("Keep");
    default:
      throw new Error(`nothing is tapped for ${entry.kind} here`);
  }
}

/** What an amount is taken for where nobody says otherwise: the water before the fire, what is left after it, else as last time. */
function usualOf(entry: Entry, before: readonly Entry[]): string {
  const fire = before.findLast((each) => each.kind === "fire")?.state;
  if (entry.kind === "fuel") return fire === "out" ? "remaining" : "added";
  if (fire === undefined && !before.some((each) => each.kind === "fill")) return "fill";
  return fire === "out" ? "drained" : (before.findLast((each) => each.kind === "feed")?.by ?? "hand-pump");
}

/** A lap, a state or a reading that repeats: two. A new number: four, and as many again for a second one. What names its fitting besides: three. */
function mostTaps(entry: Entry, last: Entry | undefined): number {
  if (["lap", "fire", "regulator", "bypass", "blower", "valve", "phase"].includes(entry.kind)) return 2;
  if (entry.kind === "look") return 3;
  if (entry.kind === "strokes") return 8;
  const { id, atS, ...says } = entry;
  const { id: _id, atS: _atS, ...said } = last ?? entry;
  return last !== undefined && JSON.stringify(says) === JSON.stringify(said) ? 2 : 4;
}
const CUP_BEGINS = 3;

const saying = ({ id, atS, note, ...says }: Entry) => (says.kind === "drip" ? { ...says, overS: 0 } : says);

/** A demonstration's own steaming. */
function steamingOf(title: string): Steaming {
  const steaming = season.steamings.find((each) => each.title === title);
  if (steaming === undefined) throw new Error("the demonstration has changed");
  return steaming;
}

/** The same day with temperatures, and amounts of three figures of every sort: what is usual, and what is not. */
function withLargeAmounts(steaming: Steaming): Steaming {
  const { entries } = steaming;
  const fires = entries.filter((entry) => entry.kind === "fire");
  const [litS, outS] = [fires[0]?.atS ?? Number.NaN, fires.at(-1)?.atS ?? Number.NaN];
  const added: Entry[] = [
    { kind: "temperature", of: "ambient", celsius: 16, atS: litS - 40, id: "the air" },
    { kind: "temperature", of: "feed", celsius: 14, atS: litS - 30, id: "the feed water" },
    { kind: "fill", ml: 105, atS: litS - 20, id: "a second filling" },
    { kind: "fuel", action: "remaining", ml: 101, atS: litS - 10, id: "fuel before the fire" },
    { kind: "feed", by: "bottle", ml: 104, atS: litS + 60, id: "a bottle" },
    { kind: "feed", by: "bottle", ml: 116, atS: litS + 120, id: "as usual by now" },
    { kind: "feed", by: "axle-pump", ml: 112, atS: litS + 180, id: "the axle pump" },
    { kind: "feed", by: "injector", ml: 108, atS: litS + 240, id: "an injector" },
    { kind: "temperature", of: "boiler", celsius: 142, atS: litS + 250, id: "the boiler" },
    { kind: "temperature", of: "flue", celsius: 310, atS: litS + 260, id: "the flue" },
    { kind: "feed", by: "bottle", ml: 185, atS: litS + 270, id: "a large bottle" },
    { kind: "feed", by: "hand-pump", strokes: 125, ml: 125, atS: litS + 300, id: "strokes" },
    { kind: "fuel", action: "added", ml: 107, atS: litS + 310, id: "fuel under way" },
    { kind: "blowdown", ml: 103, atS: outS + 60, id: "blown down" },
    { kind: "drained", ml: 134, atS: outS + 90, id: "drained" },
    { kind: "fuel", action: "remaining", ml: 102, atS: outS + 120, id: "fuel left" },
  ];
  return { ...steaming, entries: [...entries, ...added].sort((a, b) => a.atS - b.atS) };
}

/** An engine of three litres, fired with coal: her amounts are over a litre, and what is weighed over a kilo. */
const large = (engine: Locomotive): Locomotive => ({
  ...engine,
  boiler: {
    ...engine.boiler,
    shape: { kind: "horizontal", innerDiameterMm: 120, innerLengthMm: 280 },
    glassZeroMm: 0,
    lowestLevelMm: 60,
    highestLevelMm: 95,
  },
  fuel: { kind: "coal" },
});
const ofLarge: Entry[] = [
  { kind: "strokes", count: 12, barG: 3.5, atS: 10, id: "strokes" },
  { kind: "strokes", count: 12, barG: 4.1, atS: 30, id: "as many" },
  { kind: "drained", ml: 1350, atS: 50, id: "drained" },
  { kind: "fill", ml: 1250, atS: 60, id: "filled" },
  { kind: "level", mm: 84.5, atS: 70, id: "a level" },
  { kind: "fire", state: "lit", atS: 80, id: "lit" },
  { kind: "fuel", action: "added", g: 457, atS: 90, id: "coal" },
  { kind: "fuel", action: "added", g: 1210, atS: 100, id: "over a kilo" },
  { kind: "fuel", action: "remaining", g: 267, atS: 110, id: "odd grams left" },
  { kind: "feed", by: "bottle", ml: 640, atS: 120, id: "a bottle" },
  { kind: "feed", by: "bottle", ml: 1200, atS: 130, id: "a larger one" },
  { kind: "temperature", of: "boiler", celsius: 152, atS: 140, id: "the boiler" },
];

const title = "Four wagons, hand pump at the stops";
test.each([
  ["as it is", steamingOf(title), season.locomotives[0]],
  ["with amounts of three figures of every sort", withLargeAmounts(steamingOf(title)), season.locomotives[0]],
  [
    "of an engine of three litres, tested with cold water before,",
    { ...steamingOf(title), purpose: "cold-hold", entries: ofLarge } as Steaming,
    season.locomotives[0] && large(season.locomotives[0]),
  ],
] as const)(
  "a whole simulated steaming %s is recorded by taps alone: two for what repeats, four for a new number and three where a fitting is named",
  async (_name, steaming, engine) => {
    if (engine === undefined) throw new Error("the demonstration has changed");
    await server.ask(`/api/locomotives/${engine.id}`, "PUT", engine);
    const context = await browser.newContext({ viewport: sizes.phone });
    const page = await context.newPage();
    // the whole day passes in the page's own clocks; the server's clock is the same one
    await page.clock.install({ time: new Date(steaming.startedAt) });
    const pageNow = () => page.evaluate(() => Date.now());
    await page.route("**/api/clock", async (route) => route.fulfill({ json: { nowMs: await pageNow() } }));
    await context.addInitScript(() => {
      localStorage.setItem("lapwater.footplate", JSON.stringify([JSON.stringify({ levelBy: "figures" })]));
    });
    await page.goto(`${server.address}/#/footplate`);
    await page.getByLabel("Purpose").selectOption(steaming.purpose);
    const id = await tapBegin(page);
    const acts = actsOf(steaming.entries);
    const beginsMs = (await pageNow()) - 1000 * (acts[0]?.atS ?? 0) + 1000;
    const hand = thumb(page);
    const before: Entry[] = [];
    let saidSoFar = 0;
    for (const act of acts) {
      const waitMs = beginsMs + 1000 * act.atS - (await pageNow());
      if (waitMs > 0) await page.clock.fastForward(waitMs);
      const tapsBefore = hand.count();
      if ("cupUnder" in act) {
        await hand.tile("Drip");
        await hand.key(engine.fittings.find(({ id: fitting }) => fitting === act.cupUnder)?.name ?? "");
        await hand.key("Catch its drip");
        expect(hand.count() - tapsBefore, "a cup begins").toBeLessThanOrEqual(CUP_BEGINS);
        continue;
      }
      const { entry } = act;
      const last = before.findLast(({ kind }) => kind === entry.kind);
      const usual = usualOf(entry, before);
      await tapIn(hand, entry, last, engine, usual);
      before.push(entry);
      await kept(page, ++saidSoFar);
      const taps = hand.count() - tapsBefore;
      expect(taps, `${taps} taps for ${JSON.stringify(entry)}`).toBeLessThanOrEqual(mostTaps(entry, last));
    }
    await page.clock.fastForward(20_000);
    await allSent(page);

    const wanted = acts.flatMap((act) => ("entry" in act ? [act.entry] : []));
    const recorded = await entriesAt(server, id);
    expect(recorded.map(saying)).toEqual(wanted.map(saying));
    const shiftS = (recorded[0]?.atS ?? 0) - (wanted[0]?.atS ?? 0);
    for (const [i, entry] of recorded.entries()) {
      const want = wanted[i];
      expect(Math.abs(entry.atS - shiftS - (want?.atS ?? 0)), JSON.stringify(entry)).toBeLessThan(
        SECONDS_BEHIND,
      );
      if (entry.kind === "drip" && want?.kind === "drip") {
        expect(Math.abs(entry.overS - want.overS)).toBeLessThan(SECONDS_BEHIND);
      }
    }
    await context.close();
  },
  120_000,
);

/** Entries of the same second are tapped one after the other, which takes a thumb some seconds. */
const SECONDS_BEHIND = 8;
