import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { inSteamS, meanOver } from "../../../src/analysis/pressure/pressure-over-time.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/**
 * Air 20 °C. Water boils at 143.71 °C at 3 bar g and at 99.97 °C at none (IF97, 1013.25 hPa). Cooling with a time constant of
 * 3300 s, 143.71 comes down to 99.97 in 3300 ln(123.71/79.97) = 1439.7 s.
 */
const GONE_S = 1439.7;
const conditions = { ambientC: 20, feedC: 20, atmosphereHPa: 1013.25 };
const steaming = (entries: Entry[]) => ({
  ...smallSteaming(),
  conditions,
  entries: entries.sort((a, b) => a.atS - b.atS),
});
const bar = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
const glass = (atS: number, mm: number): Entry => ({ kind: "level", atS, mm });
const note = (atS: number): Entry => ({ kind: "note", atS, text: "put away" });
const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const out: Entry = { kind: "fire", atS: 1000, state: "out" };
const up = [bar(0, 0), bar(400, 3), bar(900, 3)];
const courseOf = (...entries: Entry[]) => sourcesOf(smallEngine(), steaming(entries)).pressure;

describe("after the last reading of the dial", () => {
  const late = [lit, ...up, out, note(9000)];

  test("with the fire out she cools, and her pressure is gone when she is down at boiling", () => {
    const { atS, away } = courseOf(...late);
    expect(atS(1000)).toBeCloseTo(3, 9);
    expect(away[0]).toEqual([1000, 3]);
    expect(away.at(-1)?.[0]).toBeCloseTo(1000 + GONE_S, 0);
    expect(away.map(([s]) => s)).toEqual(away.map((_, i) => expect.closeTo(1000 + (i / 8) * GONE_S, 0)));
    expect(atS(1000 + GONE_S + 1)).toBe(0);
    // half-way in time: 20 + 123.71 exp(-719.85/3300) = 119.46 °C, where IF97 has 1.9505 bar absolute
    expect(atS(1000 + GONE_S / 2)).toBeCloseTo(1.9505 - 1.01325, 2);
  });

  test("time in steam and the mean end with it, and not with a note of hours later", () => {
    const cooled = courseOf(...late);
    const { firstSteamS } = cooled;
    const inSteam = inSteamS(cooled, 0, 9000);
    expect(inSteam).toBeGreaterThan(1000 - (firstSteamS ?? 0) + 0.95 * GONE_S);
    expect(inSteam).toBeLessThan(1000 - (firstSteamS ?? 0) + GONE_S + 1);
    expect(meanOver(cooled, 5000, 9000)).toBe(0);
    expect(inSteamS(courseOf(...late, note(90_000)), 0, 90_000)).toBeCloseTo(inSteam, 6);
  });

  test("a fire that was put out tells it at once, whatever is written soon after", () => {
    const soon: Entry[] = [note(1100), glass(1150, 10), { kind: "regulator", atS: 1200, state: "open" }];
    expect(courseOf(lit, ...up, out, ...soon).away[0]).toEqual([1000, 3]);
    // out before the last reading of the dial: from that reading on
    expect(courseOf(lit, ...up, { ...out, atS: 800 }, ...soon).away[0]).toEqual([900, 3]);
  });

  test("a glass read then stands on water that has cooled, in doubt by a third of how far", () => {
    const { stateAt } = sourcesOf(smallEngine(), steaming(late));
    const middle = stateAt(1000 + GONE_S / 2);
    expect(middle.temperatureK - 273.15).toBeCloseTo(119.46, 1);
    expect(middle.uTemperatureK).toBeCloseTo(0.35 * (143.71 - 119.46), 1);
    expect(stateAt(1000).uTemperatureK).toBe(0);
    expect(
      sourcesOf(smallEngine(), steaming([lit, bar(0, 0), bar(400, 2), bar(900, 3), out, note(9000)])).stateAt(
        700,
      ).uTemperatureK,
    ).toBe(0);
    expect(stateAt(9000).steam).toBeNull();
    expect(stateAt(9000).temperatureK - 273.15).toBeLessThan(35);
  });

  test("a fire that burns keeps it up; left alone for more than twenty minutes, and nothing of steam after, it does not", () => {
    expect(courseOf(lit, ...up, note(2100)).away).toEqual([]);
    expect(courseOf(lit, ...up, note(2101)).away[0]).toEqual([900, 3]);
    expect(courseOf(...up, note(2101)).away[0]).toEqual([900, 3]);
    expect(courseOf(lit, ...up, glass(1500, 10), note(2600)).away).toEqual([]);
    // nothing was written for 1600 s, but the dial was read after that
    expect(courseOf(lit, bar(0, 0), bar(400, 3), bar(2000, 3), note(2100)).away).toEqual([]);
    // a lap after the last reading, and then nothing
    expect(courseOf(lit, ...up, { kind: "lap", atS: 950, count: 1 }, note(2200)).away[0]).toEqual([950, 3]);
    const still: Entry[] = [
      { kind: "lap", atS: 3000, count: 1 },
      { kind: "revolutions", atS: 3000, count: 9 },
      { kind: "valve", atS: 3000, state: "lifts" },
      { kind: "regulator", atS: 3000, state: "open" },
      { kind: "blower", atS: 3000, state: "on" },
      { kind: "phase", atS: 3000, name: "running" },
      { kind: "fire", atS: 3000, state: "lit" },
    ];
    for (const entry of still) expect(courseOf(lit, ...up, entry, note(3100)).away).toEqual([]);
    const over: Entry[] = [
      { kind: "regulator", atS: 3000, state: "shut" },
      { kind: "blower", atS: 3000, state: "off" },
      { kind: "phase", atS: 3000, name: "shut-in" },
    ];
    for (const entry of over) expect(courseOf(lit, ...up, entry).away).toHaveLength(9);
  });

  test("none was on, or nothing came after: nothing is thought; a dial read later is what was read", () => {
    expect(courseOf(lit, bar(0, 0), bar(400, 0), out, note(9000)).away).toEqual([]);
    expect(courseOf(lit, ...up, out).away).toEqual([]);
    const read = courseOf(...late, bar(1500, 2));
    expect(read.away[0]).toEqual([1500, 2]);
    const share = 350 / 600;
    expect(read.atS(1250)).toBeCloseTo(((1 - share) * 4 ** 0.25 + share * 3 ** 0.25) ** 4 - 1, 9);
  });
});

describe("forecast of an engine that was put away", () => {
  const run = [lit, ...up, glass(0, 12), glass(500, 20), glass(950, 18), out];
  const forecastOf = (...entries: Entry[]) =>
    analyse(smallEngine(), steaming([...run, ...entries])).forecast?.waterAboveLowest;

  test("more than twenty minutes without a fire and the glass not read since, none; with the glass, as it stands", () => {
    const forgotten = { value: null, why: expect.stringContaining("no fire was in her") };
    expect(forecastOf(note(2200))).not.toMatchObject(forgotten);
    expect(forecastOf(note(2201))).toMatchObject(forgotten);
    const read = forecastOf(glass(2150, 15), note(2201));
    expect(read?.value).toBeGreaterThan(0);
  });

  test("drained she holds nothing to tell of; filled again she does", () => {
    const drained: Entry = { kind: "drained", atS: 1100, ml: 100 };
    expect(forecastOf(drained)).toEqual({ value: null, why: "she was drained" });
    expect(forecastOf(drained, note(1200))).toEqual({ value: null, why: "she was drained" });
    expect(forecastOf(drained, glass(1200, 10))).not.toEqual({ value: null, why: "she was drained" });
  });
});
