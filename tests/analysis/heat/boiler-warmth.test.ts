import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar } from "../water/water-log.ts";

/** Air and water of 15 °C under 1013.25 hPa: 288.15 K, and boiling at 373.124 K (IF97). */
const [COLD_K, BOILING_K] = [288.15, 373.124];
const lit: Entry = { kind: "fire", state: "lit", atS: 1000 };
const boiler = (celsius: number, atS: number): Entry => ({ kind: "temperature", of: "boiler", celsius, atS });
const statesWith = (entries: Entry[], head: Partial<Steaming> = {}) =>
  sourcesOf(smallEngine(), {
    ...smallSteaming(),
    conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1013.25 },
    ...head,
    entries: [...entries].sort((a, b) => a.atS - b.atS),
  });

describe("cold water", () => {
  test("is neither ice nor hotter than it boils, whatever thermometer and air say", () => {
    expect(statesWith([boiler(-5, 0)]).stateAt(0).temperatureK).toBeCloseTo(273.16, 9);
    // at 700 hPa water boils at 89.9 °C, 363.08 K
    const high = { conditions: { ambientC: 98, feedC: 98, atmosphereHPa: 700 } };
    const state = statesWith([lit, bar(0, 0)], high).stateAt(500);
    expect(state.temperatureK).toBeCloseTo(363.08, 1);
    expect(state.steam).toBeNull();
  });

  test("where no fire was written down and no pressure was on is as cold as air and feed", () => {
    expect(statesWith([bar(0, 0), bar(0, 600)]).stateAt(300).temperatureK).toBeCloseTo(COLD_K, 6);
  });
});

describe("warming up", () => {
  const rise = [lit, bar(0, 1000), bar(0, 1600), bar(1, 1700), bar(2, 1800)];

  /** Above the straight line between two marks 200 s apart, so far through it: from the lighting on she slows to a 1.3th of her mean pace. */
  const bulgeK = ({ pressure }: ReturnType<typeof statesWith>, share: number) =>
    (0.3 / 1.3) *
    (BOILING_K - COLD_K) *
    (200 / ((pressure.firstSteamS ?? Number.NaN) - 1000)) ** 2 *
    share *
    (1 - share);

  test("goes from mark to mark ever slower, in doubt by their own and by the pace between them", () => {
    const sources = statesWith([...rise, boiler(50, 1200), boiler(80, 1400)]);
    const half = sources.stateAt(1300);
    expect(half.temperatureK).toBeCloseTo(65 + 273.15 + bulgeK(sources, 0.5), 3);
    expect(half.uTemperatureK).toBeCloseTo(Math.hypot(0.5, 0.5, 0.4 * 30 * 0.25), 9);
    const quarter = sources.stateAt(1250);
    expect(quarter.temperatureK).toBeCloseTo(57.5 + 273.15 + bulgeK(sources, 0.25), 3);
    expect(quarter.uTemperatureK).toBeCloseTo(Math.hypot(0.75, 0.25, 0.4 * 30 * 0.1875), 9);
    // from the lighting, cold to a degree, to the first mark
    expect(sources.stateAt(1100).temperatureK).toBeCloseTo((15 + 50) / 2 + 273.15 + bulgeK(sources, 0.5), 3);
    expect(sources.stateAt(1200)).toMatchObject({
      temperatureK: expect.closeTo(323.15, 9),
      uTemperatureK: 1,
    });
  });

  test("a thermometer that fell between two marks leaves as much doubt as one that rose", () => {
    const sources = statesWith([...rise, boiler(80, 1200), boiler(50, 1400)]);
    const fell = sources.stateAt(1300);
    expect(fell.temperatureK).toBeCloseTo(65 + 273.15 + bulgeK(sources, 0.5), 3);
    expect(fell.uTemperatureK).toBeCloseTo(Math.hypot(0.5, 0.5, 0.4 * 30 * 0.25), 9);
  });

  test("a mark above boiling is boiling, one below freezing is ice water", () => {
    const sources = statesWith([...rise, boiler(-10, 1200), boiler(140, 1400)]);
    expect(sources.stateAt(1400).temperatureK).toBeCloseTo(BOILING_K, 2);
    expect(sources.stateAt(1300).temperatureK).toBeCloseTo(
      (273.16 + BOILING_K) / 2 + bulgeK(sources, 0.5),
      2,
    );
  });

  test("begins as warm as the thermometer said within the five minutes before the fire", () => {
    const asLit = (atS: number, celsius = 40) => statesWith([...rise, boiler(celsius, atS)]).stateAt(1000);
    expect(asLit(700)).toMatchObject({ temperatureK: expect.closeTo(313.15, 9), uTemperatureK: 1 });
    expect(asLit(699).temperatureK).toBeCloseTo(COLD_K, 6);
    expect(asLit(1000).temperatureK).toBeCloseTo(313.15, 9);
    expect(asLit(900, -3).temperatureK).toBeCloseTo(273.16, 9);
    expect(statesWith([...rise, boiler(30, 800), boiler(40, 950)]).stateAt(1000).temperatureK).toBeCloseTo(
      313.15,
      9,
    );
  });

  test("ends at boiling at first steam, from where the pressure tells", () => {
    const sources = statesWith(rise);
    const steamS = sources.pressure.firstSteamS ?? Number.NaN;
    expect(sources.stateAt(steamS)).toMatchObject({
      temperatureK: expect.closeTo(BOILING_K, 2),
      uTemperatureK: 0,
      steam: null,
    });
    // water at 1 bar g boils at 120.4 °C (steam tables)
    expect(sources.stateAt(1700).temperatureK - 273.15).toBeCloseTo(120.4, 1);
    expect(sources.stateAt(1700)).toMatchObject({ uTemperatureK: 0, steam: expect.anything() });
  });
});

