import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { drawnByEngine } from "../../src/analysis/engine/engine-drawn.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { meanWithin } from "../../src/quantity/mean-within.ts";
import { type Figure, interval, isMeasured, type Measured } from "../../src/quantity/measured.ts";
import { evenBoiler } from "../support/small-logbook.ts";

/**
 * An invented engine whose boiler holds 5 ml a millimetre of glass, read almost without error, held at one pressure. A fall
 * of 0.5 mm a minute is then so many grams a minute, and every figure of engine and pump follows from a few
 * multiplications.
 */
const engine: Locomotive = {
  id: "exact",
  name: "Exact",
  workingPressureBarG: 4,
  boiler: evenBoiler,
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 26 },
  cylinders: { count: 2, boreMm: 14, strokeMm: 16, cutoff: 0.75 },
  drivingWheelMm: 40,
  axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 },
  fittings: [],
  instruments: {
    pressureReadingBar: 0.01,
    pressureBiasBar: 0.01,
    levelReadingMm: 0.01,
    feedRelative: 0.02,
    massReadingG: 0.5,
    volumeReadingMl: 1,
  },
};
const BAR = 1.5;
const every = (seconds: number, untilS: number, entry: (atS: number) => Entry): Entry[] =>
  Array.from({ length: untilS / seconds + 1 }, (_, i) => entry(i * seconds));
const falling = (mmPerMin: number, untilS = 1200): Entry[] =>
  every(30, untilS, (atS) => ({ kind: "level", mm: 50 - (mmPerMin * atS) / 60, atS }));
const held = (barG = BAR, untilS = 1200): Entry[] =>
  every(60, untilS, (atS) => ({ kind: "pressure", barG, atS }));
const running: Entry[] = [
  { kind: "phase", name: "running", atS: 0 },
  { kind: "revolutions", count: 6000, atS: 1200 },
];
const fuel: Entry[] = [
  { kind: "fire", state: "lit", atS: 0 },
  { kind: "fuel", action: "added", g: 40, atS: 0 },
  { kind: "fire", state: "out", atS: 1200 },
  { kind: "fuel", action: "remaining", g: 10, atS: 1200 },
];
const during = (kind: "valve" | "blower", fromS: number, toS: number): Entry[] =>
  kind === "valve"
    ? [
        { kind, state: "lifts", atS: fromS },
        { kind, state: "reseats", atS: toS },
      ]
    : [
        { kind, state: "on", atS: fromS },
        { kind, state: "off", atS: toS },
      ];

function worked(entries: readonly Entry[], drawing: object = {}, head: object = {}) {
  return analyse(
    { ...engine, ...drawing },
    {
      id: "run",
      locomotiveId: "exact",
      purpose: "trial",
      startedAt: "2026-05-01T10:00:00+01:00",
      conditions: { ambientC: 15, feedC: 15 },
      entries: [...entries].sort((a, b) => a.atS - b.atS),
      ...head,
    },
  );
}
function given(figure: Figure | undefined): Measured {
  if (figure === undefined || !isMeasured(figure)) throw new Error(JSON.stringify(figure));
  return figure;
}
const partOf = ({ parts }: Measured, name: string): number =>
  Math.hypot(...parts.filter((part) => part.name === name).map(({ u }) => u));
const relative = (figure: Measured, name: string): number => partOf(figure, name) / figure.value;

const steady = [...running, ...held(), ...falling(1)];
const LEAKS = "leaks while running";
const UNNOTED = "steam the safety valve may have let go";

