import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../src/analysis/sources.ts";
import {
  axlePumpSweptMl,
  balanceInputOf,
  drawnInAll,
  drawnWithin,
  feedTotal,
  notTold,
  rateWithin,
  ratio,
  waterOf,
} from "../../src/analysis/water.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { absent, exact, isMeasured, measured, standardUncertainty } from "../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";
import { partNamed } from "./balance-by-hand.ts";

/** Ram of 5 mm, stroke of 8 mm: pi/4 x 25 x 8 mm3 = 0.15708 ml a turn. */
const axlePump = { ramMm: 5, strokeMm: 8, strokesPerRev: 1 };
const SWEPT = (Math.PI / 4) * 0.2;
const pumped: Locomotive = { ...smallEngine(), axlePump, drivingWheelMm: 50 };
const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
const phase = (name: "raising" | "standing" | "running" | "shut-in", atS: number): Entry => ({
  kind: "phase",
  name,
  atS,
});
const bypass = (state: "open" | "shut", atS: number): Entry => ({ kind: "bypass", state, atS });
const turns = (count: number, atS: number): Entry => ({ kind: "revolutions", count, atS });

const sources = (entries: Entry[], of: Locomotive = smallEngine(), head: Partial<Steaming> = {}) =>
  sourcesOf(of, { ...smallSteaming(), ...head, entries });
const waterWith = (...given: Parameters<typeof sources>) => waterOf(sources(...given));
const run: Entry[] = [
  bar(3, 0),
  level(20, 0),
  phase("standing", 0),
  phase("running", 300),
  phase("standing", 900),
  bar(3, 1200),
  level(12, 1200),
];

describe("the clock by which the demand strays", () => {
  test("runs three tenths as fast while she does not run", () => {
    const { livelyS } = balanceInputOf(sources(run));
    expect(livelyS(300) - livelyS(0)).toBeCloseTo(90, 9);
    expect(livelyS(500) - livelyS(300)).toBeCloseTo(200, 9);
    expect(livelyS(1200) - livelyS(0)).toBeCloseTo(90 + 600 + 90, 9);
  });

  test("is the watch's where she never ran", () => {
    const { livelyS } = balanceInputOf(
      sources(run.filter((entry) => entry.kind !== "phase" || entry.name !== "running")),
    );
    expect(livelyS(700)).toBe(700);
  });
});

