import { describe, expect, test } from "vitest";
import type { MassReading } from "../../../src/analysis/water/mass-reading.ts";
import { fedUnseen, withUnseen } from "../../../src/analysis/water/unseen-pump.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { interval, measured } from "../../../src/quantity/measured.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { balanceInput, move, reading } from "./balance-by-hand.ts";
import { bar, bypass, regulator, sources, turns } from "./water-log.ts";

const pumped = { ...smallEngine(), axlePump: { ramMm: 5, strokeMm: 8, strokesPerRev: 1 } };
/** One turn takes so much of these cylinders that only counted turns can tell. */
const withCylinders = {
  ...pumped,
  cylinders: { count: 2, boreMm: 12, strokeMm: 20, cutoff: 0.75, clearance: 0 },
};
/** Under way from 100 to 500 s and from 600 to 900 s. */
const ran: Entry[] = [
  bar(3, 0),
  regulator("open", 100),
  regulator("shut", 500),
  regulator("open", 600),
  regulator("shut", 900),
  bar(3, 1000),
];
/** The pump is thought to feed 0.1 g/s: 40 g in the first 400 s under way. */
const pumpPrior = { gPerS: 0.1, uGPerS: 0.03 };
const TURNS_PER_S = 2;
const fed = (
  readings: MassReading[],
  { engine = pumped, entries = ran, moves = [] as ReturnType<typeof move>[] } = {},
) => fedUnseen(sources(entries, engine), balanceInput(readings, { pumpPrior, moves }), TURNS_PER_S);

describe("a pump nobody wrote of, cylinders unknown", () => {
  test("may have fed where the water fell by less than it feeds, from the first reading under way to the last", () => {
    expect(fed([reading(100, 1000), reading(500, 960.1)])).toBe(true);
    expect(fed([reading(100, 1000), reading(500, 959.9)])).toBe(false);
    expect(fed([reading(100, 1000), reading(300, 990), reading(500, 959.9)])).toBe(false);
    expect(fed([reading(600, 1000), reading(900, 970.1)])).toBe(true);
    expect(fed([reading(600, 1000), reading(900, 969.9)])).toBe(false);
  });

  test("with what was fed by other means taken from it", () => {
    const moves = [move(200, 30)];
    // 30 g put in: it fell by 39.9 and by 40.1 g
    expect(fed([reading(100, 1000), reading(500, 990.1)], { moves })).toBe(true);
    expect(fed([reading(100, 1000), reading(500, 989.9)], { moves })).toBe(false);
  });

  test("nor does a stretch within the first and the last reading tell it, nor what was put in before them", () => {
    // 10.1 g in the last 200 s, but 40.1 in all 400
    expect(fed([reading(100, 1000), reading(300, 970), reading(500, 959.9)])).toBe(false);
    const moves = [move(50, 30)];
    expect(fed([reading(100, 1000), reading(500, 960.1)], { moves })).toBe(true);
    expect(fed([reading(100, 1000), reading(500, 959.9)], { moves })).toBe(false);
  });

  test("was written where the axle pump's own feed was, and not by what a hand put in", () => {
    const feed = (by: "axle-pump" | "bottle"): Entry => ({ kind: "feed", by, ml: 5, atS: 1000 });
    const hardlyFell = [reading(100, 1000), reading(500, 960.1)];
    expect(fed(hardlyFell, { entries: [...ran, feed("bottle")] })).toBe(true);
    expect(fed(hardlyFell, { entries: [...ran, feed("axle-pump")] })).toBe(false);
  });

  test("is not told by readings as she stood, by weighings, or by water poured", () => {
    const under = [reading(100, 1000), reading(500, 959.9)] as const;
    for (const other of [
      reading(99, 900),
      reading(501, 1000),
      reading(300, 5000, { of: "whole engine" }),
      reading(500, 1000, { poured: true }),
    ])
      expect(fed([...under, other].sort((a, b) => a.atS - b.atS))).toBe(false);
    expect(fed([reading(99, 1000), reading(501, 1000)])).toBe(false);
  });

  test("is not told by readings of one second, nor by one alone", () => {
    expect(fed([reading(300, 1000), reading(300, 1001)])).toBe(false);
    expect(fed([reading(300, 1000)])).toBe(false);
  });
});