describe("what the engine drew", () => {
  const byEngine = (entries: readonly Entry[], drawing: object = {}) => {
    const { sources, water } = worked(entries, drawing);
    return drawnByEngine(sources, water);
  };
  const drawnG = given(worked(steady).totals?.waterDrawn).value;

  test("is what was drawn under way less the 4 % that usually leaks, that part in doubt by 2.5 %", () => {
    const found = given(byEngine(steady));
    expect(found.value / drawnG).toBeCloseTo(0.96, 4);
    expect(partOf(found, LEAKS) / drawnG).toBeCloseTo(0.025, 4);
    expect(partOf(found, UNNOTED)).toBe(0);
  });

  // 1.5 bar is above nine tenths of 1.6, and below nine tenths of 1.7
  test.each([
    ["spirit", 0.18, 0.12],
    ["butane", 0.02, 0.04],
    ["coal", 0.05, 0.06],
    ["other", 0.06, 0.08],
  ])(
    "near the lift with nothing written of the valve, less what a fire of %s gives it: %d of all, in doubt by %d",
    (kind, part, doubt) => {
      const near = given(byEngine(steady, { workingPressureBarG: 1.6, fuel: { kind } }));
      expect(near.value / drawnG).toBeCloseTo(0.96 - part, 4);
      expect(partOf(near, UNNOTED) / drawnG).toBeCloseTo(doubt, 4);
      expect(given(byEngine(steady, { workingPressureBarG: 1.7 })).value / drawnG).toBeCloseTo(0.96, 4);
      // a dial that may show 0.04 bar too little may have been there
      const poor = { ...engine.instruments, pressureReadingBar: 0.02 };
      const may = given(byEngine(steady, { workingPressureBarG: 1.7, instruments: poor, fuel: { kind } }));
      expect(partOf(may, UNNOTED) / drawnG).toBeCloseTo(doubt, 2);
    },
  );

  test("of a pressure near the lift before she ran, or of a valve that is in the log, nothing is taken off", () => {
    const late = steady.filter(({ kind }) => kind !== "phase" && kind !== "pressure");
    const early: Entry[] = [
      { kind: "phase", name: "running", atS: 600 },
      { kind: "pressure", barG: 1.5, atS: 0 },
      { kind: "pressure", barG: 1.5, atS: 300 },
      { kind: "pressure", barG: 1.4, atS: 600 },
      { kind: "pressure", barG: 1.4, atS: 1200 },
    ];
    expect(partOf(given(byEngine([...late, ...early], { workingPressureBarG: 1.6 })), UNNOTED)).toBe(0);
    const noted = [...steady, ...during("valve", 100, 160)];
    expect(partOf(given(byEngine(noted, { workingPressureBarG: 1.6 })), UNNOTED)).toBe(0);
  });

  test("one reading near the lift in one of two runs is enough, and none between or after them counts", () => {
    const runs: Entry[] = [
      { kind: "phase", name: "running", atS: 0 },
      { kind: "phase", name: "standing", atS: 400 },
      { kind: "phase", name: "running", atS: 500 },
      { kind: "phase", name: "standing", atS: 900 },
    ];
    const unnoted = (nearS: number) => {
      const bars = held(1.4).map((entry) =>
        entry.atS === nearS ? { kind: "pressure" as const, barG: 1.5, atS: nearS } : entry,
      );
      return partOf(
        given(byEngine([...runs, ...bars, ...falling(1)], { workingPressureBarG: 1.6 })),
        UNNOTED,
      );
    };
    expect([60, 600].map((atS) => unnoted(atS) > 0)).toEqual([true, true]);
    expect([480, 1020].map((atS) => unnoted(atS) > 0)).toEqual([false, false]);
  });

  test("a valve that lifts and is not seen to reseat blows to the end", () => {
    const open: Entry = { kind: "valve", state: "lifts", atS: 100 };
    expect(byEngine([...steady, open])).toMatchObject({
      why: expect.stringContaining("nearly all the time"),
    });
  });

  // under way 1200 s; 2 mm a minute go while the valve blows from 300 to 600 s, 1 mm a minute else
  test.each(["valve", "blower"] as const)("is told by the time in which the %s took nothing", (kind) => {
    const level = every(30, 1200, (atS): Entry => {
      const blown = Math.min(300, Math.max(0, atS - 300));
      return { kind: "level", mm: 50 - (atS + blown) / 60, atS };
    });
    const found = given(byEngine([...running, ...held(), ...level, ...during(kind, 300, 600)]));
    expect(found.value / drawnG).toBeGreaterThan(0.94);
    expect(found.value / drawnG).toBeLessThan(0.98);
  });

  test("is not told by a quarter of the run or less, and is by a little more", () => {
    expect(byEngine([...steady, ...during("valve", 0, 900)])).toMatchObject({
      value: null,
      why: expect.stringContaining("nearly all the time"),
    });
    expect(byEngine([...steady, ...during("valve", 0, 500), ...during("blower", 500, 900)]).value).toBeNull();
    expect(given(byEngine([...steady, ...during("valve", 0, 880)])).value).toBeGreaterThan(0);
  });

  test("lost in the doubt of the readings, or among what valve and blower took, it is not told, and it is said which", () => {
    const coarse = { instruments: { ...engine.instruments, levelReadingMm: 40 } };
    expect(byEngine(steady, coarse)).toMatchObject({ why: expect.stringContaining("run for longer") });
    expect(byEngine([...steady, ...during("valve", 100, 700)], coarse)).toMatchObject({
      why: expect.stringContaining("took steam too"),
    });
  });
});

