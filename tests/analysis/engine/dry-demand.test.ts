import { describe, expect, test } from "vitest";
import { dryDemandOf } from "../../../src/analysis/engine/dry-demand.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { interval, isMeasured, type Measured } from "../../../src/quantity/measured.ts";
import { saturatedSteam } from "../../../src/steam/saturation.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { bar, regulator, sources } from "../water/water-log.ts";

/** 2 x 2 x 153.938 mm2 x 16 mm = 9852.0 mm3 swept a turn, of which 0.75 is filled at chest pressure; 40 mm x pi of way. */
const cylinders = { count: 2, boreMm: 14, strokeMm: 16, cutoff: 0.75, clearance: 0 };
const SWEPT_M3 = 9852.03e-9;
const instruments = { pressureReadingBar: 1e-4, pressureBiasBar: 1e-4 };
const engine: Locomotive = { ...smallEngine(), id: "exact", cylinders, drivingWheelMm: 40, instruments };

const held = (barG: number): Entry[] => [
  bar(barG, 0),
  regulator("open", 0),
  bar(barG, 300),
  regulator("shut", 600),
  bar(barG, 600),
];
const conditions = { ambientC: 15, feedC: 15, atmosphereHPa: 1013.25 };
const demandOf = (
  entries: Entry[],
  head: Partial<Steaming> = {},
  more: Partial<Locomotive> = {},
): Measured => {
  const demand = dryDemandOf(sources(entries, { ...engine, ...more }, { conditions, ...head }));
  if (!isMeasured(demand)) throw new Error(demand.why);
  return demand;
};

/** g a turn at a chest pressure: volume times the density of IF97, which its own published values hold. */
const gramsAt = (barG: number, volumeM3 = 0.75 * SWEPT_M3) =>
  (1000 * volumeM3) / saturatedSteam(101_325 + 1e5 * barG).volumeM3PerKg;
/** At a light engine's usual and least pressure, of 3 bar in the boiler. */
const [USUAL_BAR, LEAST_BAR] = [0.25 * 3, 0.08 * 3];
const partNamed = (figure: Measured, name: string) => figure.parts.find((part) => part.name === name);
const CHEST = "chest pressure, which is not read";

describe("dry demand of a light engine", () => {
  const demand = demandOf(held(3));

  test("is that at a quarter of the boiler's pressure", () => {
    expect(demand.unit).toBe("g/rev");
    expect(demand.value / gramsAt(USUAL_BAR)).toBeCloseTo(1, 5);
  });

  test("reaches from what merely turns the wheels to the regulator wide open", () => {
    const [low, high] = interval(demand);
    expect(low / gramsAt(LEAST_BAR)).toBeCloseTo(1, 3);
    expect(high / gramsAt(3)).toBeCloseTo(1, 3);
  });

  test("is in doubt by the root mean square of drivers, one in five of whom opens farther, evenly up to all", () => {
    // 1000 drivers: 800 places of a bell about the usual one whose lower 2.5 in 100 lie below the least, 200 evenly above
    const bell = (gramsAt(USUAL_BAR) - gramsAt(LEAST_BAR)) / 1.96;
    const farther = Array.from(
      { length: 200 },
      (_, i) => ((i + 0.5) / 200) * (gramsAt(3) - gramsAt(USUAL_BAR)),
    );
    const squares = 800 * bell ** 2 + farther.reduce((sum, off) => sum + off ** 2, 0);
    expect((partNamed(demand, CHEST)?.u ?? 0) / Math.sqrt(squares / 1000)).toBeCloseTo(1, 3);
    expect(partNamed(demand, CHEST)?.source).toBe("chest pressure of exact");
  });

  test("single-acting asks for twice the pressure on half the faces, at the most for all that the boiler has", () => {
    const single = demandOf(held(3), {}, { cylinders: { ...cylinders, doubleActing: false } });
    const volumeM3 = (0.75 * SWEPT_M3) / 2;
    const [low, high] = interval(single);
    expect(single.value / gramsAt(2 * USUAL_BAR, volumeM3)).toBeCloseTo(1, 5);
    expect(low / gramsAt(2 * LEAST_BAR, volumeM3)).toBeCloseTo(1, 3);
    expect(high / gramsAt(3, volumeM3)).toBeCloseTo(1, 3);
  });

  // 8 hundredths of the stroke, by common practice 5 to 12: at cut-off 0.75 a volume of 0.83 of the swept, give or take 0.02
  test("a clearance that nobody gave is a usual one, and in doubt", () => {
    const { clearance: _, ...notGiven } = cylinders;
    const figure = demandOf(held(3), {}, { cylinders: notGiven });
    expect(figure.value / demand.value).toBeCloseTo(0.83 / 0.75, 5);
    const part = partNamed(figure, "clearance, which was not given");
    expect((part?.u ?? 0) / figure.value).toBeCloseTo(0.02 / 0.83, 5);
    expect(part?.source).toBe("clearance of exact");
    expect(partNamed(demand, "clearance, which was not given")).toBeUndefined();
  });

  test.each([0.08, 0.25, 0.4, 0.6, 0.8, 0.95, 1])("holds a chest at %d of the boiler's pressure", (part) => {
    const [low, high] = interval(demand);
    expect(gramsAt(3 * part)).toBeGreaterThan(low * (1 - 1e-5));
    expect(gramsAt(3 * part)).toBeLessThan(high * (1 + 1e-5));
  });

  test("and at its upper end too much of it by all", () => {
    const biased = demandOf(held(3), {}, { instruments: { pressureReadingBar: 1e-4, pressureBiasBar: 0.5 } });
    const wide = gramsAt(3) - demand.value;
    const beside = 1.96 * (gramsAt(3.25) - gramsAt(2.75));
    expect((interval(biased)[1] - biased.value) / Math.hypot(wide, beside)).toBeCloseTo(1, 2);
  });

  test("what the dial shows too much is too much of it by the usual part", () => {
    const biased = demandOf(held(3), {}, { instruments: { pressureReadingBar: 1e-4, pressureBiasBar: 0.1 } });
    const moved = gramsAt(0.25 * 3.1) - gramsAt(0.25 * 3);
    expect((partNamed(biased, "bias of the pressure dial")?.u ?? 0) / moved).toBeCloseTo(1, 1);
  });
});

