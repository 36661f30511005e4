import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { reportOf } from "../../../src/analysis/report.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { figureValue } from "../../support/figures.ts";
import { evenBoiler } from "../../support/small-logbook.ts";

/**
 * Worked by hand. Two double-acting cylinders 14 x 16 mm, rod 3 mm, cut-off 0.75, clearance 0.08:
 *   faces 2 x 153.938 - 7.0686 = 300.807 mm2; x 16 mm x 2 = 9625.8 mm3; x 0.83 = 7989.4 mm3 of steam a turn.
 * Boiler held at 0.625 bar behind a train that asks for more, so that the chest stands at 0.8 of it, 0.5 bar: vg 1.150 m3/kg
 * (Spirax Sarco, Dry Saturated Steam Tables, TI-GCM-01 issue 6): 7.9894e-6/1.150 = 6.947e-6 kg = 6.947 mg a turn.
 * Twelve laps of 30 m on a wheel of 40 mm: 360/(0.04 pi) = 2864.8 turns, and the part of a lap that is not counted.
 * Train of 4 kg, resistance 2 %: 4 x 9.80665 x 0.02 = 0.78453 N; x 360 m = 282.4 J; fuel 15 g x 26 kJ/g = 390 kJ:
 *   7.242e-4.
 * Pump: ram 4 mm, stroke 5 mm, once a turn: 62.832 mm3; 135 ml in 2864.8 turns: 0.047124 ml, 0.7500 of it.
 */
const locomotive: Locomotive = {
  id: "engine",
  name: "Worked by hand",
  workingPressureBarG: 2.6,
  boiler: evenBoiler,
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 26 },
  cylinders: { count: 2, boreMm: 14, strokeMm: 16, rodMm: 3, cutoff: 0.75, clearance: 0.08 },
  drivingWheelMm: 40,
  axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 },
  fittings: [],
};

const BAR = 1.5;
const lapTimes = Array.from({ length: 12 }, (_, i) => 50 * (i + 1));
const run: Entry[] = [
  { kind: "fire", atS: 0, state: "lit" },
  { kind: "fuel", atS: 0, action: "added", g: 20 },
  { kind: "regulator", atS: 0, state: "open" },
  ...lapTimes.map((atS): Entry => ({ kind: "lap", atS, count: 1 })),
  { kind: "regulator", atS: 600, state: "shut" },
  { kind: "fire", atS: 600, state: "out" },
  { kind: "fuel", atS: 600, action: "remaining", g: 5 },
  ...[0, 150, 300, 450, 600].map((atS): Entry => ({ kind: "pressure", atS, barG: BAR })),
];
const bypass: Entry[] = [
  { kind: "bypass", atS: 0, state: "shut" },
  { kind: "bypass", atS: 600, state: "open" },
  { kind: "feed", atS: 600, ml: 135, by: "axle-pump" },
];
/** mm of glass at 5 ml a millimetre */
const glass = (level: (atS: number) => number): Entry[] =>
  Array.from({ length: 21 }, (_, i): Entry => ({ kind: "level", atS: 30 * i, mm: level(30 * i) }));
const steady = glass(() => 30);

const report = (
  entries: readonly Entry[],
  more: Partial<Steaming> = {},
  engine: Partial<Locomotive> = {},
) => {
  const steaming: Steaming = {
    id: "run",
    locomotiveId: "engine",
    purpose: "trial",
    startedAt: "2026-05-01T10:00:00+01:00",
    conditions: { ambientC: 15, feedC: 15 },
    track: { lapM: 30 },
    train: { massKg: 4, resistanceRatio: 0.02 },
    entries: [...entries].sort((a, b) => a.atS - b.atS),
    ...more,
  };
  return reportOf(analyse({ ...locomotive, ...engine }, steaming));
};

