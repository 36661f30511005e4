import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { massReadings } from "../../../src/analysis/water/mass-readings.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { waterState } from "../../../src/steam/region1.ts";
import { saturatedSteam, saturatedWater } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar, level } from "./water-log.ts";

/** 5 ml a millimetre of glass from 0 ml at 0 mm, 300 ml in all. */
const engine: Locomotive = {
  ...smallEngine(),
  boiler: {
    shape: {
      kind: "table",
      totalMl: 300,
      points: [
        { levelMm: 0, waterMl: 0 },
        { levelMm: 60, waterMl: 300 },
      ],
    },
    lowestLevelMm: 5,
    highestLevelMm: 50,
    metalMassG: 450,
    metal: "copper",
  },
};
/** Water at 15 °C, g/ml (handbooks). */
const COLD = 0.9991;
const AIR_PA = 101_325;
const readings = (entries: Entry[], of: Partial<Locomotive> = {}, head: Partial<Steaming> = {}) =>
  massReadings(sourcesOf({ ...engine, ...of }, { ...smallSteaming(), ...head, entries }));
const exactly = { levelReadingMm: 0, pressureReadingBar: 0, pressureBiasBar: 0 };

describe("a level in steam", () => {
  const held = [bar(3, 0), level(30, 10), bar(3, 20)];
  const [f, g] = [saturatedWater(3e5 + AIR_PA), saturatedSteam(3e5 + AIR_PA)];

  test("is 150 ml of water and 150 ml of steam", () => {
    const [one] = readings(held);
    expect(one?.grams).toBeCloseTo(1000 * (150e-6 / f.volumeM3PerKg + 150e-6 / g.volumeM3PerKg), 6);
    expect(one).toMatchObject({ atS: 10, order: 1, of: "contents" });
  });

  // a millimetre is 5 ml of water in the place of steam
  test("read wrong by a millimetre is wrong by 5 ml of water less the steam in its place", () => {
    const [one] = readings(held, { instruments: { ...exactly, levelReadingMm: 0.4 } });
    expect(one?.uGrams).toBeCloseTo(0.4 * 1000 * 5e-6 * (1 / f.volumeM3PerKg - 1 / g.volumeM3PerKg), 6);
  });

  // density of the water along the boiling line, by its difference over 0.2 bar, but for what a bar presses it together
  const along =
    (1 / saturatedWater(3.1e5 + AIR_PA).volumeM3PerKg - 1 / saturatedWater(2.9e5 + AIR_PA).volumeM3PerKg) /
    0.2;
  const perBar = 150e-3 * (along - (1e5 * f.compressibilityPerPa) / f.volumeM3PerKg);

  test("with the pressure read wrong is wrong by what water swells along the boiling line", () => {
    const [one] = readings(held, { instruments: { ...exactly, pressureReadingBar: 0.05 } });
    expect((one?.uGrams ?? 0) / Math.abs(0.05 * perBar)).toBeCloseTo(1, 3);
  });

  test("shares the dial's bias and the boiler's volume, signed as they move what was drawn", () => {
    const shared = readings(held, { instruments: { ...exactly, pressureBiasBar: 0.04 } })[0]?.shared ?? [];
    expect(shared.map(({ source, name }) => [source, name])).toEqual([
      ["boiler volume of small", "volume of the boiler"],
      ["dial of small", "bias of the pressure dial"],
    ]);
    // 1 % of 150 ml of water in the place of steam
    expect(shared[0]?.uGrams).toBeCloseTo(0.01 * 150e-3 * (1 / f.volumeM3PerKg - 1 / g.volumeM3PerKg), 6);
    // hotter water is lighter: of the mass by -0.04 x slope, counted the other way round
    expect((shared[1]?.uGrams ?? 0) / (-0.04 * perBar)).toBeCloseTo(1, 3);
    expect(perBar).toBeLessThan(0);
  });
});