describe("lit so warm that the rise gives it away", () => {
  // from 1 bar at 1100 s she rose to 2 bar in 70 s: by that pace she was just under boiling when she was lit
  const justUnder = [lit, bar(1, 1100), bar(2, 1170), bar(2, 1300)];
  // and in 140 s after 60: still above it
  const inSteam = [lit, bar(1, 1060), bar(2, 1200), bar(2, 1300)];
  const warmOf = (sources: ReturnType<typeof statesWith>) => {
    if (sources.lighting.warm === null) throw new Error("not thought warm");
    return sources.lighting.warm;
  };

  test("under boiling she was water, until she was lit and on from there", () => {
    const sources = statesWith(justUnder);
    const warm = warmOf(sources);
    for (const atS of [0, 999, 1000])
      expect(sources.stateAt(atS)).toMatchObject({
        temperatureK: expect.closeTo(warm.kelvin, 9),
        uTemperatureK: warm.uK,
        steam: null,
      });
    const steamS = sources.pressure.firstSteamS ?? Number.NaN;
    const rise = BOILING_K - warm.kelvin;
    const half = sources.stateAt((1000 + steamS) / 2);
    expect(half.temperatureK).toBeCloseTo(warm.kelvin + rise * (1 / 2 + 0.3 / 1.3 / 4), 2);
    expect(half.uTemperatureK).toBeCloseTo(Math.hypot(warm.uK / 2, 0.4 * rise * 0.25), 2);
  });

  test("above it she was in steam", () => {
    const sources = statesWith(inSteam);
    const warm = warmOf(sources);
    expect(warm.kelvin).toBeGreaterThan(BOILING_K);
    expect(sources.stateAt(900)).toMatchObject({
      temperatureK: expect.closeTo(warm.kelvin, 6),
      uTemperatureK: warm.uK,
      steam: expect.anything(),
    });
    expect(sources.stateAt(1200).uTemperatureK).toBe(0);
  });
});

describe("the boiler's thermometer while there is no pressure", () => {
  test("of two as near the earlier speaks", () => {
    const { stateAt } = statesWith([boiler(40, 100), boiler(60, 200)]);
    expect(stateAt(150).temperatureK).toBeCloseTo(313.15, 9);
    expect(stateAt(151).temperatureK).toBeCloseTo(333.15, 9);
  });

  test("below boiling is water, above it steam", () => {
    const { stateAt } = statesWith([boiler(99, 100), boiler(101, 900)]);
    expect([stateAt(100).steam, stateAt(900).steam === null]).toEqual([null, false]);
  });

  test("speaks for five minutes though no fire was written down, from the first second on", () => {
    const { stateAt } = statesWith([boiler(50, 100), bar(0, 0), bar(0, 500), bar(2, 800), bar(2.5, 900)]);
    for (const atS of [0, 300, 400]) expect(stateAt(atS).temperatureK).toBeCloseTo(323.15, 9);
    expect(stateAt(401).temperatureK).toBeCloseTo(COLD_K, 6);
  });

  test("read after the lighting says nothing of that moment, with a pressure or without", () => {
    for (const read of [[bar(0, 1000), bar(0, 1500)], []])
      expect(statesWith([lit, boiler(70, 1100), ...read]).stateAt(1000).temperatureK).toBeCloseTo(COLD_K, 6);
  });

  test("long before the fire speaks for its own time", () => {
    const { stateAt } = statesWith([lit, bar(0, 1000), bar(1, 1700), bar(2, 1800), boiler(40, 500)]);
    expect(stateAt(550).temperatureK).toBeCloseTo(313.15, 9);
    expect(stateAt(1000).temperatureK).toBeCloseTo(COLD_K, 6);
  });

  test("read once she is in steam is no mark on the way up", () => {
    const rise = [lit, bar(0, 1000), bar(0, 1600), bar(1, 1700), bar(2, 1800)];
    for (const atS of [1300, 1590])
      expect(statesWith([...rise, boiler(105, 1900)]).stateAt(atS)).toEqual(statesWith(rise).stateAt(atS));
  });

  test("read before the fire says nothing of the time after the steam has gone, nor one after it of before", () => {
    const gone = [lit, bar(0, 1000), bar(2, 1500), bar(0, 1800), bar(0, 2500)];
    const { stateAt } = statesWith([...gone, boiler(20, 900), boiler(70, 2400)]);
    expect(stateAt(950).temperatureK).toBeCloseTo(293.15, 9);
    expect(stateAt(2300).temperatureK).toBeCloseTo(343.15, 9);
  });
});