describe("the engine", () => {
  const { engine } = report([...run, ...bypass, ...steady]);

  const atHalfBar = [...run, ...steady].map(
    (entry): Entry => (entry.kind === "pressure" ? { ...entry, barG: 0.5 / 0.8 } : entry),
  );
  const heavy = { train: { massKg: 400, resistanceRatio: 0.02 } };

  test("dry demand is swept volume x (cut-off + clearance) at chest pressure", () => {
    expect(figureValue(report(atHalfBar, heavy).engine?.dryDemand)).toBeCloseTo(6.947e-3, 5);
  });

  test("single-acting cylinders ask for one face", () => {
    const cylinders = {
      count: 2,
      boreMm: 14,
      strokeMm: 16,
      rodMm: 3,
      cutoff: 0.75,
      clearance: 0,
      doubleActing: false,
    };
    const single = report(atHalfBar, heavy, { cylinders });
    expect(figureValue(single.engine?.dryDemand)).toBeCloseTo((2 * 153.938 * 16e-9 * 0.75 * 1000) / 1.15, 5);
  });

  test("missing quantity is what the engine drew beyond it", () => {
    const { value } = engine?.missingQuantity ?? { value: null };
    // 134.9 g of feed went through, 4 % of it by leaks
    const grams = 2864.8 * figureValue(engine?.dryDemand);
    expect(value).toBeCloseTo(1 - grams / (0.96 * 134.9), 2);
  });

  // a train that is given within a tenth of what it truly asks for asks for 1/(1 + error) of it: a hundredth more on the mean
  test("overall efficiency is work on the train over the fuel's heat", () => {
    expect(figureValue(engine?.overallEfficiency)).toBeCloseTo(1.01 * 7.242e-4, 6);
  });

  test("a measured pull stands before the reckoned one", () => {
    const pulls = [1, 1.2, 1.1, 1.1].map(
      (newtons, i): Entry => ({ kind: "pull", atS: 100 + 100 * i, newtons }),
    );
    const measured = report([...run, ...bypass, ...steady, ...pulls]).engine?.overallEfficiency;
    expect(figureValue(measured)).toBeCloseTo((1.1 * 360) / 390_000, 6);
    expect(
      measured?.value !== null && measured?.parts?.some((part) => part.name === "readings of the pull"),
    ).toBe(true);
  });

  test("counted turns stand before those of laps", () => {
    const turns: Entry = { kind: "revolutions", atS: 600, count: 3000 };
    const pumped = report([...run, ...bypass, ...steady, turns]).pump;
    expect(figureValue(pumped?.perRevolution)).toBeCloseTo(135 / 3000, 5);
  });

  test("what was not recorded is named", () => {
    const bare = report([...run, ...steady], { train: { massKg: 4 } }, {
      drivingWheelMm: undefined,
    } as object);
    expect(bare.engine?.missingQuantity).toMatchObject({ why: expect.stringContaining("driving wheel") });
    expect(bare.engine?.overallEfficiency).toMatchObject({ why: expect.stringContaining("resistance") });
    const unknown = report([...run, ...steady], {}, { cylinders: undefined } as object);
    expect(unknown.engine?.dryDemand).toMatchObject({ why: expect.stringContaining("cylinders") });
    expect(
      report([...run.filter((entry) => entry.kind !== "lap" && entry.kind !== "regulator"), ...steady])
        .engine,
    ).toBe(null);
  });
});

