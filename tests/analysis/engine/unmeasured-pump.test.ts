import { describe, expect, test } from "vitest";
import {
  axlePumpSweptMl,
  balanceInputOf,
  drawnWithin,
  feedTotal,
} from "../../../src/analysis/water/water.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { partNamed } from "../water/balance-by-hand.ts";
import { bar, bypass, level, phase, run, sources, turns, waterWith } from "../water/water-log.ts";

/** Ram of 5 mm, stroke of 8 mm: pi/4 x 25 x 8 mm3 = 0.15708 ml a turn. */
const axlePump = { ramMm: 5, strokeMm: 8, strokesPerRev: 1 };
const SWEPT = (Math.PI / 4) * 0.2;
const pumped: Locomotive = { ...smallEngine(), axlePump, drivingWheelMm: 50 };

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
    expect(names(pumped)).toEqual([...names(smallEngine()), "while pumping"]);
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