describe("a pump that nobody measured", () => {
  const fed = [...run.slice(0, 4), bypass("shut", 600), ...run.slice(4)];
  const prior = (entries: Entry[], of = pumped) => balanceInputOf(sources(entries, of)).pumpPrior;

  test("sweeps ram times stroke", () => {
    expect(axlePumpSweptMl(axlePump)).toBeCloseTo(SWEPT, 5);
    expect(axlePumpSweptMl({ ...axlePump, strokesPerRev: 2 })).toBeCloseTo(2 * SWEPT, 5);
  });

  test("works with its by-pass shut while she runs", () => {
    const { pumpingS } = balanceInputOf(sources(fed, pumped));
    expect([0, 600, 700, 900, 1200].map((atS) => pumpingS?.(atS))).toEqual([0, 0, 100, 300, 300]);
    expect(balanceInputOf(sources(run, pumped)).pumpingS).toBeNull();
    expect(balanceInputOf(sources(fed)).pumpingS).toBeNull();
  });

  test("may deliver 0.65 of what it sweeps, give or take 0.2, at 4.5 turns a second, give or take 2", () => {
    const { gPerS, uGPerS } = prior(fed);
    expect(gPerS).toBeCloseTo(0.65 * SWEPT * 4.5, 5);
    expect(uGPerS).toBeCloseTo(gPerS * Math.hypot(0.2 / 0.65, 2 / 4.5), 5);
    expect(prior(fed, smallEngine())).toEqual({ gPerS: 0, uGPerS: 0 });
  });

  test("and at the turns counted while under way", () => {
    const counted = [...fed.slice(0, -3), turns(1500, 900), ...fed.slice(-3)];
    const { gPerS, uGPerS } = prior(counted);
    expect(gPerS).toBeCloseTo(0.65 * SWEPT * 2.5, 5);
    expect(uGPerS).toBeCloseTo((gPerS * 0.2) / 0.65, 5);
    // none counted tells no pace
    expect(prior([...fed.slice(0, -3), turns(0, 900), ...fed.slice(-3)]).gPerS).toBeCloseTo(
      0.65 * SWEPT * 4.5,
      5,
    );
  });

  // 10 turns a lap of 20 m are wrong by what a tap forgotten and the wheel are: u of the pace is that of the turns
  test("a pace that is itself in doubt widens it", () => {
    const lap = (atS: number): Entry => ({ kind: "lap", count: 1, atS });
    const lapped = [...fed.slice(0, -3), lap(500), lap(700), lap(900), ...fed.slice(-3)];
    const told = sources(lapped, pumped).way.turnsIn([[300, 900]]);
    if (!isMeasured(told)) throw new Error(told.why);
    const { gPerS, uGPerS } = prior(lapped);
    expect(gPerS).toBeCloseTo((0.65 * SWEPT * told.value) / 600, 9);
    expect(uGPerS / gPerS).toBeCloseTo(Math.hypot(0.2 / 0.65, standardUncertainty(told) / told.value), 9);
  });

  test("adds to the demand what she may draw otherwise while it feeds", () => {
    const names = (of: Locomotive) => balanceInputOf(sources(fed, of)).effects.map(({ name }) => name);
    expect(names(pumped)).toEqual([...names(smallEngine()), "while pumping", "setting off"]);
  });

  // shut from 600 s to the end of the run at 900 s
  test("its feed is in the total, as the readings tell it", () => {
    const told = feedTotal(waterWith(fed, pumped));
    const water = waterWith(fed, pumped);
    const rate = water.balance?.estimate({ unit: "g", pumpRate: 300 });
    expect(told.value).toBeCloseTo(rate?.value ?? Number.NaN, 9);
    const withBottle = [
      ...fed.slice(0, 3),
      { kind: "feed", by: "bottle", ml: 50, atS: 200 } as const,
      ...fed.slice(3),
    ];
    const both = feedTotal(waterWith(withBottle, pumped));
    if (!isMeasured(both)) throw new Error(both.why);
    const alone =
      waterWith(withBottle, pumped).balance?.estimate({ unit: "g", pumpRate: 300 })?.value ?? Number.NaN;
    expect(both.value).toBeCloseTo(50 * 0.9991 + alone, 2);
    expect(partNamed(both, "delivery of the axle pump")).toBeGreaterThan(0);
  });

  test("fed before the first reading is not of the total", () => {
    const late = fed.map((entry) =>
      entry.kind === "level" && entry.mm === 20 ? { ...entry, atS: 700 } : entry,
    );
    const ordered = [...late].sort((a, b) => a.atS - b.atS);
    const told = feedTotal(waterWith(ordered, pumped));
    const rate = waterWith(ordered, pumped).balance?.estimate({ unit: "g", pumpRate: 200 });
    expect(told.value).toBeCloseTo(rate?.value ?? Number.NaN, 9);
  });

  test("has no total where the water was not read twice", () => {
    const once = fed.slice(0, -1);
    expect(feedTotal(waterWith(once, pumped))).toEqual({
      value: null,
      why: expect.stringContaining("what the axle pump fed was not measured"),
    });
  });
});