describe("the axle pump", () => {
  test.each([
    [{ ramMm: 0 }, "0 ml"],
    [{ strokeMm: Number.NaN }, "NaN ml"],
  ])("of a ram and stroke that sweep nothing says so: %o", (wrong, came) => {
    const axlePump = { ramMm: 4, strokeMm: 5, strokesPerRev: 1, ...wrong };
    expect(() => report([...run, ...bypass, ...steady], {}, { axlePump })).toThrow(`axlePump: ${came}`);
  });

  test("delivery a turn is what the tank lost over the turns with the by-pass shut", () => {
    const { pump } = report([...run, ...bypass, ...steady]);
    expect(figureValue(pump?.perRevolution)).toBeCloseTo(0.047124, 4);
    expect(figureValue(pump?.volumetricEfficiency)).toBeCloseTo(0.75, 3);
  });

  test("turns with the by-pass open do not count", () => {
    const half: Entry[] = [
      { kind: "bypass", atS: 0, state: "shut" },
      { kind: "bypass", atS: 300, state: "open" },
      { kind: "feed", atS: 300, ml: 67.5, by: "axle-pump" },
    ];
    const { pump } = report([...run, ...half, ...glass((atS) => 40 - atS / 60)]);
    expect(figureValue(pump?.perRevolution)).toBeCloseTo(0.047124, 4);
  });

  test("it keeps up where it gives more than is drawn, not where it gives less, and between nobody knows", () => {
    const fed = (mmPerMinute: number) =>
      report([...run, ...bypass, ...glass((atS) => 30 + (mmPerMinute * atS) / 60)]).pump?.keepsUp;
    expect(fed(1.2)).toBe(true);
    expect(fed(-1.2)).toBe(false);
    expect(fed(0)).toBe(null);
  });

  test("of a pump that is not told to keep up it is said why, and of one that is nothing", () => {
    const said = (entries: readonly Entry[]) =>
      report(entries).warnings.filter(({ code }) => code === "pump-keeps-up-untold");
    const rising = (mmPerMinute: number) => glass((atS) => 30 + (mmPerMinute * atS) / 60);
    expect(said([...run, ...bypass, ...rising(1.2)])).toEqual([]);
    expect(said([...run, ...bypass, ...rising(-1.2)])).toEqual([]);
    expect(said([...run, ...bypass, ...steady])).toEqual([
      {
        code: "pump-keeps-up-untold",
        text: expect.stringMatching(
          /^Whether the axle pump keeps up is not told: by the readings it gives 0\.\d to 1\.\d times/,
        ),
        entries: [],
      },
    ]);
    // by the trend of the glass it may be less than nothing, and a pump gives no less
    expect(said([...run, ...shutLate, ...trend(4)])[0]?.text).toContain("it gives 0.0 to 1.");
  });

  /** drawn 6 mm of glass in 5 minutes, by-pass open and then shut, when the pump gives what it gives */
  const trend = (pumpedMm: number) =>
    glass((atS) => 45 - (6 * atS) / 300 + (pumpedMm * Math.max(0, atS - 300)) / 300);
  const shutLate: Entry[] = [
    { kind: "bypass", atS: 0, state: "open" },
    { kind: "bypass", atS: 300, state: "shut" },
  ];

  test("where nobody measured its feed, the level's trend tells it, with its doubt", () => {
    // 13 mm x 5 ml, hot, in 1432.4 turns: 65 ml at 125 °C (density 0.939) = 61.1 g, cold 0.0427 ml a turn
    const { perRevolution } = report([...run, ...shutLate, ...trend(13)]).pump ?? {};
    if (perRevolution === undefined || perRevolution.value === null) throw new Error("not told");
    expect(perRevolution.value).toBeCloseTo(0.0427, 2);
    expect(perRevolution.lo95).toBeLessThan(0.0427);
    expect(perRevolution.hi95).toBeGreaterThan(0.0427);
    expect(perRevolution.u).toBeLessThan(0.015);
  });

  test("its feed is thought as large where the laps were written down after the stop as where each was tapped", () => {
    const total = (entries: readonly Entry[]) => report(entries).totals?.waterDrawn;
    const tapped = total([...run, ...shutLate, ...steady]);
    const atTheStop = run.filter((entry) => entry.kind !== "lap");
    const counted = total([...atTheStop, { kind: "lap", atS: 605, count: 12 }, ...shutLate, ...steady]);
    if (tapped?.value == null || counted?.value == null) throw new Error("not told");
    expect(Math.abs(counted.value / tapped.value - 1)).toBeLessThan(0.1);
  });

  test("a level that is read twice does not tell it", () => {
    const two = trend(13).filter((entry) => entry.atS === 0 || entry.atS === 600);
    expect(report([...run, ...shutLate, ...two]).pump?.perRevolution).toMatchObject({ value: null });
  });

  test("without the by-pass in the log it is not said when the pump fed", () => {
    const { pump } = report([...run, ...steady, { kind: "feed", atS: 600, ml: 135, by: "axle-pump" }]);
    expect(pump).toMatchObject({ keepsUp: null, perRevolution: { why: expect.stringContaining("by-pass") } });
  });

  test("an engine without a pump, or a log without a word of it, has no such section", () => {
    expect(report([...run, ...steady]).pump).toBe(null);
    expect(report([...run, ...bypass, ...steady], {}, { axlePump: undefined } as object).pump).toBe(null);
  });
});

