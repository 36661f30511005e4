import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { fuelProperties } from "../../../src/analysis/fuel/fuel-table.ts";
import type { Heat } from "../../../src/analysis/heat/heat.ts";
import { evaporationCeiling, heatCeilingWarnings } from "../../../src/analysis/plausibility/heat-ceiling.ts";
import { pairsOf } from "../../../src/analysis/plausibility/saturation.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { absent, measured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { dial, laps, levels, warned } from "./logs.ts";

const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const out = (atS: number): Entry => ({ kind: "fire", atS, state: "out" });

describe("water let out while it boils", () => {
  const log = (barG: number) => [
    ...dial([3, barG]),
    { id: "fill", kind: "fill", atS: 0, ml: 100 } as const,
    { id: "out", kind: "drained", atS: 120, ml: 80 } as const,
  ];

  test("is named, with what the dial had shown", () => {
    const [warning, ...others] = warned("drained-hot", log(2.5));
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["out"]);
    expect(warning?.text).toContain("let out at 2:00, when the dial had shown 2.5 bar 60 s before");
  });

  test("is not once the dial shows none", () => {
    expect(warned("drained-hot", log(0))).toEqual([]);
  });
});

describe("heat that the fuel does not hold", () => {
  const fuel: Entry = { id: "fuel", kind: "fuel", atS: 0, action: "added", g: 4 };
  const from = sourcesOf(smallEngine(), { ...smallSteaming(), entries: [lit, fuel] });
  const heat = (figures: Partial<Pick<Heat, "efficiency" | "evaporationRatio">>) =>
    heatCeilingWarnings(from, {
      efficiency: absent("no pressure"),
      evaporationRatio: absent("no water"),
      ...figures,
    } as Heat);
  const efficiency = (value: number) => heat({ efficiency: measured(value, 0.05, "1", "readings") });

  // 1.2 less 1.96 x 0.05
  test("is said with its share and the least of its range, and the fuel's entries", () => {
    expect(efficiency(1.2)).toEqual([
      {
        code: "heat-ceiling",
        text: expect.stringContaining("(120 %, 110 % at the least)"),
        entries: ["fuel"],
      },
    ]);
    expect(heatCeilingWarnings(from, null)).toEqual([]);
  });

  // 1.96 x 0.05 is 0.098
  test("is not said of a figure whose range begins below all the fuel holds, nor of one below none that reaches above", () => {
    expect(efficiency(1.097)).toEqual([]);
    expect(efficiency(1.099)).toHaveLength(1);
    expect(efficiency(-0.097)).toEqual([]);
    expect(efficiency(-0.099)).toHaveLength(1);
  });

  test("less than none is said apart; none is not less", () => {
    expect(efficiency(-0.2)).toEqual([
      { code: "heat-negative", text: expect.stringContaining("data are wrong"), entries: ["fuel"] },
    ]);
    expect(efficiency(0)).toEqual([]);
  });

  test("by the water alone: beyond all doubt of ratio and of heating value", () => {
    const { lowerHeatingValueMJPerKg, uRelative } = fuelProperties(smallEngine().fuel) ?? {
      lowerHeatingValueMJPerKg: Number.NaN,
      uRelative: Number.NaN,
    };
    const most = evaporationCeiling(lowerHeatingValueMJPerKg * (1 + 2 * uRelative), 0, from);
    const ratio = (value: number, u: number) =>
      heat({ evaporationRatio: measured(value, u, "g/g", "readings") });
    expect(ratio(most + 0.1, 0.06)).toEqual([]);
    const [warning] = ratio(most + 0.1, 0.04);
    expect(warning?.text).toContain(`${(most + 0.1).toFixed(1)} g of water`);
    expect(warning?.text).toContain(`enough for ${most.toFixed(1)} g at the most`);
    expect(heat({})).toEqual([]);
    const unknown = sourcesOf({ ...smallEngine(), fuel: { kind: "other" } }, smallSteaming());
    const figures = { efficiency: absent("x"), evaporationRatio: measured(99, 0.1, "g/g", "readings") };
    expect(heatCeilingWarnings(unknown, figures as Heat)).toEqual([]);
  });
});