describe("a pump that may have fed unseen", () => {
  const quiet = [
    bar(0, 0),
    level(20, 0),
    { kind: "fire", state: "lit", atS: 0 } as const,
    bar(3, 600),
    bypass("shut", 700),
    level(12, 1200),
    bar(3, 1200),
  ];
  const WHY = "the by-pass was shut, and neither the pump's feed nor when the engine ran was recorded";
  // working pressure in a raising that is marked to the end: nothing tells whether she ran
  const marked = [...quiet.slice(0, 3), phase("raising", 0), ...quiet.slice(3)];

  test("leaves no balance", () => {
    expect(waterWith(marked, pumped)).toMatchObject({ balance: null, why: WHY });
    expect(drawnWithin(waterWith(marked, pumped), [[0, 1200]])).toEqual({ value: null, why: WHY });
  });

  test.each<[string, Entry[], Locomotive, Partial<Steaming>]>([
    ["she has no pump", marked, smallEngine(), {}],
    ["no by-pass was shut", marked.filter(({ kind }) => kind !== "bypass"), pumped, {}],
    [
      "it was only opened",
      marked.map((entry) => (entry.kind === "bypass" ? { ...entry, state: "open" } : entry)),
      pumped,
      {},
    ],
    [
      "it was shut before there was steam and opened again",
      [
        ...marked.slice(0, 4),
        bypass("shut", 0),
        bypass("open", 10),
        ...marked.slice(4).filter(({ kind }) => kind !== "bypass"),
      ],
      pumped,
      {},
    ],
    [
      "its feed was written down",
      [...marked.slice(0, -2), { kind: "feed", by: "axle-pump", ml: 20, atS: 1000 }, ...marked.slice(-2)],
      pumped,
      {},
    ],
    ["she stood", [...marked.slice(0, -2), phase("standing", 700), ...marked.slice(-2)], pumped, {}],
    ["she ran", [...marked.slice(0, -2), phase("running", 700), ...marked.slice(-2)], pumped, {}],
    ["it was no trial", marked, pumped, { purpose: "standing" }],
    [
      "it was opened before she was said to run",
      [...marked.slice(0, -2), bypass("open", 750), phase("running", 800), ...marked.slice(-2)],
      pumped,
      {},
    ],
    [
      "it was opened before she was said to stand",
      [...marked.slice(0, -2), bypass("open", 750), phase("standing", 800), ...marked.slice(-2)],
      pumped,
      {},
    ],
  ])("not where %s", (_, entries, of, head) => {
    expect(waterWith(entries, of, head).balance).not.toBeNull();
  });

  test("shut before the steam and left so is shut in steam", () => {
    const before = [
      ...marked.slice(0, 4),
      bypass("shut", 0),
      ...marked.slice(4).filter(({ kind }) => kind !== "bypass"),
    ];
    expect(waterWith(before, pumped).balance).toBeNull();
    const until = [...before.slice(0, -2), bypass("open", 1100), ...before.slice(-2)];
    expect(waterWith(until, pumped).balance).toBeNull();
  });

  test("another hand's feed is not the pump's", () => {
    const bottle: Entry = { kind: "feed", by: "bottle", ml: 20, atS: 1000 };
    expect(waterWith([...marked.slice(0, -2), bottle, ...marked.slice(-2)], pumped).balance).toBeNull();
  });
});

describe("a pump's feed of which the time is in doubt", () => {
  // 40 g from 0 to 600 s, a quarter of it early or late half way: at 150 s 7.5 g, at 300 s 10 g; both by one cause
  test("between two readings while it was under way is in doubt by the difference", () => {
    const entries: Entry[] = [
      bar(3, 0),
      phase("running", 0),
      level(20, 150),
      level(18, 300),
      { kind: "feed", by: "axle-pump", ml: 40, atS: 600 },
      bar(3, 600),
    ];
    const told = feedTotal(waterWith(entries, pumped));
    if (!isMeasured(told)) throw new Error(told.why);
    expect(told.value).toBeCloseTo(10 * 0.9991, 2);
    expect(partNamed(told, "when the pump fed")).toBeCloseTo(2.5 * 0.9991, 2);
  });
});

describe("what was drawn", () => {
  const fell = waterWith(run);

  test("in windows together is the sum of them, and a rate is it by the minute", () => {
    const all = drawnWithin(fell, [[0, 1200]]);
    if (!isMeasured(all)) throw new Error(all.why);
    const two = drawnWithin(fell, [
      [0, 600],
      [600, 1200],
    ]);
    expect(two.value).toBeCloseTo(all.value, 6);
    const rate = rateWithin(fell, 0, 1200);
    expect(rate).toMatchObject({ value: expect.closeTo(all.value / 20, 9), unit: "g/min" });
    expect(isMeasured(rate) ? standardUncertainty(rate) : 0).toBeCloseTo(standardUncertainty(all) / 20, 9);
  });

  test("is not to be had without two readings, and says which were missing", () => {
    expect(waterWith(run.filter(({ kind }) => kind !== "level")).why).toMatch(
      /^nothing was read that tells the water/,
    );
    const once = waterWith(run.slice(0, -1));
    expect(once.why).toBe("the water in the boiler was read once only: read it again");
    expect(rateWithin(once, 0, 600)).toEqual({ value: null, why: once.why });
  });

  test("of a part that the readings do not tell says how often the water was read", () => {
    expect(rateWithin(fell, 300, 900)).toEqual({ value: null, why: notTold(fell) });
    expect(notTold(fell)).toMatch(/^the water was read twice only/);
    expect(notTold(waterWith([...run.slice(0, -1), level(12, 1190), level(12, 1200)]))).toMatch(
      /^the readings of water do not tell/,
    );
  });
});