/** 0.85 of what the ram sweeps, 62.832 mm3, in 2864.8 turns and the part of a lap more: 153 g of water at 15 °C. */
describe("an axle pump of which nothing was written", () => {
  const instruments = { levelReadingMm: 0.3 };
  const drawn = (entries: readonly Entry[], more: Partial<Locomotive> = {}) => {
    const { totals, warnings } = report([...run, ...entries], {}, { instruments, ...more });
    const figure = totals?.waterDrawn;
    if (figure === undefined || figure.value === null) throw new Error("nothing drawn");
    const said = warnings.find(({ code }) => code === "pump-not-recorded")?.text ?? "";
    return { ...figure, feed: totals?.feed, said };
  };

  test("must have fed where the glass stood still while she ran: drawn was anything from nothing to all it can feed", () => {
    const { value, lo95, hi95, parts, feed, said } = drawn(steady);
    const alone = drawn(steady, { axlePump: { ramMm: 0.001, strokeMm: 5, strokesPerRev: 1 } });
    expect(lo95).toBeLessThan(0.1 * 135);
    expect(hi95).toBeGreaterThan(135);
    expect((hi95 - alone.hi95) / (2 * (value - alone.value))).toBeCloseTo(1, 2);
    expect(hi95 - alone.hi95).toBeGreaterThan(0.85 * 0.062832 * 2864.8 * 0.99);
    expect(hi95 - alone.hi95).toBeLessThan(0.85 * 0.062832 * 2864.8 * 1.1);
    const pump = parts?.find(({ name }) => name === "axle pump, of which nothing was written")?.u ?? 0;
    // evenly between the two: its width over root 12
    expect(pump / ((hi95 - alone.hi95) / Math.sqrt(12))).toBeCloseTo(1, 2);
    expect(feed?.value).toBeCloseTo(value - alone.value, 4);
    expect(said).toContain("it seems that her axle pump fed");
  });

  test("widens all that is told by what she drew", () => {
    const { perLap, heat, phases, engine } = report([...run, ...steady], {}, { instruments });
    const running = phases.find(({ name }) => name === "running")?.steamingRate;
    for (const figure of [perLap?.water, heat?.efficiency, heat?.evaporationRatio, running]) {
      if (figure === undefined || figure.value === null) throw new Error("not told");
      expect(figure.parts?.map(({ name }) => name)).toContain("axle pump, of which nothing was written");
    }
    expect(engine?.missingQuantity).toEqual({ value: null, why: expect.stringContaining("its by-pass") });
  });

  test("is taken as not feeding where the water fell as it does, or other feed explains what is there", () => {
    const falling = drawn(glass((atS) => 45 - (30 * atS) / 600));
    expect(falling.parts?.map(({ name }) => name)).not.toContain("axle pump, of which nothing was written");
    expect(falling.said).toContain("taken as not feeding");
    const fedByHand: Entry = { kind: "feed", by: "bottle", ml: 150, atS: 310 };
    const fed = drawn([...glass((atS) => (atS < 300 ? 45 : 75) - (30 * atS) / 600), fedByHand]);
    expect(fed.said).toContain("taken as not feeding");
  });
});