describe("a train asks for more", () => {
  // 4 kg x 9.80665 x 0.02 = 0.78453 N over 0.125664 m a turn are 0.098587 J, by 0.85 x 9852.03e-9 m3: 0.117727 bar
  const READ_BAR = 0.117727;
  // of a ratio given to a tenth of what is true the mean is a hundredth more
  const TRAIN_BAR = 1.01 * READ_BAR;
  const over = (trainBar: number) => gramsAt(USUAL_BAR + trainBar);
  const pulling = (head: Partial<Steaming>, more: Partial<Locomotive> = {}, entries: Entry[] = []) =>
    demandOf(
      [...held(3), ...entries].sort((a, b) => a.atS - b.atS),
      head,
      more,
    );
  const given = { train: { massKg: 4, resistanceRatio: 0.02 } };

  test("by its pull over the way of a turn, which the mean effective pressure does", () => {
    const demand = pulling(given);
    expect(demand.value / over(TRAIN_BAR)).toBeCloseTo(1, 3);
    expect(demand.value / over(0)).toBeGreaterThan(1.03);
  });

  test("its ratio's tenth is of the one source that the work on it owes to", () => {
    const doubt = partNamed(pulling(given), "resistance of the train, as given");
    expect(doubt?.source).toBe("resistance of 4 kg at 0.02");
    expect((doubt?.u ?? 0) / (over(1.1 * TRAIN_BAR) - over(TRAIN_BAR))).toBeCloseTo(1, 1);
  });

  test("a ratio nobody gave is 1.65 %, in doubt by a quarter", () => {
    const demand = pulling({ train: { massKg: 40 } });
    expect(demand.value / over(10 * (0.0165 / 0.02) * READ_BAR)).toBeCloseTo(1, 3);
    const doubt = partNamed(demand, "resistance of the train, as usual");
    expect(doubt?.source).toBe("resistance of 40 kg, not given");
    const perBar = gramsAt(USUAL_BAR + 1) - gramsAt(USUAL_BAR);
    expect((doubt?.u ?? 0) / (0.24 * 8.25 * READ_BAR * perBar)).toBeCloseTo(1, 1);
  });

  test("a pull that was read stands before what the train weighs", () => {
    const pull: Entry = { kind: "pull", newtons: 0.78453, atS: 100 };
    expect(pulling({ train: { massKg: 40 } }, {}, [pull]).value / over(READ_BAR)).toBeCloseTo(1, 3);
  });

  test("a train of no mass is none", () => {
    expect(pulling({ train: { massKg: 0 } }).value).toBe(pulling({}).value);
  });

  test("a wheel nobody measured is 2.7 strokes across", () => {
    const unknown = { drivingWheelMm: undefined } as object;
    expect(pulling(given, unknown).value / over((TRAIN_BAR * 2.7 * 16) / 40)).toBeCloseTo(1, 3);
  });

  test("at the least by as much, in doubt by its ratio and by how well the cylinders push", () => {
    const heavy = pulling({ train: { massKg: 40, resistanceRatio: 0.02 } });
    const least = LEAST_BAR + 10 * TRAIN_BAR;
    const perBar = gramsAt(least + 0.5) - gramsAt(least - 0.5);
    // a tenth of 1.177 bar each, in quadrature beside the chest's
    const beside = 1.96 * Math.SQRT2 * 0.1 * 10 * TRAIN_BAR * perBar;
    const low = heavy.value - Math.hypot(heavy.value - gramsAt(least), beside);
    expect(interval(heavy)[0] / low).toBeCloseTo(1, 2);
    const push = partNamed(heavy, "how well the cylinders push");
    expect(push?.source).toBe("mean effective pressure of exact");
    expect((push?.u ?? 0) / (0.1 * 10 * TRAIN_BAR * perBar)).toBeCloseTo(1, 1);
  });
});