describe("a level in cold water", () => {
  test("is water alone, and the dial says nothing of it", () => {
    const [one] = readings([bar(0, 0), level(30, 10)], {
      instruments: { ...exactly, pressureBiasBar: 0.04, pressureReadingBar: 0.05 },
    });
    expect(one?.grams).toBeCloseTo(150 * COLD, 2);
    expect(one?.shared[1]?.uGrams).toBeCloseTo(0, 12);
    // cold to a degree: it swells by 1.5e-4 a kelvin at 15 °C (handbooks)
    expect((one?.uGrams ?? 0) / (150 * 1.5e-4)).toBeCloseTo(1, 1);
  });
});

describe("cooler water in the glass", () => {
  const held = (mm: number) => [bar(3, 0), level(mm, 10), bar(3, 20)];
  const withGlass = (glassWaterC: number) => ({ boiler: { ...engine.boiler, glassWaterC } });
  const boiler = saturatedWater(3e5 + AIR_PA);
  const glass = (celsius: number) => waterState(celsius + 273.15, 3e5 + AIR_PA).volumeM3PerKg;

  test("stands lower by its density, counted from the glass's zero", () => {
    const [one] = readings(held(30), withGlass(60));
    const [alike] = readings(held((30 * boiler.volumeM3PerKg) / glass(60)));
    expect(one?.grams).toBeCloseTo(alike?.grams ?? 0, 6);
    expect(one?.grams ?? 0).toBeGreaterThan(1.03 * (readings(held(30))[0]?.grams ?? 0));
  });

  test("stands lower on the way to the first steam too, once the boiler is warmer", () => {
    const boilerAt90: Entry = { kind: "temperature", of: "boiler", celsius: 90, atS: 10 };
    const warming = [bar(0, 0), boilerAt90, level(30, 10)];
    const times = (readings(warming, withGlass(60))[0]?.grams ?? 0) / (readings(warming)[0]?.grams ?? 1);
    // 0.9832 and 0.9653 g/ml at 60 and 90 °C (handbooks)
    expect(times).toBeCloseTo(0.9832 / 0.9653, 3);
  });

  test("is no hotter than the boiler's, and makes no difference in a cold boiler or at the zero", () => {
    expect(readings(held(30), withGlass(200))[0]?.grams).toBeCloseTo(readings(held(30))[0]?.grams ?? 0, 9);
    const cold = [bar(0, 0), level(30, 10)];
    expect(readings(cold, withGlass(60))).toEqual(readings(cold));
    // 15 °C against 5 °C: 0.99910 and 0.99997 g/ml (handbooks)
    const cooler = (readings(cold, withGlass(5))[0]?.grams ?? 0) / (readings(cold)[0]?.grams ?? 0);
    expect(cooler).toBeCloseTo(0.99997 / 0.9991, 4);
    expect(readings(held(0), withGlass(60))).toEqual(readings(held(0)));
    const { boiler: barrel } = smallEngine();
    const below = (glass: object) => readings(held(-5), { boiler: { ...barrel, ...glass } })[0]?.grams;
    expect(below({ glassWaterC: 60 })).toBe(below({}));
  });
});