test("levels beyond the boiler say which end, and how many more", () => {
  const text = (...mms: number[]) => warned("level-beyond-boiler", levels(mms))[0]?.text;
  expect(text(18, -30)).toContain(
    "A level of −30 mm at 1:00 is below the bottom of the boiler as it is described: a slip",
  );
  expect(text(50, 18, 17)).toContain(
    "A level of 50 mm at 0:00 is above the top of the boiler as it is described: a slip",
  );
  expect(text(18, 50, 60, -40)).toContain("as it is described, and so are 2 more: a slip");
});

describe("a clock that was put back, at its edges", () => {
  /** a reading a minute for five minutes, back, and on */
  const stepped = (backS: number, more = 4, everyS = 60) => [
    ...dial([2, 2.2, 2.4, 2.6, 2.8], 60),
    ...dial([2.8, 2.9, 3, 3].slice(0, more), everyS, 240 - backS),
  ];

  test("a minute back is a step, less is not", () => {
    expect(warned("clock-stepped", stepped(60, 4, 15))).toHaveLength(1);
    expect(warned("clock-stepped", stepped(59, 4, 15))).toEqual([]);
  });

  test("three entries must follow in order, ten seconds of them before it has caught up", () => {
    expect(warned("clock-stepped", stepped(200, 4))).toHaveLength(1);
    expect(warned("clock-stepped", stepped(200, 3))).toEqual([]);
    const [a, b, c, d] = stepped(200, 4).slice(-4);
    if (!(a && b && c && d)) throw new Error("no entries");
    expect(warned("clock-stepped", [...stepped(200, 0), a, b, d, c])).toEqual([]);
    expect(warned("clock-stepped", stepped(65, 4, 10))).toHaveLength(1);
    expect(
      warned("clock-stepped", [
        ...stepped(0, 0),
        ...dial([2.8, 2.8, 2.9, 3], 9, 175).map((one, i) => ({
          ...one,
          atS: i < 2 ? one.atS : one.atS + 100,
        })),
      ]),
    ).toEqual([]);
  });

  test("a file in no order at all tells of no clock, only that it is out of order", () => {
    const inOrder = dial(Array.from({ length: 40 }, (_, i) => 2 + i / 50));
    // a fixed disorder in which runs of four in order do follow on falls
    const shuffled = inOrder
      .map((entry, i) => ({ entry, place: (i * 7919 + 13 * i * i) % 101 }))
      .sort((a, b) => a.place - b.place)
      .map(({ entry }) => entry);
    expect(warned("clock-stepped", shuffled)).toEqual([]);
    expect(warned("out-of-order", shuffled)).toHaveLength(1);
  });

  test("entries without names are called by their place", () => {
    const unnamed = stepped(200).map(({ id: _, ...entry }) => entry as Entry);
    expect(warned("clock-stepped", unnamed)[0]?.entries).toEqual(["entry 5", "entry 6"]);
  });

  test("what was logged later is not known yet", () => {
    const entries = stepped(200);
    const until = (untilS: number) =>
      analyse(smallEngine(), { ...smallSteaming(), entries }, { untilS }).warnings.filter(
        ({ code }) => code === "clock-stepped",
      );
    expect(until(1000)).toHaveLength(1);
    // at 150 s the three that follow by 220 s were not written
    expect(until(150)).toEqual([]);
  });

  test("kinds that were not written before it begin anew", () => {
    const others: Entry[] = levels([18, 18, 17, 17], 30, 40);
    expect(warned("clock-stepped", [...stepped(0, 0), ...others])).toEqual([]);
    const mixed = [...levels([18], 60, 0), ...stepped(0, 0), ...others].map((entry, i) => ({
      ...entry,
      id: `e${i}`,
    }));
    expect(warned("clock-stepped", mixed)[0]?.entries).toEqual(["e5", "e6"]);
  });
});

