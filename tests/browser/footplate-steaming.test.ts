import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { allSent, BOUNCE_MS, beginSteaming, entriesAt, tile } from "../support/footplate.ts";
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
    digits: async (digits: string) => {
      for (const digit of digits) {
        await tap(page.locator(".digit-keys .key").getByText(digit, { exact: true }));
      }
    },
    stop: (name: string) => tap(page.getByRole("button", { name: `Stop: ${name}` })),
    isOpen: async () => (await page.locator(".overlay").count()) > 0,
  };
}
type Thumb = ReturnType<typeof thumb>;

const things = { regulator: "Regulator", bypass: "By-pass", blower: "Blower", fire: "Fire" } as const;
const fuelWords = { added: "put in", remaining: "left" } as const;

/** Digits as the pad takes them: 3.6 at one decimal is 36. */
const digitsOf = (value: number, decimals: number): string =>
  String(Math.round(value * 10 ** decimals)).padStart(decimals + 1, "0");

/** Taps one entry in, as its owner would. @param last the last entry of its sort, for readings that repeat */
async function tapIn(hand: Thumb, entry: Entry, last: Entry | undefined, engine: Locomotive): Promise<void> {
  const fittingName = (id: string) => engine.fittings.find((fitting) => fitting.id === id)?.name ?? id;
  const number = async (name: string, digits: string, same: boolean) => {
    await hand.tile(name);
    if (!same) await hand.digits(digits);
    if (await hand.isOpen()) await hand.key("Keep");
  };
  const amount = async (name: string, digits: string, meaning: string, same: boolean) => {
    await hand.tile(name);
    if (!same) await hand.digits(digits);
    if (await hand.isOpen()) await hand.key(meaning);
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
    case "feed":
      return amount(
        "Feed",
        String(entry.strokes ?? entry.ml),
        "hand pump",
        last?.kind === "feed" && last.strokes === entry.strokes,
      );
    case "fill":
      return amount("Feed", String(entry.ml), "filled", false);
    case "fuel":
      return amount("Fuel", String(entry.ml), fuelWords[entry.action], false);
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

/**
 * A lap, a state or a reading that repeats: two. A new number: four. A look names its fitting besides: three. An amount
 * of three digits that can be of several things is kept by naming the thing and never by a digit: five.
 */
function mostTaps(entry: Entry, last: Entry | undefined): number {
  if (["lap", "fire", "regulator", "bypass", "blower", "valve", "phase"].includes(entry.kind)) return 2;
  if (entry.kind === "look") return 3;
  const { id, atS, ...says } = entry;
  const { id: _id, atS: _atS, ...said } = last ?? entry;
  if (last !== undefined && JSON.stringify(says) === JSON.stringify(said)) return 2;
  const amount = entry.kind === "feed" ? (entry.strokes ?? entry.ml) : "ml" in entry ? entry.ml : undefined;
  return amount !== undefined && amount >= 100 ? 5 : 4;
}

const saying = ({ id, atS, note, ...says }: Entry) => (says.kind === "drip" ? { ...says, overS: 0 } : says);

test("a whole simulated steaming is recorded by taps alone, two for what repeats and four for a new number at the most, one more where it must be told of what", async () => {
  const engine = season.locomotives[0];
  const steaming = season.steamings.find((each) => each.title === "Four wagons, hand pump at the stops");
  if (engine === undefined || steaming === undefined) throw new Error("the demonstration has changed");
  const context = await browser.newContext({ viewport: sizes.phone });
  const page = await context.newPage();
  // the whole day passes in the page's own clocks; the server's clock is the same one
  await page.clock.install({ time: new Date(steaming.startedAt) });
  const pageNow = () => page.evaluate(() => Date.now());
  await page.route("**/api/clock", async (route) => route.fulfill({ json: { nowMs: await pageNow() } }));
  await context.addInitScript(() => {
    localStorage.setItem("lapwater.footplate", JSON.stringify([JSON.stringify({ levelBy: "figures" })]));
  });
  const id = await beginSteaming(page, server.address);
  const acts = actsOf(steaming.entries);
  const beginsMs = (await pageNow()) - 1000 * (acts[0]?.atS ?? 0) + 1000;
  const hand = thumb(page);
  const lastOf = new Map<string, Entry>();
  let keptSoFar = 0;
  for (const act of acts) {
    const waitMs = beginsMs + 1000 * act.atS - (await pageNow());
    if (waitMs > 0) await page.clock.fastForward(waitMs);
    const before = hand.count();
    if ("cupUnder" in act) {
      await hand.tile("Drip");
      await hand.key(engine.fittings.find(({ id: fitting }) => fitting === act.cupUnder)?.name ?? "");
      await hand.key("Catch its drip");
      continue;
    }
    const { entry } = act;
    const last = lastOf.get(entry.kind);
    await tapIn(hand, entry, last, engine);
    lastOf.set(entry.kind, entry);
    await page.locator(`.said.done[data-number="${++keptSoFar}"]`).waitFor();
    const taps = hand.count() - before;
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
}, 120_000);

/** Entries of the same second are tapped one after the other, which takes a thumb some seconds. */
const SECONDS_BEHIND = 8;