describe("fillings, drainings and levels", () => {
  const fill = (ml: number, atS: number): Entry => ({ kind: "fill", ml, atS });
  const drained = (ml: number, atS: number): Entry => ({ kind: "drained", ml, atS });
  const told = (entries: Entry[]) =>
    readings(entries).map(({ atS, grams }) => [atS, Number(grams.toFixed(1))]);

  test("the first filling and the last draining tell what there is, by their measure", () => {
    const [first, last, ...rest] = readings([fill(150, 0), fill(20, 5), drained(10, 50), drained(40, 90)], {
      instruments: { volumeReadingMl: 2 },
    });
    expect(rest).toEqual([]);
    expect(first).toMatchObject({
      atS: 0,
      order: 0,
      of: "contents",
      shared: [],
      grams: expect.closeTo(150 * COLD, 2),
      uGrams: expect.closeTo(2 * COLD, 3),
    });
    expect(last).toMatchObject({ atS: 90, order: 3, of: "contents", grams: expect.closeTo(40 * COLD, 2) });
  });

  test("a filling after the glass was read, and what is read after she was drained, tell nothing", () => {
    expect(told([bar(0, 0), level(30, 1), fill(50, 5)])).toEqual([[1, 149.9]]);
    expect(told([bar(0, 0), level(30, 1), drained(100, 50), level(10, 60), fill(150, 70)])).toEqual([
      [1, 149.9],
      [50, 99.9],
    ]);
  });

  // 60 °C: 0.9832 g/ml, 40 °C: 0.9922, 15 °C: 0.9991 (handbooks)
  test("water let out hot is lighter, where the boiler's thermometer was read within ten minutes", () => {
    const let_out = (...read: [of: "boiler" | "flue", celsius: number, atS: number][]) =>
      readings(
        [
          bar(0, 0),
          level(30, 1),
          ...read.map(([of, celsius, atS]): Entry => ({ kind: "temperature", of, celsius, atS })),
          drained(100, 1000),
        ].sort((a, b) => a.atS - b.atS),
      ).at(-1)?.grams;
    expect(let_out(["boiler", 60, 900])).toBeCloseTo(98.32, 1);
    expect(let_out(["boiler", 60, 401])).toBeCloseTo(98.32, 1);
    expect(let_out(["boiler", 60, 400])).toBeCloseTo(99.91, 1);
    expect(let_out(["boiler", 60, 1599])).toBeCloseTo(98.32, 1);
    expect(let_out(["flue", 60, 900])).toBeCloseTo(99.91, 1);
    expect(let_out(["boiler", 60, 700], ["boiler", 40, 900])).toBeCloseTo(99.22, 1);
  });

  // 100 °C: 0.9584 g/ml; 3 bar: hf 605 kJ/kg, 0 bar: hf 419, hfg 2257 (steam tables): 8.24 % boils away; 0.9991/0.9176 = 1.0888
  test("water let out in steam is anything from all measured boiling to cooled with a part boiled away", () => {
    const let_out = (drainedS: number, ...more: Entry[]) =>
      readings([bar(0, 0), level(30, 1), bar(3, 1000), ...more, drained(100, drainedS)], {
        instruments: { volumeReadingMl: 0 },
      }).at(-1);
    expect(let_out(1599)?.grams).toBeCloseTo(50 * (0.9584 + 1.0888), 1);
    expect(let_out(1599)?.uGrams).toBeCloseTo((100 * (1.0888 - 0.9584)) / Math.sqrt(12), 1);
    const cooled = [let_out(1600), let_out(1599, bar(0, 1500))];
    for (const one of cooled) expect(one).toMatchObject({ grams: expect.closeTo(99.91, 2), uGrams: 0 });
    const read: Entry = { kind: "temperature", of: "boiler", celsius: 60, atS: 1500 };
    expect(let_out(1599, read)).toMatchObject({ grams: expect.closeTo(98.32, 1), uGrams: 0 });
  });

  // 10 °C: 0.9997 g/ml, 40 °C: 0.9922 (handbooks)
  test("are measured as cold as the feed going in, as warm as the air coming out", () => {
    const conditions = { ambientC: 40, feedC: 10 };
    const [first, last] = readings([fill(100, 0), drained(100, 900)], {}, { conditions });
    expect([first?.grams, last?.grams]).toEqual([expect.closeTo(99.97, 2), expect.closeTo(99.22, 2)]);
  });

  test("after she was drained nothing tells the water, were it the first thing written down", () => {
    expect(told([drained(100, 0), bar(0, 10), level(30, 20)])).toEqual([[0, 99.9]]);
  });

  // the glass 3 mm above the logger: each gives way (see the instruments), and both tell the same water
  test("a glass and a logger that differ are brought to one level", () => {
    const traces = [
      { channel: "levelMm" as const, startS: 0, everyS: 10, values: Array.from({ length: 91 }, () => 20) },
    ];
    const both = [bar(0, 0), level(23, 300), level(23, 600), level(23, 900)];
    const by = (3 * 1.5 ** 2) / (2 * 1.5 ** 2 + 1 / 3);
    const found = readings(both, {}, { traces });
    const ml = (grams: number) => grams / COLD / 5;
    const ofGlass = found.filter(({ grams }) => ml(grams) > 21.5).map(({ grams }) => ml(grams));
    expect(ofGlass).toEqual([1, 2, 3].map(() => expect.closeTo(23 - by, 2)));
    expect(ml(found[0]?.grams ?? 0)).toBeCloseTo(20 + by, 2);
  });

  test("come in order of time, and within a second of the log", () => {
    const values = [30, 30, 30];
    const traces = [{ channel: "levelMm" as const, startS: 0, everyS: 20, values }];
    const found = readings([bar(0, 0), level(30, 20), level(30, 30)], {}, { traces });
    expect(found.map(({ atS }) => atS)).toEqual([0, 20, 20, 30, 40]);
    const orders = found.map(({ order }) => order);
    expect(orders).toEqual([...orders].sort((a, b) => a - b));
    // the sample at 20 s stands after the entry of that second, the one at 40 s after the last
    expect(orders).toEqual([0, 1, 1, 2, 2]);
  });
});

