import { describe, expect, test } from "vitest";
import type { CoolingReading } from "../../../src/analysis/cooling/shut-in-course.ts";
import { mostLeaked, shutInWater, usedInHold } from "../../../src/analysis/cooling/shut-in-water.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { waterOf } from "../../../src/analysis/water/water.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import {
  type Figure,
  isMeasured,
  type Measured,
  standardUncertainty,
} from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** A boiler whose glass is a straight measure, 2 ml a mm, read very finely. */
const engine: Locomotive = {
  ...smallEngine(),
  boiler: {
    ...smallEngine().boiler,
    shape: {
      kind: "table",
      totalMl: 200,
      points: [
        { levelMm: 0, waterMl: 0 },
        { levelMm: 100, waterMl: 200 },
      ],
    },
  },
  instruments: {
    levelReadingMm: 0.01,
    feedRelative: 0,
    pressureReadingBar: 0.001,
    pressureBiasBar: 0,
    volumeReadingMl: 0.02,
    massReadingG: 0.02,
  },
};
const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
/** Held at 3 bar, shut in from 1000 to 2000 s: 16.67 minutes of full flow. */
const held = [bar(3, 0), bar(3, 1000), bar(3, 2000)];
const COOLING: [CoolingReading, CoolingReading] = [
  { atS: 1000, barG: 3, uBar: 0.001, biasBar: 0 },
  { atS: 2000, barG: 3, uBar: 0.001, biasBar: 0 },
];
const withPump: Locomotive = { ...engine, axlePump: { ramMm: 5, strokeMm: 8, strokesPerRev: 1 } };
const sourcesWith = (
  entries: Entry[],
  head: Partial<Steaming> = {},
  dial: readonly Entry[] = held,
  locomotive = engine,
) =>
  sourcesOf(locomotive, {
    ...smallSteaming(),
    purpose: "hot-hold",
    ...head,
    entries: [...dial, ...entries].sort((a, b) => a.atS - b.atS),
  });
const told = (...log: Parameters<typeof sourcesWith>) => {
  const sources = sourcesWith(...log);
  return shutInWater(sources, waterOf(sources), [1000, 2000], COOLING);
};
const figure = (of: Figure): Measured => {
  if (!isMeasured(of)) throw new Error(of.why);
  return of;
};
/** Water at 3 bar g: 1.0836 ml/g, and steam of 462.2 ml/g in the place of what left (steam tables): g for a ml of level. */
const G_PER_ML = 1 / 1.0836 - 1 / 462.2;
const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
const weight = (g: number, atS: number): Entry => ({ kind: "weight", g, atS });
const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const out: Entry = { kind: "fire", state: "out", atS: 900 };

describe("the water of a boiler shut in", () => {
  test("by the glass at both ends: what left between them, and what she holds at first", () => {
    const { contents, drop } = told([level(60, 1000), level(55, 2000)]);
    if (drop === null) throw new Error("no drop");
    expect(drop.left.value).toBeCloseTo(10 * G_PER_ML, 1);
    expect(drop.perLeakG).toBeCloseTo(1000 / 60, 6);
    expect(figure(contents).value).toBeCloseTo(120 / 1.0836 + 80 / 462.2, 1);
  });

  test("by readings within it: between these, and no further", () => {
    const { drop } = told([level(60, 1300), level(58, 1600)]);
    expect(drop?.left.value).toBeCloseTo(4 * G_PER_ML, 1);
    expect(drop?.perLeakG).toBeCloseTo(5, 6);
  });

  test("a reading two minutes beside an end stands for it, and one further off does not", () => {
    const from = (beforeS: number, afterS: number) =>
      told([level(60, 1000 - beforeS), level(57, 1500), level(55, 2000 + afterS)]).drop?.perLeakG;
    expect(from(120, 120)).toBeCloseTo(1000 / 60, 6);
    expect(from(121, 0)).toBeCloseTo(500 / 60, 6);
    expect(from(0, 121)).toBeCloseTo(500 / 60, 6);
  });

  test("by the weight of the engine: what left, and not what she holds", () => {
    const { contents, drop } = told([out, weight(3000, 1000), weight(2990, 2000)]);
    expect(drop?.left.value).toBeCloseTo(10, 1);
    expect(contents).toEqual({ value: null, why: expect.stringContaining("the engine was weighed") });
    const filled = told([out, { kind: "fill", ml: 120, atS: 950 }, weight(3000, 1000), weight(2990, 2000)]);
    expect(figure(filled.contents).value).toBeGreaterThan(100);
  });

  test("by one reading near it: what she holds, in doubt by half a gram for each minute from the first pressure", () => {
    const at = (atS: number) => told([level(60, atS)]);
    const { contents, drop, why } = at(1000);
    expect(drop).toBeNull();
    expect(why).toContain("once only");
    expect(figure(contents).value).toBeCloseTo(120 / 1.0836 + 80 / 462.2, 1);
    expect(
      figure(contents).parts.find(({ source }) => source === "boiler volume of small")?.u,
    ).toBeGreaterThan(0.5);
    const part = (of: Figure) => figure(of).parts.find(({ name }) => name === "leak not known")?.u ?? 0;
    expect(figure(contents).parts.map(({ name }) => name)).toEqual(["readings", "volume of the boiler"]);
    expect(part(contents)).toBe(0);
    expect(part(at(1600).contents)).toBeCloseTo(5, 9);
    for (const atS of [880, 2120]) expect(at(atS).contents.value).not.toBeNull();
    for (const atS of [879, 2121])
      expect(at(atS).contents).toEqual({ value: null, why: expect.stringContaining("once only") });
    expect(told([weight(3000, 1000)]).contents.value).toBeNull();
    expect(told([]).contents).toEqual({ value: null, why: expect.stringContaining("nothing was read") });
  });
});