describe("a clock that was put forward, at its edges", () => {
  const log = (more: {
    fire?: Entry[];
    everyS?: number;
    note?: string;
    levels?: Entry[];
    traces?: boolean;
  }) => {
    const everyS = more.everyS ?? 60;
    const fire = more.fire ?? [lit];
    const entries: Entry[] = [
      ...dial([2.9, 3, 3, 3, 3], everyS),
      ...(more.levels ?? [
        { kind: "level", atS: 200, mm: 17, ...(more.note === undefined ? {} : { note: more.note }) },
        { kind: "level", atS: 3701, mm: 17 },
      ]),
      { id: "next", kind: "pressure", atS: 3700, barG: 3 },
    ];
    const traces = [{ channel: "temperatureC" as const, startS: 0, everyS: 60, values: [15, 15] }];
    return warned(
      "clock-stepped",
      [...fire, ...entries].sort((a, b) => a.atS - b.atS),
      {
        steaming: more.traces === true ? { traces } : {},
      },
    );
  };

  test("says how long nothing was written", () => {
    // from the last reading at 240 s to 3700 s
    expect(log({})[0]?.text).toContain("Nothing was written for 58 minutes from 4:00 with the fire lit");
    expect(log({})[0]?.entries).toEqual(["p5", "next"]);
  });

  test("is not asked where no fire is recorded, it was not lit all through, or a logger ran", () => {
    expect(log({ fire: [] })).toEqual([]);
    expect(log({ fire: [{ ...lit, atS: 3650 }] })).toEqual([]);
    expect(log({ fire: [lit, out(1000)] })).toEqual([]);
    expect(log({ fire: [lit, out(100), { ...lit, atS: 150 }] })).toHaveLength(1);
    expect(log({ traces: true })).toEqual([]);
  });

  test("is not asked where the water was not read on both sides, or only in quarters", () => {
    expect(log({ levels: [] })).toEqual([]);
    expect(log({ levels: levels([17], 1, 200) })).toEqual([]);
    expect(log({ levels: levels([17], 1, 3701) })).toEqual([]);
    expect(log({ note: "read in quarters of the glass" })).toEqual([]);
  });
});

describe("laps, at their edges", () => {
  const opened = (atS: number): Entry => ({ kind: "regulator", atS, state: "open" });
  const named = (entries: Entry[], more: Parameters<typeof warned>[2] = {}) =>
    warned("laps-too-fast", entries, more).flatMap(({ entries: ids }) => ids);

  test("where the length is not known a second is the least", () => {
    const bare = { steaming: { track: undefined } } as Parameters<typeof warned>[2];
    expect(named(laps([0, 0.9]), bare)).toEqual(["lap2"]);
    expect(named(laps([0, 1]), bare)).toEqual([]);
  });

  test("a count of none is no lap; several counted at once are each judged", () => {
    const [first, second] = laps([0, 3]);
    if (first === undefined || second === undefined) throw new Error("no laps");
    expect(named([first, { ...second, count: 0 } as Entry])).toEqual([]);
    expect(named([first, { ...second, atS: 12, count: 4 } as Entry])).toEqual(["lap2"]);
    expect(named([first, { ...second, atS: 14, count: 4 } as Entry])).toEqual([]);
  });

  test("before the regulator was opened, or with it opened again, the first has nothing before it", () => {
    expect(named([opened(50), ...laps([1, 41])])).toEqual([]);
    expect(named([{ kind: "regulator", atS: 0, state: "shut" }, opened(50), ...laps([52, 92])])).toEqual([]);
    expect(named([opened(50), ...laps([52, 92])])).toEqual(["lap1"]);
  });

  test("are named in order of time, whichever way they were found out", () => {
    // the fourth is faster than she runs; the seventh only a quarter of what is usual
    expect(named(laps([0, 40, 80, 83, 120, 160, 170, 210]))).toEqual(["lap4", "lap7"]);
    expect(named(laps([0, 40, 80, 90, 130, 170, 173, 210]))).toEqual(["lap4", "lap7"]);
  });

  test("a short lap that the next makes up was tapped late; a short first one says when she set off", () => {
    expect(named(laps([0, 40, 80, 90, 160, 200, 240]))).toEqual([]);
    expect(named(laps([0, 40, 80, 90, 147, 187, 227]))).toEqual(["lap4"]);
    expect(named([opened(95), ...laps([100, 140, 180, 220, 260, 300])])).toEqual([]);
  });

  test("four laps tell nothing usual, five do", () => {
    expect(named(laps([0, 40, 80, 88]))).toEqual([]);
    expect(named(laps([0, 40, 80, 88, 128]))).toEqual(["lap4"]);
  });
});