describe("missing quantity", () => {
  const atHalfBar = [...running, ...held(1.5), ...falling(1)];

  test("what is missing is 1 less the share asked for, with the chest's doubt the other way round", () => {
    const { engine: found, totals } = worked(atHalfBar);
    const missing = given(found?.missingQuantity);
    const share = (6000 * given(found?.dryDemand).value) / (0.96 * given(totals?.waterDrawn).value);
    expect(1 - missing.value).toBeCloseTo(share, 4);
    const demand = given(found?.dryDemand);
    const [least, most] = interval(demand).map((end) => end / demand.value) as [number, number];
    const [low, high] = interval(missing);
    // other doubts, of leaks and of turns, add a little in quadrature
    expect((missing.value - low) / (share * (most - 1))).toBeGreaterThan(1);
    expect((missing.value - low) / (share * (most - 1))).toBeLessThan(1.05);
    expect((high - missing.value) / (share * (1 - least))).toBeGreaterThan(1);
    expect((high - missing.value) / (share * (1 - least))).toBeLessThan(1.2);
  });
});

describe("what is missing across a gap in the laps", () => {
  const missingOf = (laps: readonly number[]) =>
    worked(
      [
        { kind: "regulator", state: "open", atS: 0 },
        { kind: "regulator", state: "shut", atS: 1200 },
        { kind: "fuel", action: "added", g: 10, atS: 500 },
        { kind: "bypass", state: "open", atS: 0 },
        ...laps.map((atS): Entry => ({ kind: "lap", atS, count: 1 })),
        ...held(),
        ...falling(1),
      ],
      {},
      { track: { lapM: 30 } },
    ).engine?.missingQuantity;
  const all = Array.from({ length: 24 }, (_, i) => 50 * (i + 1));
  const without = (gapS: number) => all.filter((atS) => atS <= 200 || atS > 200 + gapS);

  test.each([
    ["nine", 450],
    ["twelve", 600],
  ])("of %s may be what it is with all of them written, whatever the chest had", (_, gapS) => {
    const [low, high] = interval(given(missingOf(without(gapS))));
    const [lowOfAll, highOfAll] = interval(given(missingOf(all)));
    expect(lowOfAll).toBeGreaterThan(0.1);
    expect(low).toBeLessThanOrEqual(lowOfAll + 0.005);
    expect(high).toBeGreaterThan(highOfAll);
  });
});

test("of a pump whose by-pass was never shut nothing is asked, and once it was, why there is nothing to tell", () => {
  const bypass = (state: "open" | "shut", atS: number): Entry => ({ kind: "bypass", state, atS });
  expect(worked([bypass("open", 0), ...steady]).pump).toBeNull();
  const before = [bypass("shut", -300), bypass("open", -200)];
  expect(worked([...before, ...steady]).pump?.perRevolution).toMatchObject({ value: null });
});