describe("what cannot be told of the water at all", () => {
  const nothing = /^nothing was read that tells the water/;
  const scale: Pick<Steaming, "traces"> = {
    traces: [{ channel: "massG", startS: 0, everyS: 60, values: [3000, 2990, 2980, 2970, 2960] }],
  };
  const fired: Entry[] = [{ kind: "fire", state: "lit", atS: 0 }, bar(3, 0), bar(3, 240)];

  test("is none at all, of no time", () => {
    const none = waterWith(fired);
    expect(none.why).toMatch(nothing);
    expect(drawnInAll(none)).toEqual({ fromS: null, toS: null, drawn: { value: null, why: none.why } });
    expect(rateWithin(none, 0, 60)).toEqual({ value: null, why: none.why });
    expect(feedTotal(none)).toEqual({ value: 0, unit: "g", parts: [] });
  });

  test("by a logger at the scale, for want of the fuel that went with it", () => {
    expect(waterWith(fired, smallEngine(), scale).why).toMatch(
      /^the engine was weighed, but what her fire burnt/,
    );
    const levels = {
      traces: [{ channel: "temperatureC" as const, startS: 0, everyS: 60, values: [20, 20] }],
    };
    expect(waterWith(fired, smallEngine(), levels).why).toMatch(nothing);
    // with no fire nothing burnt
    const cold = waterWith([bar(0, 0), bar(0, 240)], smallEngine(), scale);
    const all = drawnInAll(cold);
    expect([all.fromS, all.toS]).toEqual([0, 240]);
    expect(all.drawn.value).toBeCloseTo(40, 1);
  });
});

describe("readings that tell what was drawn", () => {
  const weight = (g: number, atS: number): Entry => ({ kind: "weight", g, atS });

  test("are two of a kind: one look at the glass and one weighing tell nothing of each other", () => {
    const all = drawnInAll(waterWith([bar(0, 0), level(20, 100), weight(3000, 500)]));
    expect([all.fromS, all.toS, all.drawn.value]).toEqual([100, 500, null]);
    const beside = drawnInAll(waterWith([bar(0, 0), level(20, 100), weight(3000, 500), weight(2990, 900)]));
    expect([beside.fromS, beside.toS]).toEqual([500, 900]);
  });

  // a hydraulic hold has no phases: 10 g in 100 s and 70 g in 700 s, 6 g/min throughout
  test("tell one rate throughout where nothing tells one part of the time from another", () => {
    const cold: Entry[] = [weight(3000, 100), weight(2990, 200), weight(2920, 900)];
    const water = waterWith(cold, smallEngine(), { purpose: "cold-hold" });
    expect(rateWithin(water, 300, 900).value).toBeCloseTo(6, 2);
    expect(rateWithin(water, 100, 200).value).toBeCloseTo(6, 2);
  });

  test("what was fed up to the last of them is fed", () => {
    const bottle = (atS: number): Entry => ({ kind: "feed", by: "bottle", ml: 20, atS });
    const entries = [
      bar(3, 0),
      bottle(0),
      level(20, 10),
      bottle(100),
      level(19, 200),
      bottle(300),
      level(18, 400),
      bottle(500),
      bar(3, 500),
    ];
    expect(feedTotal(waterWith(entries)).value).toBeCloseTo(40 * 0.9991, 2);
  });
});