describe("where no pressure was ever read", () => {
  // working pressure 3 bar g: 143.7 °C (steam tables). Cold to that: 79.4 °C in the mean; boiling to that: 121.8 °C
  const of = (...entries: Entry[]) =>
    statesWith([lit, { kind: "level", mm: 20, atS: 2000 }, ...entries]).stateAt(2000);

  test("she may be anything from cold to working pressure", () => {
    const state = of();
    expect(state.steam).toBeNull();
    expect(state.temperatureK - 273.15).toBeCloseTo((15 + 143.7) / 2, 0);
    expect(state.uTemperatureK).toBeCloseTo((143.7 - 15) / 2, 0);
  });

  test("nor is she known to be cold at the first second, where no fire was written down", () => {
    const { uTemperatureK } = statesWith([{ kind: "level", mm: 20, atS: 0 }]).stateAt(0);
    expect(uTemperatureK).toBeCloseTo((143.7 - 15) / 2, 0);
  });

  test.each<[string, Entry]>([
    ["a lap", { kind: "lap", count: 1, atS: 1900 }],
    ["turns of the wheel", { kind: "revolutions", count: 10, atS: 1900 }],
    ["an open regulator", { kind: "regulator", state: "open", atS: 1900 }],
    ["a valve that lifts", { kind: "valve", state: "lifts", atS: 1900 }],
    ["a mark of running", { kind: "phase", name: "running", atS: 1900 }],
  ])("after %s no less than boiling", (_, entry) => {
    const state = of(entry);
    expect(state.steam).not.toBeNull();
    expect(state.temperatureK - 273.15).toBeCloseTo((100 + 143.7) / 2, 0);
    expect(state.uTemperatureK).toBeCloseTo((143.7 - 100) / 2, 0);
    // and not before it, nor once the fire is out
    expect(of({ ...entry, atS: 2001 }).steam).toBeNull();
    expect(of(entry, { kind: "fire", state: "out", atS: 1950 }).steam).toBeNull();
  });

  test.each<[string, Entry]>([
    ["a regulator shut", { kind: "regulator", state: "shut", atS: 1900 }],
    ["a by-pass opened", { kind: "bypass", state: "open", atS: 1900 }],
    ["a valve that reseats", { kind: "valve", state: "reseats", atS: 1900 }],
    ["a mark of raising", { kind: "phase", name: "raising", atS: 1900 }],
  ])("%s says no such thing", (_, entry) => expect(of(entry).steam).toBeNull());
});

describe("a boiler that has lost its pressure", () => {
  // gone at the last reading above none, and cooling from boiling to the air's 15 °C by 1/e in 3300 s
  const cooled = (sinceS: number) => COLD_K + (BOILING_K - COLD_K) * Math.exp(-sinceS / 3300);
  const rise = [lit, bar(0, 1000), bar(2, 1500), bar(1, 2000)];

  test("cools from the last reading that showed some, however often none was read after it", () => {
    const { stateAt } = statesWith([...rise, bar(0, 2100), bar(0, 2600), bar(0, 9000)]);
    expect(stateAt(2600).temperatureK).toBeCloseTo(cooled(600), 2);
    expect(stateAt(5300).temperatureK).toBeCloseTo(cooled(3300), 2);
    // a third of what it lost is in doubt, and a degree at least
    expect(stateAt(5300).uTemperatureK).toBeCloseTo(0.35 * (BOILING_K - cooled(3300)), 2);
    expect(stateAt(2101).uTemperatureK).toBe(1);
  });

  test("what is raised again later has no part in it, nor a pressure of none", () => {
    const { stateAt } = statesWith([
      ...rise,
      bar(0, 2100),
      bar(0.05, 2500),
      bar(0, 2900),
      bar(2, 3300),
      bar(2, 3400),
    ]);
    expect(stateAt(2800).temperatureK).toBeCloseTo(cooled(800), 2);
  });
});

describe("in steam", () => {
  // three standard uncertainties of the dial here are 0.47 bar: up to that a pointer may rest where it will
  test("is not said of a pressure that the dial cannot tell from none", () => {
    const { stateAt, pressure } = statesWith([lit, bar(0, 1000), bar(0.3, 1500)]);
    expect(pressure.firstSteamS).toBeNull();
    expect(stateAt(1500).steam).toBeNull();
  });

  test("one pressure is one state, and a negative one beyond what can be is not asked of the tables", () => {
    const { stateAtPressure } = statesWith([bar(2, 0)]);
    // 2 bar g: 133.7 °C (steam tables)
    expect(stateAtPressure(2).temperatureK - 273.15).toBeCloseTo(133.7, 1);
    expect(stateAtPressure(2)).toEqual(stateAtPressure(2));
    expect(stateAtPressure(2).uTemperatureK).toBe(0);
    expect(stateAtPressure(-5).temperatureK).toBeGreaterThan(273);
  });
});
