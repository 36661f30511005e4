import { describe, expect, test } from "vitest";
import { blownUntilS, coolingReadings, shutInWindow } from "../../../src/analysis/cooling/shut-in-course.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
const boilerAt = (celsius: number, atS: number): Entry => ({
  kind: "temperature",
  of: "boiler",
  celsius,
  atS,
});
const sources = (entries: Entry[], head: Partial<Steaming> = {}, instruments = {}) =>
  sourcesOf(
    { ...smallEngine(), instruments: { pressureReadingBar: 0.01, pressureBiasBar: 0.02, ...instruments } },
    {
      ...smallSteaming(),
      purpose: "hot-hold",
      conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1013.25 },
      ...head,
      entries: [...entries].sort((a, b) => a.atS - b.atS),
    },
  );

describe("the window in which all was shut", () => {
  const held = [fire("lit", 0), bar(3, 900), fire("out", 1000), bar(2, 2000)];
  const window = (more: Entry[] = [], head: Partial<Steaming> = {}) =>
    shutInWindow(sources([...held, ...more], head));

  test("is from fire out to the last entry, the longest part that nothing breaks", () => {
    expect(window()).toEqual([1000, 2000]);
    expect(window([fire("lit", 1300), fire("out", 1400)])).toEqual([1400, 2000]);
    expect(window([fire("lit", 1700), fire("out", 1800)])).toEqual([1000, 1700]);
  });

  test("a fire that is put out had been lit, though nobody wrote it down", () => {
    const mark: Entry = { kind: "phase", name: "shut-in", atS: 400 };
    expect(shutInWindow(sources([bar(3, 300), mark, fire("out", 1000), bar(2, 2000)]))).toEqual([1000, 2000]);
  });

  test.each<[string, Entry]>([
    ["feeding", { kind: "feed", ml: 5, by: "bottle", atS: 1600 }],
    ["blowing down", { kind: "blowdown", ml: 5, atS: 1600 }],
    ["filling", { kind: "fill", ml: 5, atS: 1600 }],
    ["draining", { kind: "drained", ml: 5, atS: 1600 }],
  ])("%s ends it", (_, entry) => {
    expect(window([entry])).toEqual([1000, 1600]);
    expect(window([{ ...entry, atS: 1400 }])).toEqual([1400, 2000]);
  });

  test("what is fed once the fire is lit again does not, and of two parts alike it is the first", () => {
    const again = [fire("lit", 1700)];
    expect(window([...again, { kind: "feed", ml: 5, by: "bottle", atS: 1900 }])).toEqual([1000, 1700]);
    expect(window([{ kind: "feed", ml: 5, by: "bottle", atS: 1500 }])).toEqual([1000, 1500]);
  });

  test("blower, safety valve and regulator are no part of it", () => {
    const through = (kind: "blower" | "valve" | "regulator", on: string, off: string) =>
      window([{ kind, state: on, atS: 1200 } as Entry, { kind, state: off, atS: 1300 } as Entry]);
    expect(through("blower", "on", "off")).toEqual([1300, 2000]);
    expect(through("valve", "lifts", "reseats")).toEqual([1300, 2000]);
    expect(through("regulator", "open", "shut")).toEqual([1300, 2000]);
    // and where one of them was never shut again there is no window, only where it would have begun
    expect(window([{ kind: "blower", state: "on", atS: 900 }])).toEqual([1000, 1000]);
  });

  test("on a trial whose regulator nobody wrote down she may have rolled on for two minutes", () => {
    expect(window([], { purpose: "trial" })).toEqual([1120, 2000]);
    expect(window([{ kind: "phase", name: "shut-in", atS: 1000 }], { purpose: "trial" })).toEqual([
      1000, 2000,
    ]);
    const shut: Entry[] = [
      { kind: "regulator", state: "open", atS: 920 },
      { kind: "regulator", state: "shut", atS: 990 },
    ];
    expect(window(shut, { purpose: "trial" })).toEqual([1000, 2000]);
    expect(shutInWindow(sources([...held.slice(0, 3), bar(2, 1060)], { purpose: "trial" }))).toEqual([
      1060, 1060,
    ]);
  });

  test("never where no phase is called so", () => {
    expect(shutInWindow(sources([fire("lit", 0), bar(3, 900)]))).toBeNull();
  });
});