describe("a dial that is stuck, at its edges", () => {
  const same = (times: number, everyS: number, fromS: number, barG = 2.5) =>
    dial(Array(times).fill(barG), everyS, fromS);

  test("five readings over five minutes of cooling", () => {
    expect(warned("dial-stuck", [lit, out(480), ...same(5, 75, 500)])).toHaveLength(1);
    expect(warned("dial-stuck", [lit, out(480), ...same(5, 74, 500)])).toEqual([]);
    expect(warned("dial-stuck", [lit, out(480), ...same(5, 75, 500, 0.1)])).toHaveLength(1);
    expect(warned("dial-stuck", [lit, out(480), ...same(5, 75, 500, 0.09)])).toEqual([]);
    expect(warned("dial-stuck", [lit, out(480), ...same(5, 75, 500)])[0]?.text).toBe(
      "The dial showed 2.5 bar 5 times in a row, from 8:20 to 13:20, while the fire was out: is the pointer stuck?",
    );
  });

  test("from before the lighting on, within an hour of it; where no fire is recorded nothing is known", () => {
    const raised = (litS: number) =>
      [...same(6, 100, 0), { ...lit, atS: litS }].sort((a, b) => a.atS - b.atS);
    expect(warned("dial-stuck", raised(150))[0]?.text).toContain("while the fire was lit");
    expect(warned("dial-stuck", raised(201))).toEqual([]);
    expect(warned("dial-stuck", same(6, 100, 0))).toEqual([]);
    expect(
      warned(
        "dial-stuck",
        [...same(6, 1000, 0), { ...lit, atS: 150 }].sort((a, b) => a.atS - b.atS),
      ),
    ).toEqual([]);
  });

  test("a logger: 120 samples alike, for five minutes; which, how long and until when is said", () => {
    const logged = (
      values: (number | null)[],
      everyS: number,
      channel: "pressureBarG" | "levelMm" = "pressureBarG",
    ) => warned("dial-stuck", [lit], { steaming: { traces: [{ channel, startS: 40, everyS, values }] } });
    const [warning] = logged([1, 2, ...Array(200).fill(2.5)], 3);
    expect(warning?.text).toBe(
      "The logged pressure repeats 2.5 bar to the last digit for 360 s before 6:46: is the logger stuck?",
    );
    expect(logged(Array(120).fill(2.5), 3)).toEqual([]);
    expect(logged(Array(121).fill(2.5), 3)).toHaveLength(1);
    expect(logged(Array(301).fill(2.5), 1)).toHaveLength(1);
    expect(logged(Array(300).fill(2.5), 1)).toEqual([]);
    expect(logged(Array(200).fill(2.5), 3, "levelMm")).toEqual([]);
    expect(logged(Array(200).fill(0.1), 3)).toEqual([]);
    expect(logged(Array(200).fill(null), 3)).toEqual([]);
  });
});

