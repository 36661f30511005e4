import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { cooled, engine, shutIn } from "./cooled-boiler.ts";

const fire: Entry[] = [
  { kind: "fire", state: "lit", atS: 0 },
  { kind: "fire", state: "out", atS: 1000 },
];
const mark = (name: "raising" | "standing" | "running" | "shut-in", atS: number): Entry => ({
  kind: "phase",
  name,
  atS,
});
/** Cooling from 3 bar with 40 W at working pressure, dial and glass read each minute from 1000 s to 1900 s. */
const readings = cooled(40, 0.3, 0, 10);
const lossOf = (entries: Entry[], head: Partial<Steaming> = {}) =>
  analyse(engine(), { ...shutIn([]), ...head, entries: [...entries].sort((a, b) => a.atS - b.atS) }).cooling
    ?.lossAtWorkingPressure;
const watts = (...log: Parameters<typeof lossOf>): number => {
  const loss = lossOf(...log);
  if (loss === undefined || !isMeasured(loss)) throw new Error(loss?.why ?? "no section");
  return loss.value;
};
const why = (words: string) => ({ value: null, why: expect.stringContaining(words) });

describe("marks from before the fire was out", () => {
  const marked = [...fire, mark("raising", 0), mark("standing", 900), ...readings];

  test("do not hide that she was shut in after it", () => {
    const asMarked = watts([...fire, mark("shut-in", 1000), ...readings]);
    expect(Math.abs(asMarked - 40)).toBeLessThan(4);
    expect(watts(marked)).toBeCloseTo(asMarked, 1);
    // standing, a trial's engine may draw otherwise than she leaks: the glass weighs a little otherwise
    expect(watts(marked, { purpose: "trial" })).toBeCloseTo(asMarked, 0);
  });

  test("of running do, unless the regulator was written as shut", () => {
    const ran = [...fire, mark("raising", 0), mark("running", 900), ...readings];
    expect(lossOf(ran)).toEqual(why("marked as running to the end"));
    expect(lossOf(ran, { purpose: "trial" })).toBeUndefined();
    const shut: Entry[] = [
      { kind: "regulator", state: "open", atS: 900 },
      { kind: "regulator", state: "shut", atS: 1000 },
    ];
    expect(Math.abs(watts([...ran, ...shut]) - 40)).toBeLessThan(4);
  });

  test("and a fire never written as put out is that, though the thermometer passed boiling", () => {
    const warm = (celsius: number): Entry => ({ kind: "temperature", of: "boiler", celsius, atS: 1500 });
    const lit = fire.slice(0, 1);
    expect(lossOf([...lit, mark("standing", 0), warm(122)])).toEqual(why("say when the fire is out"));
    expect(lossOf([...lit, mark("standing", 0), warm(90)])).toEqual(why("never above boiling"));
    expect(lossOf([...lit, mark("standing", 0), warm(90), ...readings])).toEqual(
      why("say when the fire is out"),
    );
  });
});

describe("enough was read, but for what was done meanwhile", () => {
  const often = (entry: (atS: number) => Entry) => [1150, 1300, 1450, 1600, 1750].map(entry);
  const feed = (atS: number): Entry => ({ kind: "feed", ml: 2, by: "bottle", atS });
  const blow = (atS: number): Entry => ({ kind: "blowdown", ml: 2, atS });

  test.each<[string, Entry[], string]>([
    ["feeding", often(feed), "she was fed while all else was shut"],
    ["blowing down", often(blow), "she was blown down while all else was shut"],
    ["both", [...often(feed), ...often((atS) => blow(atS + 1))], "she was fed and she was blown down"],
    [
      "a regulator left open",
      [{ kind: "regulator", state: "open", atS: 900 }],
      "regulator was written as open and never",
    ],
    ["a blower left on", [{ kind: "blower", state: "on", atS: 900 }], "blower was written as on and never"],
    [
      "a valve that lifts still",
      [{ kind: "valve", state: "lifts", atS: 900 }],
      "as lifting and never as reseated",
    ],
    [
      "steam let to the engine",
      often((atS) => ({ kind: "regulator", state: atS % 100 === 50 ? "open" : "shut", atS })).concat({
        kind: "regulator",
        state: "shut",
        atS: 1800,
      }),
      "steam was let to the engine",
    ],
  ])("%s is said", (_, entries, words) => {
    const loss = lossOf([...fire, ...readings, ...entries]);
    expect(loss).toEqual(why(words));
  });

  test("a fire marked as shut in that burns on", () => {
    expect(lossOf([...fire.slice(0, 1), mark("shut-in", 1000), ...readings])).toEqual(
      why("the fire was written as lit and never as put out"),
    );
  });

  test("a feed beside too few readings is not what is missing", () => {
    const few = readings.filter(({ atS }) => atS === 1000 || atS === 1600);
    expect(lossOf([...fire, ...few, feed(1300)])).toEqual(why("too few pressures were read"));
  });
});

describe("enough was read", () => {
  test("but the pressure rose again", () => {
    const bars = [3, 2.5, 2.9, 2.4, 2.9, 2.3, 2.9];
    const zigzag = bars.map((barG, i): Entry => ({ kind: "pressure", barG, atS: 1060 + 60 * i }));
    expect(lossOf([...fire, { kind: "level", mm: 20, atS: 1000 }, ...zigzag])).toEqual(
      why("rose again after it fell"),
    );
  });

  test("of a thermometer that does not go with the dial, which was read twice only", () => {
    const dial = readings.filter(({ atS }) => atS === 1060 || atS === 1660);
    const warm = Array.from(
      { length: 14 },
      (_, i): Entry => ({ kind: "temperature", of: "boiler", celsius: 115, atS: 1060 + 60 * i }),
    );
    expect(lossOf([...fire, ...dial, ...warm])).toEqual(why("thermometer does not go with the dial"));
  });

  test("but by a dial that may err by as much", () => {
    const instruments = { ...engine().instruments, pressureBiasBar: 1.5 };
    const { cooling } = analyse(
      { ...engine(), instruments },
      { ...shutIn([]), entries: [...fire, ...readings] },
    );
    expect(cooling?.lossAtWorkingPressure).toEqual(why("lost in what dial or logger may err by"));
  });
});