describe("the readings of a shut-in", () => {
  const readingsOf = (entries: Entry[], instruments = {}, from = 0, to = 9999) =>
    coolingReadings(sources(entries, {}, instruments), from, to);
  const bars = (list: ReturnType<typeof readingsOf>) => list.map(({ barG }) => barG);

  // water boils at 1.6918 bar at 115 °C (steam tables), and by Clapeyron 2216 kJ/kg / (388.15 K x 1.0355 m3/kg) = 0.0551 bar/K
  test("a thermometer of the boiler above boiling is a pressure, good to one kelvin and free of the dial's bias", () => {
    const [dial, read, ...none] = readingsOf([
      bar(1, 10),
      boilerAt(115, 120),
      boilerAt(99, 130),
      boilerAt(330, 140),
      { kind: "temperature", of: "flue", celsius: 115, atS: 150 },
    ]);
    expect(none).toEqual([]);
    expect(dial).toEqual({ atS: 10, barG: 1, uBar: 0.01, biasBar: 0.02 });
    expect(read?.atS).toBe(120);
    expect(read?.barG).toBeCloseTo(1.6918 - 1.01325, 3);
    expect(read?.uBar).toBeCloseTo(0.0551, 3);
    expect(read?.biasBar).toBe(0);
  });

  test("so are the samples of a logger of temperature, gaps left out, in order with the dial", () => {
    const steaming = {
      traces: [
        { channel: "temperatureC" as const, startS: 100, everyS: 10, values: [120, null, 119, 118] },
        { channel: "levelMm" as const, startS: 100, everyS: 10, values: [118] },
      ],
    };
    const list = coolingReadings(sources([bar(0.9, 105)], steaming), 0, 9999);
    expect(list.map(({ atS }) => atS)).toEqual([100, 105, 120, 130]);
    expect(list[0]?.barG).toBeCloseTo(1.9867 - 1.01325, 3); // psat(120 °C), IF97
  });

  test("from the first to the last second of the window", () => {
    const entries = [bar(3, 100), bar(2.9, 200), bar(2.8, 300), bar(2.7, 400)];
    expect(bars(readingsOf(entries, {}, 200, 300))).toEqual([2.9, 2.8]);
  });

  test("down to a fifth of a bar, four times the reading's error, or three times the dial's bias, what is most", () => {
    const down = [0.8, 0.6, 0.5, 0.35, 0.3, 0.21, 0.19].map((barG, i) => bar(barG, 100 * i));
    const last = (instruments: object) => bars(readingsOf(down, instruments)).at(-1);
    // each is judged with as many neighbours to either side: the last but one by the mean of 0.3, 0.21 and 0.19
    expect(last({})).toBe(0.21);
    expect(last({ pressureReadingBar: 0.06 })).toBe(0.3);
    expect(last({ pressureBiasBar: 0.11 })).toBe(0.35);
  });

  test("from the first on: at the least itself it counts, and where the first is below it none does", () => {
    expect(bars(readingsOf([bar(0.2, 0)]))).toEqual([0.2]);
    expect(readingsOf([bar(0.19, 0), bar(0.19, 100), bar(0.19, 200)])).toEqual([]);
  });

  test("a thermometer read where there is no dial counts once", () => {
    const list = readingsOf([boilerAt(130, 0), boilerAt(128, 100), boilerAt(126, 200)]);
    expect(list.map(({ atS, biasBar }) => [atS, biasBar])).toEqual([
      [0, 0],
      [100, 0],
      [200, 0],
    ]);
  });

  test("one low reading among high ones does not end them, and what is low for good does", () => {
    const list = [2, 1.8, 1.6, 0.1, 1.2, 1, 0.8].map((barG, i) => bar(barG, 100 * i));
    expect(bars(readingsOf(list))).toHaveLength(7);
    const low = [2, 1, 0.5, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1].map((barG, i) => bar(barG, 100 * i));
    // means of seven about each: 0.557 at the fourth, 0.286 at the fifth, 0.157 at the sixth (three to a side: 0.5 to 0.1)
    expect(bars(readingsOf(low))).toEqual([2, 1, 0.5, 0.1, 0.1]);
  });

  test("more than forty are put together by twos, with the mean of time and pressure, and an error less by root two", () => {
    const down = Array.from({ length: 80 }, (_, i) => bar(3 - i / 100, 10 * i));
    const list = readingsOf(down);
    expect(list).toHaveLength(40);
    expect(list[0]?.atS).toBeCloseTo(5, 9);
    expect(list[0]?.barG).toBeCloseTo(2.995, 9);
    expect(list[0]?.uBar).toBeCloseTo(0.01 / Math.SQRT2, 9);
    expect(list[0]?.biasBar).toBeCloseTo(0.02, 9);
    expect(list[39]?.atS).toBeCloseTo(785, 9);
    expect(readingsOf(down.slice(0, 40))).toHaveLength(40);
    expect(readingsOf(down.slice(0, 41))).toHaveLength(21);
  });

  test("a thermometer among them weighs by its own error", () => {
    // 120 °C is 0.9734 bar, good to 2202 kJ/kg / (393.15 K x 0.8908 m3/kg) = 0.0629; the dial reads 1.0 to 0.01: all but the dial's
    const pair = (i: number): Entry[] => [bar(1, 10 * i), boilerAt(120, 10 * i + 5)];
    const list = readingsOf(Array.from({ length: 30 }, (_, i) => pair(i)).flat());
    expect(list).toHaveLength(30);
    const share = 0.01 ** 2 / (0.01 ** 2 + 0.0629 ** 2);
    expect(list[0]?.atS).toBeCloseTo(5 * share, 2);
    expect(list[0]?.barG).toBeCloseTo(1 - share * (1 - 0.9734), 4);
    expect(list[0]?.biasBar).toBeCloseTo(0.02 * (1 - share), 4);
  });

  // means of two that go 0.2 up and down: each strays 0.4 from the line between its neighbours
  test("no group is better than groups stray from the line between their neighbours", () => {
    const saw = Array.from({ length: 80 }, (_, i) => bar(2 + (i % 4 < 2 ? 0.1 : -0.1), 10 * i));
    for (const { uBar } of readingsOf(saw)) expect(uBar).toBeCloseTo(0.4 / 0.6745 / Math.sqrt(6), 6);
  });
});

