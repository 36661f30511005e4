import { describe, expect, test } from "vitest";
import { dryDemandOf } from "../../../src/analysis/engine/dry-demand.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { interval, isMeasured, type Measured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { saturatedSteam } from "../../../src/steam/saturation.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { bar, regulator, sources } from "../water/water-log.ts";

/** 2 x 2 x 153.938 mm2 x 16 mm = 9852.0 mm3 swept a turn, of which 0.75 is filled at chest pressure; 40 mm x pi of way. */
const cylinders = { count: 2, boreMm: 14, strokeMm: 16, cutoff: 0.75 };
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
/** 95 of 100 between 0.08 and 0.56 of the boiler's, as a bell of the logarithm. */
const partAt = (place: number) => Math.sqrt(0.08 * 0.56) * (0.56 / 0.08) ** (place / 3.92);

/** Mean and spread over a bell by 1201 places: another way than the program's three. */
function overBell(of: (place: number) => number): { mean: number; spread: number } {
  const places = Array.from({ length: 1201 }, (_, i) => (i - 600) / 100);
  const weights = places.map((place) => Math.exp(-(place ** 2) / 2));
  const total = weights.reduce((sum, one) => sum + one, 0);
  const by = (value: (place: number) => number) =>
    places.reduce((sum, place, i) => sum + (weights[i] as number) * value(place), 0) / total;
  const mean = by(of);
  return { mean, spread: Math.sqrt(by((place) => (of(place) - mean) ** 2)) };
}
const partNamed = (figure: Measured, name: string) => figure.parts.find((part) => part.name === name);
const CHEST = "chest pressure, which is not read";

describe("dry demand of a light engine", () => {
  const demand = demandOf(held(3));
  const thought = overBell((place) => gramsAt(3 * partAt(place)));

  test("is the mean over what the chest may stand at, in doubt by its spread", () => {
    expect(demand.unit).toBe("g/rev");
    expect(demand.value / thought.mean).toBeCloseTo(1, 3);
    expect((partNamed(demand, CHEST)?.u ?? 0) / thought.spread).toBeCloseTo(1, 1);
    expect(partNamed(demand, CHEST)?.source).toBe("chest pressure of exact");
  });

  test("reaches from a twelfth to a good half of the boiler's pressure", () => {
    const [low, high] = interval(demand);
    expect(low / gramsAt(0.08 * 3)).toBeCloseTo(1, 3);
    expect(high / gramsAt(0.56 * 3)).toBeCloseTo(1, 3);
  });

  test("single-acting asks for twice the pressure on half the faces, at the most for all that the boiler has", () => {
    const single = demandOf(held(3), {}, { cylinders: { ...cylinders, doubleActing: false } });
    const volumeM3 = (0.75 * SWEPT_M3) / 2;
    const [low, high] = interval(single);
    expect(low / gramsAt(2 * 0.08 * 3, volumeM3)).toBeCloseTo(1, 3);
    expect(high / gramsAt(3, volumeM3)).toBeCloseTo(1, 3);
    expect(single.value).toBeLessThan(overBell((place) => gramsAt(6 * partAt(place), volumeM3)).mean);
  });

  test("what the dial shows too much is too much of it by the likeliest part", () => {
    const biased = demandOf(held(3), {}, { instruments: { pressureReadingBar: 1e-4, pressureBiasBar: 0.1 } });
    const moved = gramsAt(3.1 * partAt(0)) - gramsAt(3 * partAt(0));
    expect((partNamed(biased, "bias of the pressure dial")?.u ?? 0) / moved).toBeCloseTo(1, 1);
  });
});