describe("filled before, let out after, and nothing used", () => {
  const cold: Entry[] = [
    { kind: "fill", ml: 130, atS: 0 },
    // let out cold, by the boiler's thermometer
    { kind: "temperature", of: "boiler", celsius: 15, atS: 3000 },
    { kind: "drained", ml: 110, atS: 3000 },
  ];
  // shut in from 1000 to 2000 s of a log from 0 to 3000 at 3 bar throughout
  const after = [bar(3, 3000)];
  const whole = (more: Entry[] = [], head: Partial<Steaming> = {}) =>
    told([...after, ...cold, ...more], head);

  test("what left is by all the time there was pressure, and goes as that went by", () => {
    const { contents, drop } = whole();
    if (drop === null) throw new Error("no drop");
    expect(drop.left.value).toBeCloseTo(20 * 0.9991, 1);
    expect(drop.perLeakG).toBeCloseTo(50, 6);
    // a third of it by 1000 s
    expect(figure(contents).value).toBeCloseTo((130 - 20 / 3) * 0.9991, 1);
    expect(standardUncertainty(figure(contents))).toBeLessThan(0.05);
  });

  // steam unread for 500 s: half of full flow, give or take three tenths, 2.5 of 45.8 minutes' worth of 20 g
  test("what went while nobody read the pressure is in doubt, in the leak and in what she holds", () => {
    const { contents, drop } = told([...after, ...cold], {}, [bar(3, 500), ...held.slice(1)]);
    expect(drop?.perLeakG).toBeCloseTo((0.5 * 500 + 2500) / 60, 6);
    expect(drop?.uG).toBeCloseTo(2.5, 6);
    const doubt = figure(contents).parts.find(({ name }) => name === "leak not known")?.u;
    expect(doubt).toBeCloseTo((20 * 0.9991 * 2.5) / 45.83, 2);
  });

  // 20 g lighter from 100 to 3000 s at an even pressure: 6.9 g of the filling gone by 1000 s
  test("filled, and weighed outside the hold: the weights tell the leak, and the filling what she holds", () => {
    const { contents, drop } = told([
      ...after,
      { kind: "fire", state: "out", atS: 0 },
      { kind: "fill", ml: 130, atS: 0 },
      weight(3000, 100),
      weight(2980, 3000),
    ]);
    expect(drop?.left.value).toBeCloseTo(20, 1);
    expect(drop?.perLeakG).toBeCloseTo(2900 / 60, 6);
    expect(figure(contents).value).toBeCloseTo(130 * 0.9991 - (20 * 1000) / 2900, 1);
  });

  test.each<[string, Entry[]]>([
    ["laps", [{ kind: "lap", count: 1, atS: 500 }]],
    ["turns", [{ kind: "revolutions", count: 9, atS: 500 }]],
    ["the blower", [{ kind: "blower", state: "on", atS: 500 }]],
    ["the regulator", [{ kind: "regulator", state: "open", atS: 500 }]],
    ["the safety valve", [{ kind: "valve", state: "lifts", atS: 500 }]],
    ["a run that was marked", [{ kind: "phase", name: "running", atS: 500 }]],
  ])("with steam used by %s the leak is not told", (_, used) => {
    const { drop, why } = whole(used);
    expect(drop).toBeNull();
    expect(why).not.toBe("");
  });

  test("nor on a trial, where steam may have been used unsaid; what shuts uses none", () => {
    expect(whole([], { purpose: "trial" }).drop).toBeNull();
    const shut: Entry[] = [
      { kind: "regulator", state: "shut", atS: 10 },
      { kind: "blower", state: "off", atS: 10 },
      { kind: "bypass", state: "open", atS: 10 },
      { kind: "fire", state: "lit", atS: 20 },
    ];
    expect(whole(shut).drop).not.toBeNull();
  });
});