describe("nothing less than none is missing", () => {
  // nothing was fed: of a pump nobody wrote of the water that cylinders so large take would tell otherwise
  const open: Entry = { kind: "bypass", state: "open", atS: 0 };
  const missingOf = (boreMm: number) =>
    worked([open, ...steady], { cylinders: { count: 2, strokeMm: 16, cutoff: 0.75, boreMm } }).engine
      ?.missingQuantity;

  test("value and range end there", () => {
    const large = given(missingOf(23));
    expect(large.value).toBe(0);
    expect(interval(large)[0]).toBe(0);
    expect(interval(large)[1]).toBeGreaterThan(0);
  });

  test("where the cylinders take more than was drawn whatever the chest's pressure, there is no figure", () => {
    expect(missingOf(60)).toMatchObject({
      value: null,
      why: expect.stringContaining("less was drawn than the cylinders take"),
    });
  });
});

describe("overall efficiency", () => {
  const pulled = (...newtons: number[]) =>
    given(
      worked(
        [
          ...steady,
          ...fuel,
          ...newtons.map((one, i): Entry => ({ kind: "pull", newtons: one, atS: 60 + i })),
        ],
        {},
        { train: { massKg: 5, resistanceRatio: 0.02 } },
      ).engine?.overallEfficiency,
    );
  // 6000 turns of a wheel of 40 mm are 753.98 m; 30 g of spirit at 26 kJ/g are 780 kJ
  const METRES = 6000 * 0.04 * Math.PI;

  const AS_GIVEN = (5 * 9.80665 * 0.02 * METRES) / 780_000;

  // given as 1 + error of what is true, error a tenth: the mean of one in that is a hundredth more than 1
  test("a train's weight times its resistance, over the way she went, of the fuel's heat", () => {
    expect(pulled().value).toBeCloseTo(1.01 * AS_GIVEN, 8);
    expect(partOf(pulled(), "pull read seldom")).toBe(0);
  });

  test("the ratio given is in doubt by a tenth, the same in all runs with that train; a pull read has no such doubt", () => {
    const given = pulled().parts.find(({ name }) => name === "resistance of the train, as given");
    expect((given?.u ?? 0) / pulled().value).toBeCloseTo(0.1, 9);
    expect(given?.source).toBe("resistance of 5 kg at 0.02");
    expect(partOf(pulled(1.1), "resistance of the train, as given")).toBe(0);
  });

  test("given a tenth too little is further below the truth than given a tenth too much is above: the range is uneven", () => {
    const [low, high] = interval(pulled()).map((end) => end / AS_GIVEN) as [number, number];
    // 1/1.196 and 1/0.804; other doubts, of fuel and of lap and wheel, are a fiftieth and less, in quadrature
    expect(1 - low).toBeGreaterThan(1 - 1 / 1.196);
    expect(1 - low).toBeLessThan(1.1 * (1 - 1 / 1.196));
    expect(high - 1).toBeGreaterThan(1 / 0.804 - 1);
    expect(high - 1).toBeLessThan(1.1 * (1 / 0.804 - 1));
  });

  test("without fuel and without water there is nothing to set the work against", () => {
    const bare = worked([...running, ...held()], {}, { train: { massKg: 5, resistanceRatio: 0.02 } });
    expect(bare.engine?.overallEfficiency).toEqual({ value: null, why: "no fuel was recorded" });
  });

  test("a pull read once or twice is in doubt by 15 %, one read oftener by the scatter of its mean", () => {
    for (const newtons of [[1.1], [1, 1.2]]) {
      expect(pulled(...newtons).value).toBeCloseTo((1.1 * METRES) / 780_000, 8);
      expect(relative(pulled(...newtons), "pull read seldom")).toBeCloseTo(0.15, 9);
    }
    // 1.0, 1.1, 1.2: scatter 0.1, of the mean 0.1/sqrt(3)
    const thrice = pulled(1, 1.1, 1.2);
    expect(relative(thrice, "readings of the pull")).toBeCloseTo(0.1 / Math.sqrt(3) / 1.1, 9);
    expect(thrice.parts.find(({ name }) => name === "readings of the pull")?.df).toBe(2);
    expect(partOf(pulled(-1), "pull read seldom")).toBeGreaterThan(0);
  });
});