describe("a pump nobody wrote of, cylinders known", () => {
  const engine = withCylinders;
  // u of 3 and 4 g: 5 g for the rise, of which four are wanted
  const rose = (grams: number) => [
    reading(100, 1000, { uGrams: 3 }),
    reading(500, 1000 + grams, { uGrams: 4 }),
    // and in the second run fell by enough for both
    reading(900, 800, { uGrams: 3 }),
  ];

  test("must have fed where the water rose by four times the readings' error", () => {
    expect(fed(rose(20.1), { engine })).toBe(true);
    expect(fed(rose(19.9), { engine })).toBe(false);
    // of 600 g put in, 30 g are in doubt
    const moves = [move(200, 600)];
    expect(fed(rose(600 + 4 * Math.hypot(5, 30) + 0.1), { engine, moves })).toBe(true);
    expect(fed(rose(600 + 4 * Math.hypot(5, 30) - 0.1), { engine, moves })).toBe(false);
  });

  test("or fell by less than the cylinders take at the least, by the turns counted between", () => {
    const entries = [...ran, turns(400, 500)].sort((a, b) => a.atS - b.atS);
    // 2 x pi/4 x 12^2 x 2 x 20 mm3 x 0.75 at 0.08 of 3 bar g, 1.25 bar: 0.73 kg/m3
    const leastG = 400 * 2 * (Math.PI / 4) * 144 * 40 * 1e-9 * 0.75 * 730;
    const limit = 20 - leastG;
    expect(fed(rose(limit + 0.03 * leastG), { engine, entries })).toBe(true);
    expect(fed(rose(limit - 0.03 * leastG), { engine, entries })).toBe(false);
    // of 400 turns in 400 s the last 50 take an eighth of it
    const between = [reading(450, 1000, { uGrams: 3 }), reading(500, 1020 - 0.3 * leastG, { uGrams: 4 })];
    expect(fed([reading(100, 1200), ...between, reading(900, 200)], { engine, entries })).toBe(false);
  });

  test("never where its by-pass was written, nor of an engine that has none", () => {
    const written = [...ran, bypass("shut", 1000)];
    expect(fed(rose(50), { engine, entries: written })).toBe(false);
    expect(fedUnseen(sources(ran), balanceInput(rose(50), { pumpPrior }), TURNS_PER_S)).toBe(false);
  });

  // 2 x pi/4 x 12^2 x 2 x 20 mm3 x 0.75 at a quarter of 3 bar g, 1.73 bar: 0.99 kg/m3, 6.7 mg a turn; 700 s at two turns a second;
  // and 0.15 of what she draws condenses at the least
  test("may have fed where over all that she ran it fell by less than the cylinders usually take, what condenses besides", () => {
    const usualG = (1400 * 2 * (Math.PI / 4) * 144 * 40 * 1e-9 * 0.75 * 986) / 0.85;
    const fell = (grams: number, fromS = 50, toS = 950) => [reading(fromS, 1000), reading(toS, 1000 - grams)];
    expect(fed(fell(0.97 * usualG), { engine })).toBe(true);
    expect(fed(fell(1.03 * usualG), { engine })).toBe(false);
    // told by filling and draining too, and by the first and the last reading where none stands outside
    const poured = [
      reading(0, 1000, { poured: true }),
      reading(2000, 1000 - 0.97 * usualG, { poured: true }),
    ];
    expect(fed(poured, { engine })).toBe(true);
    expect(fed(fell((0.97 * usualG * 4) / 7, 100, 500), { engine })).toBe(true);
    expect(fed(fell((1.03 * usualG * 4) / 7, 100, 500), { engine })).toBe(false);
    // with what was put in by other means, though it was written down a minute late
    const moves = [move(1000, 50)];
    expect(fed(fell(0.97 * usualG - 50), { engine, moves })).toBe(true);
    expect(fed(fell(1.03 * usualG - 50), { engine, moves })).toBe(false);
    // of readings after she ran the first, whatever she lost as she cooled
    expect(fed([...fell(0.97 * usualG), reading(5000, 500)], { engine })).toBe(true);
    // nor by what the whole engine weighed
    const weighed = reading(60, 9000, { of: "whole engine" });
    expect(
      fed(
        [...fell(1.03 * usualG), weighed].sort((a, b) => a.atS - b.atS),
        { engine },
      ),
    ).toBe(false);
    expect(fed([weighed, ...fell(0.97 * usualG, 70)], { engine })).toBe(true);
    // of readings before she ran, the last; of none at all, nothing
    expect(fed([reading(0, 1100), ...fell(0.97 * usualG)], { engine })).toBe(true);
    expect(fed([reading(0, 1000), reading(50, 1000)], { engine })).toBe(false);
    expect(fed([], { engine })).toBe(false);
  });
});

describe("a figure with what such a pump may have fed", () => {
  const figure = measured(100, 2, "g", "reading");
  const unseen = { mostGPerS: 0.5, underWay: [[0, 60] as const] };
  const [low, high] = interval(figure);

  test("lies in the middle between none and all of it, whichever sign that has", () => {
    const more = withUnseen(figure, unseen, [[90, 1]]);
    expect(more.value).toBe(115);
    expect(more.range95).toEqual([low, high + 30]);
    expect(more.parts.at(-1)?.u).toBeCloseTo(30 / Math.sqrt(12), 12);
    const less = withUnseen(figure, unseen, [[90, -1]]);
    expect(less.value).toBe(85);
    expect(less.range95).toEqual([low - 30, high]);
    expect(less.parts.at(-1)?.u).toBeCloseTo(30 / Math.sqrt(12), 12);
  });

  test("stays as it is where she was not under way between", () => {
    expect(
      withUnseen(figure, unseen, [
        [200, 1],
        [100, -1],
      ]),
    ).toBe(figure);
  });
});