describe("steam used once she was shut in", () => {
  const hold: Entry[] = [
    { kind: "fire", state: "lit", atS: 0 },
    { ...out, atS: 1000 },
  ];
  const used = (entry: Entry, head: Partial<Steaming> = {}) =>
    usedInHold(sourcesWith([...hold, entry], head));

  test.each<[string, Entry]>([
    ["a lap", { kind: "lap", count: 1, atS: 1500 }],
    ["turns", { kind: "revolutions", count: 9, atS: 1500 }],
    ["the regulator opened", { kind: "regulator", state: "open", atS: 1500 }],
    ["the blower put on", { kind: "blower", state: "on", atS: 1500 }],
    ["the safety valve that lifts", { kind: "valve", state: "lifts", atS: 1500 }],
  ])("by %s", (_, entry) => {
    expect(used(entry)).toBe(true);
    expect(used({ ...entry, atS: 500 })).toBe(false);
    expect(used(entry, { purpose: "trial" })).toBe(false);
  });

  test.each<[string, Entry]>([
    ["the regulator shut", { kind: "regulator", state: "shut", atS: 1500 }],
    ["the blower put off", { kind: "blower", state: "off", atS: 1500 }],
    ["the safety valve that reseats", { kind: "valve", state: "reseats", atS: 1500 }],
    ["a by-pass opened", { kind: "bypass", state: "open", atS: 1500 }],
  ])("not by %s", (_, entry) => {
    expect(used(entry)).toBe(false);
  });

  test("nor where she was never shut in, nor at the moment that she was", () => {
    expect(
      usedInHold(
        sourcesWith([
          { kind: "fire", state: "lit", atS: 0 },
          { kind: "lap", count: 1, atS: 1500 },
        ]),
      ),
    ).toBe(false);
    expect(used({ kind: "blower", state: "on", atS: 1000 })).toBe(false);
  });
});

describe("the most that may have leaked", () => {
  const most = (entries: Entry[]) => {
    const sources = sourcesWith(entries);
    return mostLeaked(sources, waterOf(sources), COOLING);
  };

  // 5 mm of 2 ml, each read to 0.01 mm, over 16.67 minutes of full flow
  test("is the upper end of what left between the last reading before and the last of all, over the minutes of full flow", () => {
    const [left, u] = [10 * G_PER_ML, Math.hypot(0.02, 0.02) * G_PER_ML];
    const minutes = 1000 / 60;
    expect((most([level(60, 1000), level(55, 2000)]) ?? 0) * minutes - left).toBeCloseTo(1.96 * u, 0);
    const between = most([level(62, 500), level(60, 1000), level(58, 1500), level(55, 2000)]) ?? 0;
    expect(between * minutes - left).toBeCloseTo(1.96 * u, 0);
  });

  test("a reading within two minutes of the first pressure stands for it", () => {
    expect(most([level(60, 1120), level(55, 2000)])).toBeCloseTo((10 * G_PER_ML) / (880 / 60), 1);
    expect(most([level(60, 1121), level(55, 2000)])).toBeNull();
  });

  test("none where the water seems to have grown", () => {
    expect(most([level(55, 1000), level(60, 2000)])).toBe(0);
  });

  test("is not told by one reading, none, or two of different kinds", () => {
    expect(most([])).toBeNull();
    expect(most([level(60, 1000)])).toBeNull();
    expect(most([lit, out, level(61, 950), level(60, 1000), weight(3000, 2000)])).toBeNull();
  });
});

describe("readings of which none tells what left", () => {
  const twice = "the water was read twice only";

  test("the glass before and the scales after: what left between the two of the glass, and not what she holds", () => {
    const { contents, drop } = told([lit, out, level(60, 950), level(60, 1000), weight(3000, 2000)]);
    expect(contents).toEqual({ value: null, why: expect.stringContaining(twice) });
    expect(drop?.perLeakG).toBeCloseTo(50 / 60, 6);
  });

  test("two of the glass while an axle pump may have fed unseen", () => {
    const { contents, drop, why } = told(
      [
        { kind: "phase", name: "shut-in", atS: 0 },
        { kind: "bypass", state: "shut", atS: 0 },
        level(60, 1000),
        level(55, 2000),
      ],
      { purpose: "trial" },
      held,
      withPump,
    );
    expect(drop).toBeNull();
    expect(why).toContain("by-pass was shut");
    expect(contents).toEqual({ value: null, why });
  });

  test("two of the glass at one moment, in the hold or after it", () => {
    for (const atS of [1500, 2500]) {
      const { contents, drop, why } = told([level(60, atS), level(60, atS)], {}, [...held, bar(3, 3000)]);
      expect(drop).toBeNull();
      expect(why).toContain(twice);
      expect(contents).toEqual({ value: null, why });
    }
  });

  test("two of the glass before there was any pressure", () => {
    const cold = [bar(0, 0), bar(0, 600), bar(3, 900), ...held.slice(1)];
    const { drop, why } = told([level(60, 100), level(60, 500)], {}, cold);
    expect(drop).toBeNull();
    expect(why).toContain(twice);
  });
});
