import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { roughLossW } from "../../../src/analysis/cooling/cooling.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { type Figure, interval, isMeasured, type Measured } from "../../../src/quantity/measured.ts";
import { cooled, engine, shutIn } from "./cooled-boiler.ts";

const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
const cooling = (
  entries: Entry[],
  head: Partial<Steaming> = {},
  locomotive: Parameters<typeof analyse>[0] = engine(),
) => {
  const section = analyse(locomotive, {
    ...shutIn([]),
    ...head,
    entries: [...entries].sort((a, b) => a.atS - b.atS),
  }).cooling;
  if (section === null) throw new Error("no section");
  return section;
};
const figure = (of: Figure): Measured => {
  if (!isMeasured(of)) throw new Error(of.why);
  return of;
};
const why = (words: string) => ({ value: null, why: expect.stringContaining(words) });
const fire: Entry[] = [
  { kind: "fire", state: "lit", atS: 0 },
  { kind: "fire", state: "out", atS: 1000 },
];

describe("a hot hold in which nothing was shut in", () => {
  const lit: Entry[] = [{ kind: "fire", state: "lit", atS: 0 }];
  const warm = (of: "boiler" | "flue"): Entry => ({ kind: "temperature", of, celsius: 60, atS: 500 });
  const trace = (channel: "temperatureC" | "levelMm", values: number[]) => ({
    traces: [{ channel, startS: 100, everyS: 10, values }],
  });

  test("where the boiler's thermometer was read below boiling, by hand or by a logger, that is why", () => {
    expect(cooling([...lit, warm("boiler")]).leak).toEqual(why("never above boiling"));
    expect(cooling(lit, trace("temperatureC", [20, 30, 40])).leak).toEqual(why("never above boiling"));
  });

  test("a thermometer in the flue and a logger of the glass are none", () => {
    expect(cooling([...lit, warm("flue")]).leak).toEqual(why("nothing was written down"));
    expect(cooling(lit, trace("levelMm", [20, 20, 20])).leak).toEqual(why("nothing was written down"));
  });
});

describe("too few pressures with all shut", () => {
  const rising = [bar(0.5, 100), bar(1, 200), bar(2, 300), bar(3, 400), level(20, 500)];

  test("in a hold of which no fire was written, and whose last pressure is its highest, the fire may still be lit", () => {
    expect(cooling(rising).lossAtWorkingPressure).toEqual(why("was the fire still lit"));
  });

  test.each<[string, Entry[], Partial<Steaming>]>([
    [
      "of which the fire was written",
      [...fire, ...rising.map((entry) => ({ ...entry, atS: entry.atS + 650 }))],
      {},
    ],
    ["of three pressures", rising.slice(1), {}],
    ["whose pressure fell at last", [...rising.slice(1), bar(2.5, 450)], {}],
    [
      "that is a trial",
      [...rising, { kind: "phase", name: "raising", atS: 0 }, { kind: "phase", name: "shut-in", atS: 400 }],
      { purpose: "trial" },
    ],
  ])("not in one %s", (_, entries, head) => {
    expect(cooling(entries, head).lossAtWorkingPressure).toEqual(why("too few pressures"));
  });
});

describe("the readings used", () => {
  const readings = cooled(40, 0.3, 0, 10);
  const times = readings.flatMap(({ kind, atS, ...entry }) =>
    kind === "pressure" && "barG" in entry && entry.barG > 0.2 ? [atS] : [],
  );

  test("are said, from the first to the last with steam still up", () => {
    expect(cooling([...fire, ...readings]).window).toEqual([1000, times.at(-1)]);
  });

  // all later by 200 s, and before them up to the valve and down again
  test("begin where a safety valve of which nobody wrote was shut for good", () => {
    const later = readings.map((entry) => ({ ...entry, atS: entry.atS + 200 }));
    const blown = [bar(2.9, 1000), bar(3.4, 1050), bar(2.5, 1100), level(20, 1000)];
    const { window, lossAtWorkingPressure: loss } = cooling([...fire, ...blown, ...later]);
    expect(window?.[0]).toBe(1100);
    expect(figure(loss).value).toBeGreaterThan(0);
  });
});

describe("a pressure that does not fall", () => {
  const held = (bars: number[]) =>
    cooling([...fire, level(20, 1000), ...bars.map((barG, i) => bar(barG, 1000 + 60 * i))]);

  test.each([
    ["in its later half, though it did before", [3, 2.9, 2.8, 2.7, 2.7, 2.705, 2.71, 2.715]],
    ["on the whole, though it did in its later half", [1, 1.8, 2.4, 2.8, 3, 3, 2.99, 2.98]],
  ])("%s", (_, bars) => {
    expect(held(bars).lossAtWorkingPressure).toEqual(why("did not fall"));
    expect(held(bars).leak).toEqual(why("did not fall"));
  });
});