describe("weighings", () => {
  const weight = (g: number, atS: number): Entry => ({ kind: "weight", g, atS });
  const spirit = (action: "added" | "remaining", g: number, atS: number): Entry => ({
    kind: "fuel",
    action,
    g,
    atS,
  });
  const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
  /** 30 g of spirit burnt evenly in 600 s. */
  const burning = [
    spirit("added", 40, 0),
    fire("lit", 0),
    weight(3000, 1),
    weight(2950, 300),
    fire("out", 600),
    weight(2900, 600),
    spirit("remaining", 10, 600),
  ];

  test("have what was burnt put back, and what was put in since the log began taken off", () => {
    const [first, middle, last] = readings(burning).map(({ grams }) => grams);
    expect(first).toBeCloseTo(3000 + 30 / 600, 2);
    expect(middle).toBeCloseTo(2950 + 15, 1);
    expect(last).toBeCloseTo(2930, 1);
    const refuelled = [
      ...burning.slice(0, 3),
      spirit("added", 20, 200),
      ...burning.slice(3, 6),
      spirit("remaining", 30, 600),
    ];
    expect(readings(refuelled).at(-1)?.grams).toBeCloseTo(2900 + 30 - 20, 1);
    expect(readings(refuelled)[0]?.grams).toBeCloseTo(3000, 0);
    // put in within the very second of the weighing: it is on the scale
    const atOnce = [
      ...burning.slice(0, 3),
      spirit("added", 20, 300),
      ...burning.slice(3, 6),
      spirit("remaining", 30, 600),
    ];
    expect(readings(atOnce)[1]?.grams).toBeCloseTo(2950 + 15 - 20, 0);
  });

  test("fuel noted within five seconds after one is taken as half on the scale, and half in doubt", () => {
    const hurried = (atS: number) => {
      const refuelled = [...burning.slice(0, 3), spirit("added", 20, atS), ...burning.slice(3, 6)];
      const found = readings([...refuelled, spirit("remaining", 30, 600)], {
        instruments: { massReadingG: 0.5 },
      });
      return found[1];
    };
    expect(hurried(305)?.grams).toBeCloseTo(2950 + 15 - 10, 0);
    expect(hurried(305)?.uGrams).toBeCloseTo(Math.hypot(10, 0.5), 6);
    expect(hurried(306)?.grams).toBeCloseTo(2950 + 15, 0);
    expect(hurried(306)?.uGrams).toBeCloseTo(0.5, 6);
  });

  test("with spirit by ml, by its density", () => {
    const ml = (action: "added" | "remaining", amount: number, atS: number): Entry => ({
      kind: "fuel",
      action,
      ml: amount,
      atS,
    });
    const poured = [
      ml("added", 50, 0),
      fire("lit", 0),
      weight(3000, 1),
      ml("added", 20, 300),
      fire("out", 600),
      weight(2900, 600),
      ml("remaining", 30, 600),
    ];
    const fuel = { kind: "spirit" as const, densityGPerMl: 0.8 };
    expect(readings(poured, { fuel }).at(-1)?.grams).toBeCloseTo(2900 + 40 * 0.8 - 20 * 0.8, 1);
  });

  test("are in doubt by the scale and by what was burnt until then", () => {
    const [, , last] = readings(burning, { instruments: { massReadingG: 0.5 } });
    // two weighings of spirit, put in and left, half a gram each, err alike in every weighing and in what was burnt
    expect(last).toMatchObject({ of: "whole engine", uGrams: 0.5 });
    const doubts = last?.shared.filter(({ name }) => name === "fuel readings") ?? [];
    expect(doubts.map(({ uGrams }) => uGrams)).toEqual([expect.closeTo(-0.5, 2), expect.closeTo(-0.5, 2)]);
    const [cold] = readings([weight(3000, 0), weight(3000, 10)], { instruments: { massReadingG: 0.5 } });
    expect(cold).toMatchObject({ grams: 3000, uGrams: 0.5 });
  });

  test("by a logger are weighings, by a logger of anything else none", () => {
    const trace = (channel: "massG" | "temperatureC" | "pressureBarG") => [
      { channel, startS: 0, everyS: 10, values: [90, 89, 88] },
    ];
    const found = readings([bar(0, 0)], {}, { traces: trace("massG") });
    expect(found.map(({ grams, of }) => [grams, of])).toEqual([90, 89, 88].map((g) => [g, "whole engine"]));
    expect(readings([bar(0, 0)], {}, { traces: trace("temperatureC") })).toEqual([]);
  });
});