describe("a train asks for more", () => {
  // 4 kg x 9.80665 x 0.02 = 0.78453 N over 0.125664 m a turn are 0.098587 J, by 0.85 x 9852.03e-9 m3: 0.117727 bar
  const TRAIN_BAR = 0.117727;
  const over = (trainBar: number) => overBell((place) => gramsAt(3 * partAt(place) + trainBar));
  const pulling = (head: Partial<Steaming>, more: Partial<Locomotive> = {}, entries: Entry[] = []) =>
    demandOf(
      [...held(3), ...entries].sort((a, b) => a.atS - b.atS),
      head,
      more,
    );
  const given = { train: { massKg: 4, resistanceRatio: 0.02 } };

  test("by its pull over the way of a turn, which the mean effective pressure does", () => {
    const demand = pulling(given);
    expect(demand.value / over(TRAIN_BAR).mean).toBeCloseTo(1, 3);
    expect(demand.value / over(0).mean).toBeGreaterThan(1.03);
  });

  test("its ratio's tenth is of the one source that the work on it owes to", () => {
    const doubt = partNamed(pulling(given), "resistance of the train, as given");
    expect(doubt?.source).toBe("resistance of 4 kg at 0.02");
    expect((doubt?.u ?? 0) / (over(1.1 * TRAIN_BAR).mean - over(TRAIN_BAR).mean)).toBeCloseTo(1, 1);
  });

  test("a ratio nobody gave is 1.65 %, in doubt by a quarter", () => {
    const demand = pulling({ train: { massKg: 40 } });
    expect(demand.value / over(10 * (0.0165 / 0.02) * TRAIN_BAR).mean).toBeCloseTo(1, 3);
    const doubt = partNamed(demand, "resistance of the train, as usual");
    expect(doubt?.source).toBe("resistance of 40 kg, not given");
    const perBar = gramsAt(3 * partAt(0) + 1.0) - gramsAt(3 * partAt(0));
    expect((doubt?.u ?? 0) / (0.24 * 8.25 * TRAIN_BAR * perBar)).toBeCloseTo(1, 1);
  });

  test("a pull that was read stands before what the train weighs", () => {
    const pull: Entry = { kind: "pull", newtons: 0.78453, atS: 100 };
    expect(pulling({ train: { massKg: 40 } }, {}, [pull]).value / over(TRAIN_BAR).mean).toBeCloseTo(1, 3);
  });

  test("a train of no mass is none", () => {
    expect(pulling({ train: { massKg: 0 } }).value).toBe(pulling({}).value);
  });

  test("a wheel nobody measured is 2.7 strokes across", () => {
    const unknown = { drivingWheelMm: undefined } as object;
    expect(pulling(given, unknown).value / over((TRAIN_BAR * 2.7 * 16) / 40).mean).toBeCloseTo(1, 3);
  });

  test("the range takes in its doubt, and that of how well the cylinders push", () => {
    const heavy = pulling({ train: { massKg: 40, resistanceRatio: 0.02 } });
    const [low, high] = interval(heavy);
    const [mid, least, most] = [0, -1.96, 1.96].map((place) => gramsAt(3 * partAt(place) + 10 * TRAIN_BAR));
    // a tenth of 1.177 bar each, in quadrature beside the chest's
    const perBar =
      gramsAt(3 * partAt(0) + 10 * TRAIN_BAR + 0.5) - gramsAt(3 * partAt(0) + 10 * TRAIN_BAR - 0.5);
    const beside = 1.96 * Math.SQRT2 * 0.1 * 10 * TRAIN_BAR * perBar;
    expect(low).toBeCloseTo(heavy.value - Math.hypot((least ?? 0) - heavy.value, beside), 4);
    expect(high).toBeCloseTo(heavy.value + Math.hypot((most ?? 0) - heavy.value, beside), 4);
    expect(heavy.value).toBeGreaterThan(mid ?? 0);
  });
});

describe("the chest never has more than the boiler", () => {
  const heavy = { train: { massKg: 400, resistanceRatio: 0.02 } };

  test("behind a train that asks for more it has all, and only the boiler's doubt is left", () => {
    const uneven = { instruments: { pressureReadingBar: 1e-4, pressureBiasBar: 0.1 } };
    const demand = demandOf(held(1.5), heavy, uneven);
    expect(demand.value / gramsAt(1.5)).toBeCloseTo(1, 5);
    expect(partNamed(demand, CHEST)?.u ?? 0).toBeLessThan(1e-9 * demand.value);
    expect(partNamed(demand, "resistance of the train, as given")).toBeUndefined();
    expect(standardUncertainty(demand) / (gramsAt(1.55) - gramsAt(1.45))).toBeCloseTo(1, 1);
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
    expect(demandOf(entries, heavy).value / gramsAt(1.5)).toBeCloseTo(1, 2);
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
    expect(demand.value / gramsAt((0.91 * 3 + 0.1) / 2)).toBeCloseTo(1, 2);
    // a fifth of that fall may be bent either way
    const perBar = gramsAt(1.9) - gramsAt(0.9);
    expect((partNamed(demand, "pressure readings")?.u ?? 0) / (0.2 * 2.63 * perBar)).toBeCloseTo(1, 1);
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