/** Dial good to 0.02 and 0.05 bar: 0.054 bar, which at 2 bar (133.7 °C; 0.61 K for a twentieth of a bar) is 0.7 K; thermometer 1.5 K. */
describe("pressure and boiler temperature, pair by pair", () => {
  const engine = { instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.05 } };
  const boiler = (atS: number, celsius: number, id = `t${atS}`): Entry => ({
    id,
    kind: "temperature",
    of: "boiler",
    atS,
    celsius,
  });
  const pairs = (...entries: Entry[]) =>
    pairsOf(sourcesOf({ ...smallEngine(), ...engine }, { ...smallSteaming(), entries }));
  const said = (...entries: Entry[]) => warned("pressure-and-temperature", entries, { engine });
  const two = dial([2, 2, 2], 100);

  test("the nearest reading within a minute belongs to it, and saturation is that of the pressure then", () => {
    const [pair, ...others] = pairs(...dial([2, 2, 2], 40), boiler(45, 133.7));
    expect(others).toEqual([]);
    expect(pair?.ids).toEqual(["p2", "t45"]);
    expect(pair?.barG).toBe(2);
    // 2 bar gauge: 133.7 °C (Spirax Sarco, Dry Saturated Steam Tables, TI-GCM-01 issue 6)
    expect(pair?.saturationC).toBeCloseTo(133.7, 1);
    expect(pair?.disagrees).toBe(false);
  });

  test("none further away than a minute; another thermometer is none of the boiler's", () => {
    expect(pairs(two[0] as Entry, boiler(60, 133))[0]?.ids).toEqual(["p1", "t60"]);
    expect(pairs(two[0] as Entry, boiler(61, 133))).toEqual([]);
    expect(pairs(two[0] as Entry, { ...boiler(10, 133), of: "flue" } as Entry)).toEqual([]);
    expect(pairs(boiler(10, 133))).toEqual([]);
    // a logger has told the pressure meanwhile
    const traces = [{ channel: "pressureBarG" as const, startS: 50, everyS: 10, values: [2, 2, 2, 2] }];
    const logged = { ...smallSteaming(), entries: [two[0] as Entry, boiler(70, 133)], traces };
    expect(pairsOf(sourcesOf({ ...smallEngine(), ...engine }, logged))[0]?.ids).toEqual(["t70"]);
  });

  test("they disagree beyond three of their common uncertainties, on either side; without pressure only above boiling", () => {
    // sqrt(1.5^2 + 0.7^2) = 1.65; three of them 5 K
    expect(pairs(...two, boiler(100, 133.7 + 4.5))[0]?.disagrees).toBe(false);
    expect(pairs(...two, boiler(100, 133.7 + 5.5))[0]?.disagrees).toBe(true);
    expect(pairs(...two, boiler(100, 133.7 - 4.5))[0]?.disagrees).toBe(false);
    expect(pairs(...two, boiler(100, 133.7 - 5.5))[0]?.disagrees).toBe(true);
    expect(pairs(...dial([0]), boiler(0, 60))[0]?.disagrees).toBe(false);
    expect(pairs(...dial([0]), boiler(0, 110))[0]?.disagrees).toBe(true);
    // half a minute later the pressure may have strayed by 0.08 x 3 x sqrt(1/2) = 0.17 bar: 2 K, and 7.5 K in all
    expect(pairs(...two, boiler(130, 133.7 + 6.5))[0]?.disagrees).toBe(false);
    expect(pairs(...two, boiler(130, 133.7 + 9))[0]?.disagrees).toBe(true);
  });

  test("at no pressure three uncertainties above boiling are too warm: about 6 K", () => {
    expect(pairs(...dial([0]), boiler(0, 104))[0]?.disagrees).toBe(false);
    expect(pairs(...dial([0]), boiler(0, 108))[0]?.disagrees).toBe(true);
  });

  test("a hydraulic test is cold under pressure, and that is no disagreement", () => {
    const held = sourcesOf(smallEngine(), {
      ...smallSteaming(),
      purpose: "cold-hold",
      entries: [...dial([4, 4]), boiler(30, 15)],
    });
    expect(pairsOf(held)).toEqual([]);
  });

  test("the worst is the one furthest off, on whichever side", () => {
    expect(said(...two, boiler(0, 110), boiler(100, 150), boiler(200, 134))[0]?.text).toContain(
      "at 0:00, 2.0 bar and 110 °C",
    );
  });

  test("the worst is said; where most disagree all are in question", () => {
    const [one] = said(...two, boiler(0, 134), boiler(100, 145), boiler(200, 134));
    expect(one?.entries).toEqual(["p2", "t100"]);
    expect(one?.text).toContain("at 1:40, 2.0 bar and 145 °C, where steam of that pressure is at 134 °C.");
    expect(one?.text).not.toContain("Most");
    const [most] = said(...two, boiler(0, 145), boiler(100, 150), boiler(200, 134));
    expect(most?.text).toContain("at 1:40, 2.0 bar and 150 °C");
    expect(most?.text).toContain("Most readings do");
    expect(most?.entries).toEqual(["p1", "t0", "p2", "t100", "p3", "t200"]);
    // half of them is not most; one alone is not most; cold ones do not count
    expect(
      said(
        ...dial([2, 2, 2, 2], 100),
        boiler(0, 145),
        boiler(100, 120),
        boiler(200, 134),
        boiler(300, 134),
      )[0]?.text,
    ).not.toContain("Most");
    expect(said(...two, boiler(0, 145))[0]?.text).not.toContain("Most");
    const cold = dial([0, 0, 0, 0], 100, 1000).map((entry, i) => ({ ...entry, id: `c${i}` }));
    const coldly = [1000, 1100, 1200, 1300].map((atS) => boiler(atS, 20));
    expect(
      said(...two, ...cold, boiler(0, 145), boiler(100, 145), boiler(200, 134), ...coldly)[0]?.text,
    ).toContain("Most");
  });
});