/** Cold until lit at 0, boiling at 600 s: of what lies between only the ends are known. */
describe("levels read while she warms", () => {
  const warming = readings(
    [
      { kind: "fire", state: "lit", atS: 0 },
      bar(0, 1),
      ...[100, 200, 300, 400, 500].map((atS) => level(30, atS)),
      bar(0, 600),
      bar(1, 660),
      bar(2, 720),
      level(30, 720),
    ],
    { instruments: { ...exactly, levelReadingMm: 0.1 } },
  );
  const guess = (atS: number) =>
    warming.find((one) => one.atS === atS)?.shared.filter(({ name }) => name === "warmth that was guessed");

  test("are all wrong by one error of the course that was guessed, most half-way, and each by its own reading alone", () => {
    const [early, half, late] = [100, 300, 500].map(guess);
    const sources = [early, half, late].map((found) => found?.map(({ source }) => source));
    expect(new Set(sources.flat()).size).toBe(1);
    const u = (found: typeof half) => Math.abs(found?.[0]?.uGrams ?? 0);
    expect(u(half)).toBeGreaterThan(u(early));
    expect(u(half)).toBeGreaterThan(u(late));
    // 0.1 mm of 5 ml each
    for (const { atS, uGrams } of warming) if (atS < 600) expect(uGrams).toBeLessThan(0.51);
    // no guess in steam
    expect(guess(720)).toEqual([]);
  });

  // water swells by 5e-4 a kelvin between 50 and 60 °C (handbooks); 150 ml of 0.98 g, guessed to 0.4 of 85 K x 1/4
  test("by as much as water swells in what the guess is in doubt", () => {
    const u = Math.abs(guess(300)?.[0]?.uGrams ?? 0);
    expect(u / (150 * 0.98 * 5e-4 * 8.5)).toBeGreaterThan(0.85);
    expect(u / (150 * 0.98 * 5e-4 * 8.5)).toBeLessThan(1.15);
  });
});