describe("the axle pump", () => {
  const bypass = (state: "open" | "shut", atS: number): Entry => ({ kind: "bypass", state, atS });
  const fed = (ml: number, atS: number): Entry => ({ kind: "feed", by: "axle-pump", ml, atS });
  /** 6000 turns in 1200 s: 3000 turns with the by-pass shut for 600 s */
  const pumped = [...steady, bypass("shut", 0), bypass("open", 600)];

  test("what its tank lost over the turns with the by-pass shut, and over what the ram sweeps", () => {
    const { pump } = worked([...pumped, fed(120, 600)]);
    expect(given(pump?.perRevolution).value).toBeCloseTo(120 / 3000, 4);
    expect(pump?.perRevolution).toMatchObject({ unit: "ml" });
    expect(given(pump?.volumetricEfficiency).value).toBeCloseTo(120 / 3000 / (Math.PI * 4 * 5e-3), 3);
    expect(pump?.volumetricEfficiency).toMatchObject({ unit: "1" });
  });

  // scale 2 %, one measure of 1 ml in 120, two turns of the by-pass by 2 s each in 600 s
  test("in doubt by the scale of the measure, by each measure and by when the by-pass was turned", () => {
    const one = given(worked([...pumped, fed(120, 600)]).pump?.perRevolution);
    expect(relative(one, "scale of the feed measure")).toBeCloseTo(0.02, 6);
    expect(one.parts.find(({ name }) => name === "scale of the feed measure")?.source).toBe(
      "feed scale of exact",
    );
    expect(relative(one, "each measure of feed")).toBeCloseTo(1 / 120, 6);
    expect(relative(one, "when the by-pass was turned")).toBeCloseTo((2 * Math.SQRT2) / 600, 6);
    const twice = worked([
      ...steady,
      ...[0, 600].flatMap((atS) => [bypass("shut", atS), bypass("open", atS + 300), fed(60, atS + 300)]),
    ]);
    const two = given(twice.pump?.perRevolution);
    expect(two.value).toBeCloseTo(120 / 3000, 4);
    expect(relative(two, "each measure of feed")).toBeCloseTo(Math.SQRT2 / 120, 6);
    expect(relative(two, "when the by-pass was turned")).toBeCloseTo((2 * 2) / 600, 6);
  });

  test("counts the time up to the last look at its tank only", () => {
    const { pump } = worked([...steady, bypass("shut", 0), fed(120, 600)]);
    expect(given(pump?.perRevolution).value).toBeCloseTo(120 / 3000, 4);
  });

  // the boiler falls by 1 mm a minute with 12 g a minute fed: 5 ml a millimetre, hot, at 1.5 bar 1.068 ml a gram
  test("keeps up where it would give more than is drawn, were the by-pass always shut", () => {
    const told = (mmPerMin: number, ml: number) =>
      worked([
        ...running,
        ...held(),
        ...falling(mmPerMin),
        bypass("shut", 0),
        bypass("open", 1200),
        fed(ml, 1200),
      ]).pump?.keepsUp;
    expect(told(0.5, 100)).toBe(false);
    expect(told(-0.5, 100)).toBe(true);
    expect(told(0, 100)).toBeNull();
    // shut for half the time: twice as much as it gave would come in
    const half = (ml: number) => worked([...pumped, ...[fed(ml, 600)]]).pump?.keepsUp;
    // drawn 20 mm x 5 ml / 1.068 less steam, and what was fed: 93 g + feed; twice the feed against it
    expect(half(60)).toBe(false);
    expect(half(130)).toBe(true);
  });

  // running, the water rises while 100 ml are fed; standing, it falls by 5 mm a minute
  test("what goes while she stands does not count against it", () => {
    const level = every(
      30,
      1200,
      (atS): Entry => ({
        kind: "level",
        mm: 40 + Math.min(atS, 600) / 120 - Math.max(0, atS - 600) / 24,
        atS,
      }),
    );
    const stood: Entry = { kind: "phase", name: "standing", atS: 600 };
    const { pump } = worked([
      ...running,
      stood,
      ...held(),
      ...level,
      bypass("shut", 0),
      bypass("open", 600),
      fed(100, 600),
    ]);
    expect(pump?.keepsUp).toBe(true);
  });

  test("feed from a bottle is none of its own", () => {
    const bottle = (atS: number): Entry => ({ kind: "feed", by: "bottle", ml: 30, atS });
    const both = worked([...pumped, fed(120, 600), bottle(500), bottle(900)]).pump;
    expect(given(both?.perRevolution).value).toBeCloseTo(120 / 3000, 4);
    expect(worked([...steady, bottle(500)]).pump).toBeNull();
  });

  /** Information adds: what the readings tell is what is known less what was known beforehand. */
  test("worked by its by-pass alone, what the level tells owes nothing to what is usual of such pumps", () => {
    const level = every(
      30,
      1200,
      (atS): Entry => ({ kind: "level", mm: 50 - atS / 60 + Math.min(10, atS / 60), atS }),
    );
    const { pump, water, sources } = worked([
      ...running,
      ...held(),
      ...level,
      bypass("shut", 0),
      bypass("open", 600),
    ]);
    const told = given(pump?.perRevolution);
    const known = water.balance?.estimate({ unit: "g", pumpRate: 1 });
    if (known == null) throw new Error("no balance");
    const precision = (u: number) => 1 / u ** 2;
    const { gPerS, uGPerS } = water.input.pumpPrior;
    const of = precision(Math.hypot(...known.parts.map(({ u }) => u)));
    const byReadings = of - precision(uGPerS);
    const rate = (known.value * of - gPerS * precision(uGPerS)) / byReadings;
    // 600 s for 3000 turns; water at 15 °C 0.9991 g/ml (handbooks); she draws a sixteenth of what is fed less; and no pump gives more
    // than a tenth above what it sweeps
    const mlATurn = 600 / 3000 / 0.9991;
    const [u, name] = [mlATurn / Math.sqrt(byReadings), "readings of water"];
    const uTurns = (u * relative(told, "laps begun and not counted")) / relative(told, name);
    const bare = { value: (rate * mlATurn) / 1.0625, unit: "ml" };
    const parts = [
      { name, u },
      { name: "turns", u: uTurns },
    ];
    const within = meanWithin({ ...bare, parts }, 0, (1.1 * Math.PI * 4 ** 2 * 5) / 4 / 1000);
    expect(told.value).toBeCloseTo(within.value, 5);
    expect(relative(told, "readings of water")).toBeCloseTo(relative(within, name), 4);
    expect(sources.timeline.of("feed")).toEqual([]);
    // the level fell by 1 mm a minute without it and stood still with it: 5 ml, hot, 4.63 g and a little less steam
    const [low, high] = interval(told);
    expect(low).toBeLessThan(((4.63 / 60) * 600) / 3000);
    expect(high).toBeGreaterThan(((4.63 / 60) * 600) / 3000);
  });

  test("whether it keeps up is not told without a reading of the water, nor where nothing was drawn", () => {
    const blind = worked([...pumped.filter(({ kind }) => kind !== "level"), fed(120, 600)]);
    expect(given(blind.pump?.perRevolution).value).toBeCloseTo(0.04, 4);
    expect(blind.pump?.keepsUp).toBeNull();
    expect(blind.pump?.keepsUpUntold).toContain("nothing was read that tells the water");
    expect(blind.warnings.find(({ code }) => code === "pump-keeps-up-untold")?.text).toContain(
      "keeps up is not told: nothing was read",
    );
    const filled = worked([
      ...running,
      ...held(),
      ...falling(-3, 1200).map((e) => (e.kind === "level" ? { ...e, mm: e.mm - 45 } : e)),
      bypass("shut", 0),
      bypass("open", 1200),
      fed(120, 1200),
    ]);
    expect(filled.pump?.keepsUp).toBeNull();
  });
});