/** 3 bar working pressure: 1.2 bar from its neighbours is far, or eight reading errors where that is more. */
describe("a reading far from its neighbours, at its edges", () => {
  const named = (bars: number[], everyS = 60, pressureReadingBar = 0.1) =>
    warned("reading-outlying", [lit, ...dial(bars, everyS)], {
      engine: { instruments: { pressureReadingBar } },
    });

  test("further than 1.2 bar above both, within two and a half minutes", () => {
    expect(named([2, 3.25, 2])[0]?.entries).toEqual(["p2"]);
    expect(named([2, 3.15, 2])).toEqual([]);
    expect(named([2, 3.25, 2.1])).toEqual([]);
    expect(named([2.1, 3.25, 2])).toEqual([]);
    expect(named([2, 3.25, 2], 150)).toHaveLength(1);
    expect(named([2, 3.25, 2], 151)).toEqual([]);
    expect(named([2, 3.25, 2], 60, 0.2)).toEqual([]);
    expect(named([1, 2.65, 1], 60, 0.2)).toHaveLength(1);
  });

  test("below both only where a point slipped", () => {
    expect(named([3, 1.5, 3])).toEqual([]);
    expect(named([3, 0.3, 3])[0]?.text).toContain(
      "0.3 bar, lies far from the readings beside it (3 and 3 bar) and is left out. Has the decimal point slipped?",
    );
    expect(named([3, 0.22, 3])).toEqual([]);
    expect(named([3, 0.38, 3])).toEqual([]);
    expect(named([2, 3.25, 2])[0]?.text).not.toContain("decimal");
    // beyond any valve, though not soon after
    expect(named([2, 4.9, 2], 600)).toHaveLength(1);
    expect(named([2, 4.7, 2], 600)).toEqual([]);
    expect(named([9])).toEqual([]);
  });

  test("the last, a tenth of the one before: while the fire burns and nothing was let out since, soon after", () => {
    expect(named([2.9, 0.29], 150)).toHaveLength(1);
    expect(named([2.9, 0.29], 151)).toEqual([]);
    // a tenth of a slip is no slip
    expect(named([29, 2.9])).toHaveLength(1);
    expect(named([29, 2.9])[0]?.entries).toEqual(["p1"]);
    const blown = (atS: number): Entry => ({ kind: "blowdown", ml: 50, atS });
    const log = (...more: Entry[]) =>
      warned(
        "reading-outlying",
        [lit, ...dial([2.8, 2.9, 0.29]), ...more].sort((a, b) => a.atS - b.atS),
      );
    expect(log(blown(30))).toHaveLength(1);
    expect(log(blown(60))).toEqual([]);
    expect(log({ kind: "drained", ml: 50, atS: 90 })).toEqual([]);
    expect(log(out(200))).toHaveLength(1);
  });
});

