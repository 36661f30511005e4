import { expect, test } from "vitest";
import { randomOf } from "../../../sample-data/simulator/random.ts";
import { analyse } from "../../../src/analysis/analyse.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { levelErrorMm, readingErrors } from "../../../src/analysis/state/instruments.ts";
import { massReadings } from "../../../src/analysis/water/mass-readings.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { glassEndsMm, glassWords, withoutGlassWords } from "../../../src/logbook/glass-reading.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine = smallEngine();
const log = (...entries: Entry[]) => ({ ...smallSteaming(), entries });
const level = (atS: number, mm: number, note?: string): Entry => ({
  kind: "level",
  atS,
  mm,
  ...(note === undefined ? {} : { note }),
});
const readingsOf = (...entries: Entry[]) => massReadings(sourcesOf(engine, log(...entries)));

test("a level in quarters counts with the error of a quarter, whatever else its note says", () => {
  const cold: Entry = { kind: "temperature", atS: 0, of: "boiler", celsius: 15 };
  const [exact, coarse] = readingsOf(cold, level(0, 14), level(1, 14, `windy; ${glassWords.quarters}`));
  expect(coarse?.grams).toBeCloseTo(exact?.grams ?? 0, 6);
  // 50 mm across and 120 mm long, 15 + 14 mm up: 2 sqrt(25^2 - 4^2) x 120 = 5923 mm2, so 5.92 g a millimetre. The glass
  // is 28 mm: hypot(0.0722, 0.05) of it is 2.46 mm
  const more = Math.sqrt((coarse?.uGrams ?? 0) ** 2 - (exact?.uGrams ?? 0) ** 2);
  expect(more).toBeGreaterThan(5.92 * 2.46 * 0.99);
  expect(more).toBeLessThan(5.92 * 2.46 * 1.01);
});

test("the error of a quarter holds levels that an eye put to the nearest quarter, 95 times in 100", () => {
  const random = randomOf(11, "quarters");
  const [bottomMm, topMm] = glassEndsMm(engine.boiler);
  const span = topMm - bottomMm;
  const errors = readingErrors(engine);
  const u = levelErrorMm({ note: glassWords.quarters }, engine, errors);
  let [held, squares] = [0, 0];
  const TRIALS = 4000;
  for (let i = 0; i < TRIALS; i++) {
    const part = random.between(0.125, 0.875);
    const judged = part + 0.05 * random.normal() + (errors.levelReadingMm / span) * random.normal();
    const off = (Math.round(4 * judged) / 4 - part) * span;
    squares += off * off;
    if (Math.abs(off) <= 1.96 * u) held++;
  }
  expect(held / TRIALS).toBeGreaterThan(0.93);
  expect(held / TRIALS).toBeLessThan(0.99);
  expect(Math.sqrt(squares / TRIALS) / u).toBeGreaterThan(0.9);
  expect(Math.sqrt(squares / TRIALS) / u).toBeLessThan(1.1);
});

test("water out of sight tells no mass, and no time is forecast until it is seen again", () => {
  expect(
    readingsOf(level(0, 20), level(300, 0, glassWords.below), level(400, 28, glassWords.above)),
  ).toHaveLength(1);
  const { entries } = smallSteaming();
  const until = (...more: Entry[]) => analyse(engine, log(...entries, ...more)).forecast;
  const why = "the water was out of sight in the glass when it was last looked at";
  for (const words of [glassWords.below, glassWords.above]) {
    const forecast = until(level(560, 0, words));
    expect(forecast?.waterAboveLowest).toEqual({ value: null, why });
    expect(forecast?.minutesToLowest).toEqual({ value: null, why });
  }
  expect(until(level(560, 0, glassWords.below), level(600, 9))?.waterAboveLowest.value).not.toBeNull();
});

test("a level out of sight is not named as beyond the boiler, nor two equal quarters as a clock put forward", () => {
  const codes = (...entries: Entry[]) => analyse(engine, log(...entries)).warnings.map(({ code }) => code);
  expect(codes(level(0, 60))).toContain("level-beyond-boiler");
  expect(codes(level(0, 60, glassWords.above))).not.toContain("level-beyond-boiler");
  const stepped = (note?: string): Entry[] => [
    { kind: "fire", atS: 0, state: "lit" },
    ...[10, 20, 30, 40].map((atS): Entry => ({ kind: "pressure", atS, barG: 3 })),
    level(50, 14, note),
    { kind: "pressure", atS: 1850, barG: 3 },
    level(1860, 14, note),
  ];
  expect(codes(...stepped())).toContain("clock-stepped");
  expect(codes(...stepped(glassWords.quarters))).not.toContain("clock-stepped");
});

test("the words are taken out of a note that says more, and an empty note goes", () => {
  expect(withoutGlassWords(glassWords.quarters)).toBeUndefined();
  expect(withoutGlassWords(`windy ${glassWords.quarters}`)).toBe("windy");
  expect(withoutGlassWords("windy")).toBe("windy");
  expect(withoutGlassWords(undefined)).toBeUndefined();
});
