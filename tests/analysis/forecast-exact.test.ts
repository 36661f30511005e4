import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { glassWords } from "../../src/logbook/glass-reading.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { type Figure, isMeasured, type Measured } from "../../src/quantity/measured.ts";
import { evenBoiler, smallEngine, smallSteaming } from "../support/small-logbook.ts";
import { phase } from "./water-log.ts";

/** A boiler of 5 ml a millimetre, its glass read almost without error, held at one pressure: grams go as millimetres. */
const engine: Locomotive = {
  ...smallEngine(),
  boiler: evenBoiler,
  instruments: { levelReadingMm: 0.01, pressureReadingBar: 0.01, pressureBiasBar: 0.01 },
};
const lap = (count: number, atS: number): Entry => ({ kind: "lap", count, atS });
const bar = (atS: number): Entry => ({ kind: "pressure", barG: 2, atS });
/** read each half minute */
const glass = (untilS: number, mm: (atS: number) => number): Entry[] =>
  Array.from({ length: untilS / 30 + 1 }, (_, i): Entry => ({ kind: "level", mm: mm(30 * i), atS: 30 * i }));

function forecastOf(entries: readonly Entry[], more: object = {}) {
  return analyse(engine, {
    ...smallSteaming(),
    entries: [...entries].sort((a, b) => a.atS - b.atS),
    ...more,
  }).forecast;
}
function given(figure: Figure | undefined): Measured {
  if (figure === undefined || !isMeasured(figure)) throw new Error(JSON.stringify(figure));
  return figure;
}