describe("a first guess of the loss", () => {
  const rough = (storedJ: number[], lossMeasures: number[]) =>
    roughLossW({
      storedJ: Float64Array.from(storedJ),
      lossMeasures: Float64Array.from(lossMeasures),
      workingMeasure: 5,
    });

  // 3 J for each of the measure is 15 W at working pressure
  test("is that of the later half of the readings, whatever a dying fire made of the first", () => {
    const measures = [0, 10, 30, 40, 60, 90, 100, 130];
    const exactly = measures.map((measure) => 1000 - 3 * measure);
    expect(rough(exactly, measures)).toBeCloseTo(15, 9);
    expect(rough([5, 700, -3, 0, ...exactly.slice(4)], measures)).toBeCloseTo(15, 9);
  });

  // of 80 and 88 in the one quarter and 94 and 100 in the other, over 60, 90 and 100, 130: (91 - 87) over (115 - 75), times 5
  test("by the means of the two quarters in it", () => {
    expect(rough([0, 0, 0, 0, 100, 94, 92, 82], [0, 10, 30, 40, 60, 90, 100, 130])).toBeCloseTo(
      (5 * 10) / 40,
      9,
    );
  });

  test("of five readings by the third against the last two", () => {
    expect(rough([0, 0, 100, 90, 80], [0, 5, 10, 20, 40])).toBeCloseTo((5 * 15) / 20, 9);
  });
});

describe("when the fire was put out", () => {
  const coal = { ...engine(), fuel: { kind: "coal" as const } };
  const readings = cooled(40, 0.3, 0, 10);
  const lossOf = (entries: Entry[], locomotive: Parameters<typeof analyse>[0] = coal) =>
    figure(cooling([...entries, ...readings], {}, locomotive).lossAtWorkingPressure);

  test("coals of a fire lit again later gave nothing to the hold before", () => {
    const again: Entry[] = [
      { kind: "fire", state: "lit", atS: 1960 },
      { kind: "fire", state: "out", atS: 1970 },
    ];
    // ten seconds of fire after the hold are told from what leaked by 0.01 mW in what the boiler held; coals would give watts
    expect(lossOf([...fire, ...again]).value).toBeCloseTo(lossOf(fire).value, 4);
  });

  // run on for ten minutes after: 600 s of 350 at the most leave a sixth of what coals give, of 60 next to nothing
  test("coals put out while she still ran are all but dead when she is shut in", () => {
    const ran: Entry[] = [
      { kind: "fire", state: "lit", atS: 0 },
      { kind: "fire", state: "out", atS: 200 },
      { kind: "regulator", state: "open", atS: 100 },
      { kind: "regulator", state: "shut", atS: 1000 },
    ];
    const spirit = lossOf(ran, engine());
    expect(lossOf(ran).value / spirit.value).toBeCloseTo(1, 2);
    const ofFire = (loss: Measured) => loss.parts.find(({ name }) => name === "heat of the dying fire")?.u;
    expect(ofFire(lossOf(ran))).toBeLessThan(0.3 * (ofFire(lossOf(fire)) ?? 0));
  });
});

describe("steam used in the hold", () => {
  const all = cooled(12, 0.1, 0, 10, 1800);
  const used: Entry[] = [
    { kind: "regulator", state: "open", atS: 2805 },
    { kind: "regulator", state: "shut", atS: 2815 },
  ];
  const loss = (entries: Entry[]) => figure(cooling([...fire, ...entries]).lossAtWorkingPressure);
  const once = all.filter((entry) => entry.kind === "pressure" || entry.atS === 1000);
  const last = all.findLast((entry) => entry.kind === "level");
  if (last === undefined) throw new Error("no glass");
  const after = (mm: number) => loss([...once, ...used, level(last.mm + mm, 3000)]);

  test("after the glass has told the leak changes nothing", () => {
    const [without, withUse] = [loss(all), loss([...all, ...used, level(last.mm - 5, 3000)])];
    expect(withUse.value / without.value).toBeCloseTo(1, 1);
    expect(interval(withUse)[0]).toBeCloseTo(interval(without)[0], 0);
  });

  test("beyond nine tenths of all the heat, more that is gone makes no more of the leak", () => {
    expect(interval(after(-6))[0]).toBeCloseTo(interval(after(-9))[0], 3);
    expect(interval(after(-9))[0]).toBeGreaterThan(0);
  });

  // 0.1 g/min of steam take 3.5 W beside the 12: half as much again may have left unseen
  test("up to that, the loss may be less by what the leak may take", () => {
    const [low, high] = interval(after(-0.5));
    expect(low).toBeLessThan(12);
    expect(low).toBeGreaterThan(interval(after(-6))[0] + 0.5);
    expect(high).toBeGreaterThan(12);
  });
});