describe("weighings beside an unknown fire", () => {
  const weight = (g: number, atS: number): Entry => ({ kind: "weight", g, atS });
  const kept = (entries: Entry[]) => balanceInputOf(sources(entries)).readings.map(({ atS }) => atS);
  const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });

  test("tell the water only with no fire between them", () => {
    expect(
      kept([weight(3000, 0), weight(2995, 50), fire("lit", 100), weight(2900, 500), fire("out", 600)]),
    ).toEqual([0, 50]);
    expect(
      kept([weight(3000, 0), fire("lit", 100), fire("out", 600), weight(2900, 700), weight(2890, 900)]),
    ).toEqual([700, 900]);
    expect(kept([weight(3000, 0), fire("lit", 100), weight(2900, 500), fire("out", 600)])).toEqual([]);
  });

  test("a pressure or a run says that there was a fire, though none was written down", () => {
    const pair = [weight(3000, 0), weight(2900, 500)];
    expect(kept(pair)).toEqual([0, 500]);
    expect(kept([...pair, bar(0.05, 500)])).toEqual([0, 500]);
    expect(kept([pair[0] as Entry, bar(2, 100), pair[1] as Entry])).toEqual([]);
    expect(kept([pair[0] as Entry, phase("running", 100), pair[1] as Entry])).toEqual([]);
    expect(kept([pair[0] as Entry, phase("standing", 100), pair[1] as Entry])).toEqual([0, 500]);
  });

  test("beside a glass the glass stays", () => {
    expect(
      kept([weight(3000, 0), level(20, 1), fire("lit", 100), bar(2, 400), level(15, 450), weight(2900, 500)]),
    ).toEqual([1, 450]);
  });
});

describe("a ratio of figures", () => {
  const [a, b] = [measured(10, 1, "g", "a"), measured(4, 0.1, "g", "b")];
  test("divides, and hands on what cannot be had", () => {
    expect(ratio(a, b, "1")).toMatchObject({ value: 2.5, unit: "1" });
    expect(ratio(absent("first"), absent("second"), "1")).toEqual({ value: null, why: "first" });
    expect(ratio(a, absent("second"), "1")).toEqual({ value: null, why: "second" });
    expect(ratio(a, exact(0, "laps"), "1")).toEqual({
      value: null,
      why: "what it is reckoned by came to 0 laps",
    });
  });
});

describe("a filling", () => {
  test("of an empty boiler is where the water begins; a later one was put in", () => {
    const filled: Entry[] = [
      { kind: "fill", ml: 150, atS: 0 },
      { kind: "fill", ml: 30, atS: 10 },
      bar(0, 20),
      level(20, 30),
      level(20, 1200),
    ];
    const input = balanceInputOf(sources(filled));
    expect(input.moves.map(({ grams }) => grams)).toEqual([expect.closeTo(30 * 0.9991, 2)]);
    expect(input.readings[0]?.grams).toBeCloseTo(150 * 0.9991, 1);
    expect(balanceInputOf(sources(filled.slice(2))).moves).toEqual([]);
    // without a reading of the contents no filling is a move
    const weighed: Entry[] = [
      { kind: "weight", g: 3000, atS: 0 },
      { kind: "weight", g: 2900, atS: 900 },
    ];
    expect(balanceInputOf(sources(weighed)).readings.map(({ of }) => of)).toEqual([
      "whole engine",
      "whole engine",
    ]);
  });

  test("a hand still feeding blurs the reading before it", () => {
    const feeding: Entry[] = [
      bar(3, 0),
      level(20, 0),
      level(18, 590),
      { kind: "feed", by: "bottle", ml: 40, atS: 600 },
      level(20, 700),
      bar(3, 700),
    ];
    const [, during, after] = balanceInputOf(sources(feeding)).readings;
    // 10 s before: three quarters of it may be in, so half of 30 g beside the glass's own error
    const own =
      balanceInputOf(sources(feeding.filter(({ kind }) => kind !== "feed"))).readings[1]?.uGrams ?? 0;
    expect(during?.uGrams).toBeCloseTo(Math.hypot(own, 0.5 * 40 * 0.9991 * 0.75), 2);
    expect(after?.uGrams).toBeLessThan(1.1 * own);
  });
});