// dial good to 0.01 bar: five times the error of a difference is 0.0707
describe("a safety valve of which nobody wrote has blown", () => {
  const until = (bars: number[]) =>
    blownUntilS(bars.map((barG, i) => ({ barG, atS: 1010 + 10 * i, uBar: 0.01, biasBar: 0 })));

  test("where another rise follows a fall: what is left begins at the lowest between", () => {
    expect(until([2.8, 2.9, 3.0, 2.9, 2.75, 2.7, 2.72, 2.8, 2.85, 2.8, 2.6, 2.4])).toBe(1060);
    expect(until([2.8, 3.0, 2.85, 2.95, 2.7])).toBe(1030);
    expect(until([3.0, 2.9, 2.7, 2.8, 2.9, 2.7, 2.6, 2.7, 2.8, 2.6])).toBe(1070);
  });

  test("not where the pressure rises once over glowing coals, falls from the first, or strays by its reading errors", () => {
    expect(until([2.8, 2.9, 3.0, 2.9, 2.7, 2.5, 2.2])).toBeNull();
    expect(until([3.0, 2.9, 2.7, 2.5, 2.2])).toBeNull();
    expect(until([3.0, 2.9, 2.8, 2.87, 2.7, 2.76, 2.6])).toBeNull();
    expect(until([2.8, 2.73, 2.9, 2.83, 3.0])).toBeNull();
  });

  test("by hair's breadth: a rise of 0.07 is chance, one of 0.08 is none", () => {
    expect(until([3.0, 2.8, 2.87, 2.6])).toBeNull();
    expect(until([3.0, 2.8, 2.88, 2.6])).toBe(1020);
    expect(until([2.87, 2.8, 3.0, 2.6])).toBeNull();
    expect(until([2.88, 2.8, 3.0, 2.6])).toBe(1020);
  });

  test("and with no pressure read nothing tells it", () => {
    expect(until([])).toBeNull();
  });
});