describe("the chest never has more than the boiler", () => {
  const heavy = { train: { massKg: 400, resistanceRatio: 0.02 } };

  test("behind a train that asks for more the regulator is wide open, and ports leave half to all of it", () => {
    const demand = demandOf(held(1.5), heavy);
    expect(demand.value / gramsAt(0.8 * 1.5)).toBeCloseTo(1, 5);
    expect(interval(demand)[0] / gramsAt(0.5 * 1.5)).toBeCloseTo(1, 3);
    expect(interval(demand)[1] / gramsAt(1.5)).toBeCloseTo(1, 3);
    expect(partNamed(demand, "resistance of the train, as given")).toBeUndefined();
  });

  // 100 s at 1 bar and 300 s at 1.6667 bar are 1.5 bar in the mean of the time under way; a stop at 4 bar between
  test("as it stood while she was under way", () => {
    const entries = [
      bar(1, 0),
      regulator("open", 0),
      bar(1, 100),
      regulator("shut", 100),
      bar(4, 100.01),
      bar(4, 299.99),
      regulator("open", 300),
      bar(5 / 3, 300),
      bar(5 / 3, 600),
      regulator("shut", 600),
    ];
    expect(demandOf(entries, heavy).value / gramsAt(0.8 * 1.5)).toBeCloseTo(1, 2);
  });

  test("where none was read while she ran, between the safety valve's mark and the next reading", () => {
    const entries: Entry[] = [
      { kind: "fire", state: "lit", atS: 0 },
      { kind: "valve", state: "lifts", atS: 300 },
      { kind: "valve", state: "reseats", atS: 600 },
      { kind: "fire", state: "out", atS: 700 },
      regulator("open", 790),
      regulator("shut", 810),
      bar(0.1, 1000),
      bar(0, 1100),
    ];
    // 0.91 of 3 bar at 600 s, 0.1 bar at 1000 s: half way between at 800 s
    const demand = demandOf(entries, heavy);
    expect(demand.value / gramsAt((0.8 * (0.91 * 3 + 0.1)) / 2)).toBeCloseTo(1, 2);
    // a fifth of that fall may be bent either way
    const perBar = gramsAt(1.9) - gramsAt(0.9);
    expect((partNamed(demand, "pressure readings")?.u ?? 0) / (0.8 * 0.2 * 2.63 * perBar)).toBeCloseTo(1, 1);
  });

  test("there is no figure without a pressure, or without a run", () => {
    const why = (entries: Entry[]) => {
      const demand = dryDemandOf(sources(entries, engine));
      return isMeasured(demand) ? "" : demand.why;
    };
    expect(why([regulator("open", 0), regulator("shut", 600)])).toBe("no pressure was read while she ran");
    expect(why([bar(3, 0), bar(3, 600)])).toBe("no pressure was read while she ran");
  });
});