describe("water that grows, in figures", () => {
  const steady = dial([3, 3, 3, 3, 3, 3], 200);
  const precise = { engine: { instruments: { levelReadingMm: 0.05 } } };

  // 50 mm shell of 120 mm, full width about its middle: 5 mm are 30 ml, of 0.93 g/ml 28 g
  test("a rise is said by how much and between which readings", () => {
    const [warning] = warned("level-rising", [...steady, ...levels([9, 9, 9, 14], 200)], precise);
    expect(warning?.entries).toEqual(["l3", "l4"]);
    const grams = Number(/about (\d+) g between 6:40 and 10:00/.exec(warning?.text ?? "")?.[1]);
    expect(grams).toBeGreaterThan(26);
    expect(grams).toBeLessThan(30);
  });

  // contents about 110 g, of which 2 % are left out, and the volume's own error is of the rise alone
  test("a millimetre read with a good glass is one, half of one is not", () => {
    expect(warned("level-rising", [...steady, ...levels([9, 9, 9, 10], 200)], precise)).toHaveLength(1);
    expect(warned("level-rising", [...steady, ...levels([9, 9, 9, 9.4], 200)], precise)).toEqual([]);
  });

  test("one low reading between two high ones is that one misread, the third of three is told from both", () => {
    expect(warned("level-rising", [...steady, ...levels([14, 9, 14], 200)], precise)).toEqual([]);
    expect(warned("level-rising", [...steady, ...levels([9, 14, 14], 200)], precise)).toEqual([]);
    expect(warned("level-rising", [...steady, ...levels([9, 8, 14], 200)], precise)).toHaveLength(1);
  });

  test("what was blown down before it makes no rise less, and a pump nobody measured any rise possible", () => {
    const blown: Entry = { kind: "blowdown", atS: 450, ml: 30 };
    const fed: Entry = { kind: "feed", atS: 460, ml: 15, by: "bottle" };
    expect(warned("level-rising", [...steady, blown, ...levels([9, 9, 9, 8.5], 200)], precise)).toHaveLength(
      1,
    );
    expect(warned("level-rising", [...steady, blown, fed, ...levels([9, 9, 9, 5], 200)], precise)).toEqual(
      [],
    );
    const pump = { ...precise.engine, axlePump: { ramMm: 5, strokeMm: 8, strokesPerRev: 1 } };
    const running: Entry[] = [
      { kind: "regulator", atS: 0, state: "open" },
      { kind: "bypass", atS: 0, state: "shut" },
    ];
    expect(
      warned("level-rising", [...running, ...steady, ...levels([9, 9, 9, 14], 200)], { engine: pump }),
    ).toEqual([]);
  });

  test("weighings are of the whole engine and tell no level", () => {
    const weights = [2000, 2000, 2100].map((g, i): Entry => ({ kind: "weight", atS: 200 * i, g }));
    expect(warned("level-rising", [...steady, ...weights], precise)).toEqual([]);
  });
});