describe("what is left, by hand", () => {
  // 1 mm a minute for 10 min, then 2 mm a minute for 10 min; 45 - 30 = 15 mm, 10 mm above the lowest
  const quicker = glass(1200, (atS) => 45 - atS / 60 - Math.max(0, atS - 600) / 60);
  const run = [phase("running", 0), bar(0), bar(1200), ...quicker];

  test("goes by what was drawn in the last ten minutes", () => {
    const { minutesToLowest } = forecastOf(run) ?? {};
    expect(given(minutesToLowest).value).toBeGreaterThan(4.9);
    expect(given(minutesToLowest).value).toBeLessThan(5.2);
  });

  test("or since this way of going on began, if that is less", () => {
    // standing for 15 min she draws 1 mm a minute, running for five 3 mm: 45 - 15 - 15 = 15 mm
    const level = glass(1200, (atS) => 45 - atS / 60 - Math.max(0, atS - 900) / 30);
    const { minutesToLowest } =
      forecastOf([phase("standing", 0), phase("running", 900), bar(0), bar(1200), ...level]) ?? {};
    expect(given(minutesToLowest).value).toBeGreaterThan(10 / 3 - 0.15);
    expect(given(minutesToLowest).value).toBeLessThan(10 / 3 + 0.15);
  });

  // 1 mm a minute, 25 mm left at 20 min, 20 of them above the lowest
  const steady = [phase("running", 0), bar(0), bar(1200), ...glass(1200, (atS) => 45 - atS / 60)];

  test("a sixth of the time is in doubt for how she will go on; the range has more above than below", () => {
    const minutes = given(forecastOf(steady)?.minutesToLowest);
    expect(minutes.value).toBeCloseTo(20, 0);
    const going = minutes.parts.find(({ name }) => name === "how the engine will go on");
    expect((going?.u ?? 0) / minutes.value).toBeCloseTo(0.17, 9);
    const [low, high] = minutes.range95 ?? [0, 0];
    expect(low).toBeGreaterThan(0);
    expect(high - minutes.value).toBeGreaterThan(minutes.value - low);
  });

  /**
   * Standing, the glass read at 45 mm and ten minutes later at 35 mm, each wrong by 0.1 mm on its own: 30 mm are left
   * for 30 minutes. An error of the last reading moves the water by itself and the time by four of them, one of the
   * first by three the other way: sqrt(4 x 4 + 3 x 3) x 0.1 = 0.5 minutes.
   */
  test("errors of the last readings count in water and in rate at once", () => {
    const two: Entry[] = [
      phase("standing", 0),
      bar(0),
      bar(600),
      { kind: "level", mm: 45, atS: 0 },
      { kind: "level", mm: 35, atS: 600 },
    ];
    const read = { ...engine, instruments: { ...engine.instruments, levelReadingMm: 0.1 } };
    const { forecast } = analyse(read, { ...smallSteaming(), entries: two });
    const minutes = given(forecast?.minutesToLowest);
    expect(minutes.value).toBeCloseTo(30, 0);
    const readings = minutes.parts.find(({ name }) => name === "readings")?.u ?? Number.NaN;
    expect(readings).toBeGreaterThan(0.48);
    expect(readings).toBeLessThan(0.55);
  });

  test("water and rate as they go: their errors together are those of the time", () => {
    const { minutesToLowest, draining } = forecastOf(steady) ?? {};
    const minutes = given(minutesToLowest);
    if (draining == null) throw new Error("nothing drains");
    const { left, rate, leftVariance, rateVariance, covariance } = draining;
    expect(left / rate).toBeCloseTo(minutes.value, 9);
    const u = Math.hypot(...minutes.parts.map((part) => part.u));
    const together = leftVariance + minutes.value ** 2 * rateVariance - 2 * minutes.value * covariance;
    expect(Math.sqrt(together) / (u * rate)).toBeCloseTo(1, 6);
    expect(Math.sqrt(rateVariance)).toBeGreaterThan(0.17 * rate);
    expect(Math.sqrt(rateVariance)).toBeLessThan(0.2 * rate);
  });

  // setting off she draws 6 mm in the first minute and 1 mm a minute from then on: 45 - 6 - 4 = 35 mm after five
  test("what cold cylinders took in the first minute of a run is no thirst", () => {
    const level = glass(
      900,
      (atS) => 45 - Math.min(6, Math.max(0, atS - 600) / 10) - Math.max(0, atS - 660) / 60,
    );
    const off = forecastOf([phase("standing", 0), phase("running", 600), bar(0), bar(900), ...level]);
    expect(given(off?.minutesToLowest).value).toBeGreaterThan(25);
    expect(given(off?.minutesToLowest).value).toBeLessThan(36);
  });

  const lapsEach = (fromS: number, count: number, everyS: number): Entry[] =>
    Array.from({ length: count }, (_, i) => lap(1, fromS + everyS * i));

  // 1 mm a lap of a minute for ten, five minutes at rest, five laps more: 45 - 15 = 30 mm, 25 above the lowest
  test("a rest in the time looked back on slows laps and water alike", () => {
    const level = glass(1200, (atS) => 45 - Math.min(10, atS / 60) - Math.max(0, atS - 900) / 60);
    const ran = [...lapsEach(60, 10, 60), ...lapsEach(960, 5, 60)];
    const { lapsToLowest } = forecastOf([phase("running", 0), bar(0), bar(1200), ...level, ...ran]) ?? {};
    // what the glass shows of the rest is smoothed; by the pace of the whole run it would be 37
    expect(given(lapsToLowest).value).toBeGreaterThan(23.5);
    expect(given(lapsToLowest).value).toBeLessThan(26);
  });

  test("of few laps it is less sure how many go to a minute than of many", () => {
    const doubt = (everyS: number) => {
      const laps = given(forecastOf([...steady, ...lapsEach(everyS, 1200 / everyS, everyS)])?.lapsToLowest);
      return (laps.parts.find(({ name }) => name === "how the engine will go on")?.u ?? 0) / laps.value;
    };
    expect(doubt(15)).toBeGreaterThan(0.15);
    expect(doubt(15)).toBeLessThan(0.155);
    // two laps in the ten minutes, 0.2 of one in doubt: a tenth of them
    expect(doubt(300)).toBeGreaterThan(Math.hypot(0.15, 0.1));
    expect(doubt(300)).toBeLessThan(0.22);
  });

  test("water above the lowest is what the boiler holds less what it would hold there, with its steam", () => {
    // 20 mm x 5 ml at 2 bar gauge: water of 133.7 °C weighs 0.9314 g/ml, steam 1.657 kg/m3 (IAPWS-IF97): 100 x 0.9297
    expect(given(forecastOf(steady)?.waterAboveLowest).value).toBeCloseTo(92.97, 0);
  });

  test("a minute of going on like this is enough to tell a rate, less is not", () => {
    const since = (atS: number) =>
      forecastOf([
        phase("standing", 0),
        phase("running", atS),
        bar(0),
        bar(1200),
        ...glass(1200, (s) => 45 - s / 60),
      ]);
    expect(given(since(1140)?.minutesToLowest).value).toBeGreaterThan(0);
    expect(since(1141)?.minutesToLowest).toMatchObject({
      why: expect.stringContaining("less than a minute"),
    });
  });

  test("while steam is raised nothing is used yet", () => {
    const raising = forecastOf([phase("raising", 0), bar(0), bar(1200), ...glass(1200, (s) => 45 - s / 60)]);
    expect(raising?.minutesToLowest).toMatchObject({ why: "steam is not being used yet" });
    expect(raising?.lapsToLowest).toEqual(raising?.minutesToLowest);
    expect(given(raising?.waterAboveLowest).value).toBeGreaterThan(0);
  });

  test("laps come at the pace of this run, of two laps at least", () => {
    // standing to 600 s with a lap written late at 590; then 5 laps by 1100 s: one in 100 s
    const twoRuns = [
      phase("standing", 0),
      phase("running", 600),
      bar(0),
      bar(1200),
      ...glass(1200, (s) => 45 - s / 60),
    ];
    const laps = (...entries: Entry[]) => forecastOf([...twoRuns, ...entries]);
    const told = laps(lap(7, 590), lap(2, 800), lap(3, 1100));
    expect(given(told?.lapsToLowest).value).toBeCloseTo((given(told?.minutesToLowest).value * 60) / 100, 9);
    expect(given(laps(lap(2, 800))?.lapsToLowest).value).toBeGreaterThan(0);
    const few = { value: null, why: expect.stringContaining("fewer than two laps") };
    expect(laps(lap(7, 590), lap(1, 800))?.lapsToLowest).toEqual(few);
    expect(laps()?.lapsToLowest).toEqual(few);
  });

  test("water out of sight at the last look gives no figure, and out of sight before that does not matter", () => {
    const lost = (atS: number): Entry => ({ kind: "level", mm: 0, atS, note: glassWords.below });
    const none = { value: null, why: expect.stringContaining("out of sight") };
    expect(forecastOf([...steady, lost(1210)])).toMatchObject({
      atS: 1210,
      waterAboveLowest: none,
      minutesToLowest: none,
      lapsToLowest: none,
    });
    expect(given(forecastOf([...steady, lost(605)])?.minutesToLowest).value).toBeGreaterThan(0);
  });

  test("weighings alone do not say what is in the boiler: there is no forecast", () => {
    const weighed = Array.from(
      { length: 5 },
      (_, i): Entry => ({ kind: "weight", g: 2000 - 20 * i, atS: 300 * i }),
    );
    expect(forecastOf([phase("running", 0), bar(0), bar(1200), ...weighed])).toBeNull();
  });
});
