import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar } from "../water/water-log.ts";

/** Air 20 °C, feed 10 °C: cold water a quarter of the way, at 285.65 K; it boils at 373.124 K (IF97, 1013.25 hPa), 87.474 K higher. */
const sourcesWith = (entries: Entry[]) =>
  sourcesOf(smallEngine(), {
    ...smallSteaming(),
    conditions: { ambientC: 20, feedC: 10, atmosphereHPa: 1013.25 },
    entries,
  });
const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const boilerAt = (celsius: number, atS: number): Entry => ({
  kind: "temperature",
  of: "boiler",
  celsius,
  atS,
});

describe("what stands in the boiler", () => {
  test("before the fire: as cold as the feed or some of the way to the air, in doubt by as much", () => {
    const state = sourcesWith([{ ...lit, atS: 100 }, bar(0, 100)]).stateAt(50);
    expect(state.temperatureK).toBeCloseTo(285.65, 6);
    expect(state.uTemperatureK).toBeCloseTo(2.5, 9);
    expect(state.steam).toBeNull();
    expect(1 / state.water.volumeM3PerKg).toBeCloseTo(999.4, 1); // water at 12.5 °C, handbooks
  });

  test("just filled: its metal alone may be as warm as the air", () => {
    const filled = (atS: number): Entry => ({ kind: "fill", ml: 100, atS });
    const at = (fillS: number, litS: number) =>
      sourcesWith([filled(fillS), { ...lit, atS: litS }, bar(0, litS + 100)]).stateAt(litS);
    expect(at(0, 1800)).toMatchObject({ temperatureK: 284.4, uTemperatureK: 1.25 });
    for (const stood of [at(0, 1801), at(200, 100)])
      expect(stood).toMatchObject({ temperatureK: 285.65, uTemperatureK: 2.5 });
  });

  test("air and feed alike: a degree of doubt is left", () => {
    const even = sourcesOf(smallEngine(), {
      ...smallSteaming(),
      entries: [{ ...lit, atS: 100 }, bar(0, 200)],
    });
    expect(even.stateAt(50).uTemperatureK).toBe(1);
  });

  // where neither was recorded they err together; feed beside air that was, by three quarters of its own 3 K
  test.each([
    [undefined, Math.hypot(1, 5)],
    [{ ambientC: 15 }, Math.hypot(1, 0.75 * 3)],
    [{ feedC: 15 }, Math.hypot(1, 0.25 * 5)],
  ])("air and feed as %o: what was not recorded is in doubt", (conditions, uK) => {
    const { conditions: _, ...head } = smallSteaming();
    const entries: Entry[] = [{ ...lit, atS: 100 }, bar(0, 200)];
    const recorded = conditions === undefined ? {} : { conditions };
    const { stateAt, around } = sourcesOf(smallEngine(), { ...head, ...recorded, entries } as Steaming);
    expect(around).toMatchObject({ ambientC: 15, feedC: 15 });
    expect(stateAt(50).uTemperatureK).toBeCloseTo(uK, 9);
  });

  // water boils at 143.71 °C at 3 bar g (IF97, 1013.25 hPa), 131.21 K above the cold water
  test("no pressure and no thermometer: anything from cold to working pressure, lit or not", () => {
    for (const entries of [[], [lit]]) {
      const state = sourcesWith([...entries, { kind: "level", mm: 10, atS: 500 }]).stateAt(500);
      expect(state.temperatureK).toBeCloseTo(285.65 + 131.21 / 2, 1);
      expect(state.uTemperatureK).toBeCloseTo(131.21 / 2, 1);
    }
  });

  test("no pressure and no thermometer, but steam is used: from boiling to working pressure, until the fire is out", () => {
    const uses: Entry[] = [
      { kind: "lap", count: 1, atS: 300 },
      { kind: "revolutions", count: 9, atS: 300 },
      { kind: "regulator", state: "open", atS: 300 },
      { kind: "valve", state: "lifts", atS: 300 },
      { kind: "phase", name: "standing", atS: 300 },
    ];
    for (const use of uses) {
      const out: Entry = { kind: "fire", state: "out", atS: 700 };
      const { stateAt } = sourcesWith([lit, use, out, { kind: "level", mm: 10, atS: 900 }]);
      for (const atS of [300, 700]) {
        expect(stateAt(atS).temperatureK).toBeCloseTo(273.15 + (99.97 + 143.71) / 2, 1);
        expect(stateAt(atS).uTemperatureK).toBeCloseTo((143.71 - 99.97) / 2, 1);
        expect(stateAt(atS).steam).not.toBeNull();
      }
      for (const atS of [299, 701]) expect(stateAt(atS).uTemperatureK).toBeCloseTo(131.21 / 2, 1);
    }
    const none: Entry[] = [
      { kind: "regulator", state: "shut", atS: 300 },
      { kind: "valve", state: "reseats", atS: 300 },
      { kind: "phase", name: "raising", atS: 300 },
    ];
    const idle = sourcesWith([lit, ...none, { kind: "level", mm: 10, atS: 900 }]).stateAt(500);
    expect(idle.uTemperatureK).toBeCloseTo(131.21 / 2, 1);
  });

  test("lit before any pressure was read: cold then, as if none had been read at the lighting", () => {
    const later = [bar(1, 300), bar(2, 360), bar(3, 420)];
    const [unread, read] = [sourcesWith([lit, ...later]), sourcesWith([lit, bar(0, 0), ...later])];
    expect(unread.stateAt(0).temperatureK).toBeCloseTo(285.65, 6);
    // water boils at 100.0, 120.4 and 133.7 °C at 0, 1 and 2 bar g (steam tables): 13.3 K a minute, 20.4 K before 300 s
    expect(Math.abs((unread.pressure.firstSteamS ?? Number.NaN) - (300 - (60 * 20.4) / 13.3))).toBeLessThan(
      1,
    );
    for (const atS of [100, 200, 330]) expect(unread.stateAt(atS)).toEqual(read.stateAt(atS));
  });

  test("lit with something that speaks for steam: in steam at the lighting", () => {
    expect(sourcesWith([lit, bar(3, 20)]).stateAt(0).steam).not.toBeNull();
    expect(sourcesWith([boilerAt(120, 0), { ...lit, atS: 5 }, bar(1, 300)]).stateAt(5).steam).not.toBeNull();
  });

  // the mean pace is 1.3 times that at boiling: half-way a quarter of 0.3/1.3 of the rise above the straight line
  test("half-way to first steam, rather more than half warm; the doubt is of its start and of the pace", () => {
    const sources = sourcesWith([lit, bar(0, 0), bar(0, 200), bar(3, 600)]);
    const steamS = sources.pressure.firstSteamS ?? Number.NaN;
    const state = sources.stateAt(steamS / 2);
    expect(state.temperatureK).toBeCloseTo(285.65 + 87.474 * (1 / 2 + 0.3 / 1.3 / 4), 2);
    expect(state.uTemperatureK).toBeCloseTo(Math.hypot(2.5 / 2, (0.4 * 87.474) / 4), 2);
    expect(sources.stateAt(steamS).temperatureK).toBeCloseTo(373.124, 2);
  });

  test("lit and no steam yet: half warm, a quarter of the way in doubt", () => {
    const state = sourcesWith([lit, bar(0, 0), bar(0, 400)]).stateAt(400);
    expect(state.temperatureK).toBeCloseTo(285.65 + 87.474 / 2, 2);
    expect(state.uTemperatureK).toBeCloseTo(87.474 / 4, 2);
  });

  test("the boiler's thermometer speaks for five minutes about its reading, and no other thermometer does", () => {
    const { stateAt } = sourcesWith([
      lit,
      bar(0, 0),
      { kind: "temperature", of: "ambient", celsius: 20, atS: 1000 },
      boilerAt(60, 1000),
      boilerAt(80, 1400),
      { kind: "temperature", of: "flue", celsius: 300, atS: 1390 },
      bar(0, 3000),
    ]);
    for (const [atS, celsius] of [
      [700, 60],
      [1000, 60],
      [1199, 60],
      [1201, 80],
      [1700, 80],
    ] as const) {
      expect(stateAt(atS).temperatureK).toBeCloseTo(celsius + 273.15, 9);
      expect(stateAt(atS).uTemperatureK).toBe(1);
    }
    expect(stateAt(699).temperatureK).not.toBeCloseTo(333.15, 1);
    expect(stateAt(1701).temperatureK).not.toBeCloseTo(353.15, 1);
  });

  // water at 110 °C boils at 1.4338 bar (IF97 and steam tables)
  test("a thermometer above boiling is steam at the pressure that goes with it", () => {
    const { steam, water } = sourcesWith([boilerAt(110, 0)]).stateAt(0);
    expect(steam?.temperatureK).toBeCloseTo(383.15, 6);
    expect(water.pressurePa).toBeCloseTo(143_380, -2);
  });

  test("a boiler that has lost its pressure cools to 1/e of its excess over the air in 3300 s", () => {
    const { stateAt } = sourcesWith([lit, bar(0, 0), bar(3, 600), bar(1, 1000), bar(0, 1600), bar(0, 9000)]);
    const temperatureK = 293.15 + (373.124 - 293.15) / Math.E;
    expect(stateAt(4300).temperatureK).toBeCloseTo(temperatureK, 2);
    expect(stateAt(4300).uTemperatureK).toBeCloseTo(0.35 * (373.124 - temperatureK), 2);
    expect(stateAt(4300).steam).toBeNull();
    // as well where nobody wrote down the fire
    const unlit = sourcesWith([bar(3, 600), bar(1, 1000), bar(0, 1600), bar(0, 9000)]);
    expect(unlit.stateAt(4300).temperatureK).toBeCloseTo(temperatureK, 2);
  });
});

describe("what surrounds a steaming", () => {
  test("temperatures read in the course of it, in the mean, go before those of the head", () => {
    const { around } = sourcesWith([
      { kind: "temperature", of: "ambient", celsius: 22, atS: 0 },
      { kind: "temperature", of: "feed", celsius: 12, atS: 5 },
      { kind: "temperature", of: "ambient", celsius: 26, atS: 10 },
    ]);
    expect(around.ambientC).toBeCloseTo(24, 9);
    expect(around.feedC).toBeCloseTo(12, 9);
    expect(around.assumed).toEqual([]);
    expect(around.absolutePa(1)).toBeCloseTo(201_325, 6);
  });

  test("what nobody recorded is taken as usual, and said", () => {
    const { conditions: _, ...bare } = smallSteaming();
    const { around } = sourcesOf(smallEngine(), bare);
    expect([around.ambientC, around.feedC, around.atmospherePa, around.dryness]).toEqual([
      15, 15, 101_325, 1,
    ]);
    expect(around.assumed).toHaveLength(2);
  });
});
