import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { glassWords } from "../../../src/logbook/glass-reading.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { type Figure, isMeasured, type Measured } from "../../../src/quantity/measured.ts";
import { evenBoiler, smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { phase } from "../water/water-log.ts";

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
   * first by three the other way: sqrt(4 x 4 + 3 x 3) x 0.1 = 0.5 minutes. So it is too where she was raised first.
   */
  test.each([0, 300])(
    "errors of the last readings count in water and in rate at once, from %d s",
    (fromS) => {
      const two: Entry[] = [
        phase("raising", 0),
        bar(0),
        phase("standing", fromS),
        { kind: "level", mm: 45, atS: fromS },
        bar(fromS + 600),
        { kind: "level", mm: 35, atS: fromS + 600 },
      ];
      const read = { ...engine, instruments: { ...engine.instruments, levelReadingMm: 0.1 } };
      const { forecast } = analyse(read, { ...smallSteaming(), entries: two });
      const minutes = given(forecast?.minutesToLowest);
      expect(minutes.value).toBeCloseTo(30, 0);
      const readings = minutes.parts.find(({ name }) => name === "readings")?.u ?? Number.NaN;
      expect(readings).toBeGreaterThan(0.48);
      expect(readings).toBeLessThan(0.55);
    },
  );

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

  /** The glass at the four moments that matter; of the first reading of a run on, 6 mm go in a minute and then 1 mm a minute. */
  const setOff = (moments: number[], offS: number, before = (_: number) => 0): Entry[] =>
    moments.map((atS) => ({
      kind: "level",
      atS,
      mm: 45 - before(atS) - Math.min(6, Math.max(0, atS - offS) / 10) - Math.max(0, atS - offS - 60) / 60,
    }));
  const partsOf = (entries: Entry[], of: object = {}) =>
    given(
      analyse(
        { ...engine, ...of },
        { ...smallSteaming(), entries: [...entries].sort((a, b) => a.atS - b.atS) },
      ).forecast?.minutesToLowest,
    ).parts.map(({ name }) => name);

  // a first run of 5 mm, a rest, and setting off again: 45 - 5 - 6 - 4 = 30 mm, 25 above the lowest, at 1 mm a minute
  test("nor what they took at the beginning of a second run, by few readings", () => {
    const run = [phase("running", 0), phase("standing", 300), phase("running", 600), bar(0), bar(900)];
    const few = setOff([0, 600, 750, 900], 600, (atS) => Math.min(300, atS) / 60);
    const minutes = given(forecastOf([...run, ...few])?.minutesToLowest);
    // told apart by two readings in the run only: 25 within what it says of itself, and not the 15 of all alike
    expect(minutes.value).toBeGreaterThan(18);
    expect(minutes.parts.map(({ name }) => name)).not.toContain("cold cylinders");
  });

  test("in a run older than twenty minutes, or with a pump at work that nobody measured, they are an error as in all figures", () => {
    const run = (lastS: number) => [phase("standing", 0), phase("running", 600), bar(0), bar(lastS)];
    const few = (lastS: number) => [...run(lastS), ...setOff([0, 600, 900, lastS], 600)];
    expect(partsOf(few(1800))).not.toContain("cold cylinders");
    expect(partsOf(few(1801))).toContain("cold cylinders");
    const axlePump = { ramMm: 3, strokeMm: 5, strokesPerRev: 1 };
    const pumped = (state: "open" | "shut") =>
      partsOf([...few(1500), ...setOff([700, 800, 1100], 600), { kind: "bypass", state, atS: 1200 }], {
        axlePump,
      });
    expect(pumped("open")).not.toContain("cold cylinders");
    expect(pumped("shut")).toContain("cold cylinders");
  });

  // standing she blows off 6 mm in a minute and then 1 mm a minute: 10 mm in five, and 30 mm left above the lowest
  test("of standing all of its time counts, for no cylinders are warmed", () => {
    const log = [
      phase("raising", 0),
      phase("standing", 600),
      bar(0),
      bar(900),
      ...setOff([0, 600, 660, 900], 600),
    ];
    expect(given(forecastOf(log)?.minutesToLowest).value).toBeCloseTo(30 / 2, 0);
  });

  test("at rest after a run, cold cylinders are an error as in all figures", () => {
    const run = [phase("standing", 0), phase("running", 300), phase("standing", 600), bar(0), bar(1200)];
    expect(partsOf([...run, ...setOff([0, 300, 600, 1200], 300)])).toContain("cold cylinders");
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
    // a lap in the very second in which she set off is of the run before
    expect(laps(lap(1, 600), lap(1, 800))?.lapsToLowest).toEqual(few);
  });

  test("of the whole run where fewer than two laps fall into the last ten minutes", () => {
    const told = forecastOf([...steady, ...lapsEach(60, 5, 60), lap(1, 900)]);
    // six laps in 15 minutes; by the one since 300 s it would be one in ten
    expect((given(told?.lapsToLowest).value / given(told?.minutesToLowest).value) * 15).toBeCloseTo(6, 0);
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

  const fuel: Entry[] = [
    { kind: "fuel", action: "added", g: 30, atS: 0 },
    { kind: "fire", state: "lit", atS: 0 },
    { kind: "fuel", action: "remaining", g: 5, atS: 1200 },
  ];
  const weighed = (times: number[]) =>
    times.map((atS): Entry => ({ kind: "weight", g: 2000 - atS / 15, atS }));

  test("weighings alone do not say what is in the boiler: there is no forecast", () => {
    const log = [phase("running", 0), bar(0), bar(1200), ...weighed([0, 300, 600, 900, 1200])];
    expect(forecastOf(log)).toBeNull();
    // what the fire burnt is known, so that they tell what she drew
    expect(forecastOf([...log, ...fuel])).toBeNull();
  });

  describe("one reading of the glass, just taken", () => {
    /** 25 mm x 5 ml at 2 bar: as above 0.9314 g/ml of water, 1.657 kg/m3 of steam over it (IAPWS-IF97) */
    const HELD_G = 125 * 0.9314 + 275 * 1.657e-3;
    const lone = (atS: number, more: Entry[] = []) =>
      forecastOf([phase("running", 0), bar(0), { kind: "level", mm: 25, atS }, bar(1200), ...more]);
    const once = (...reading: Parameters<typeof lone>) => lone(...reading)?.waterAboveLowest;

    test("tells what stands above the lowest, less sure by a fiftieth for each minute since", () => {
      const told = given(once(1170));
      expect(told.value).toBeCloseTo(92.97, 0);
      const used = told.parts.find(({ name }) => name === "used since the reading")?.u ?? Number.NaN;
      expect(used / (0.01 * HELD_G)).toBeCloseTo(1, 2);
      // 0.01 mm x 5 ml, of water less the steam that stands in its place; and a little of the dial's reading
      const readings = told.parts.find(({ name }) => name === "readings")?.u ?? Number.NaN;
      expect(readings / (0.01 * 5 * (0.9314 - 1.657e-3))).toBeGreaterThan(1);
      expect(readings / (0.01 * 5 * (0.9314 - 1.657e-3))).toBeLessThan(1.1);
      const boiler = told.parts.find(({ name }) => name === "volume of the boiler")?.u ?? Number.NaN;
      expect(Math.abs(boiler)).toBeCloseTo(0.01 * told.value, 2);
      expect(given(once(1140)).value).toBeCloseTo(92.97, 0);
      expect(once(1139)).toMatchObject({ value: null });
    });

    test("counts so beside a weighing, which says nothing of what the boiler holds", () => {
      expect(given(once(1190, [...fuel, ...weighed([1195])])).value).toBeCloseTo(92.97, 0);
    });

    test("and of the time left it is said what is missing", () => {
      expect(lone(1170)?.minutesToLowest).toMatchObject({ why: expect.stringContaining("read once only") });
      expect(lone(1190, [...fuel, ...weighed([1195])])?.lapsToLowest).toMatchObject({
        why: expect.stringContaining("read twice only"),
      });
      const unread = [phase("running", 0), { kind: "level", mm: 25, atS: 1190 } as const];
      expect(forecastOf(unread)?.waterAboveLowest).toMatchObject({
        why: expect.stringContaining("read once only"),
      });
      expect(forecastOf([...unread, { kind: "level", mm: 24, atS: 1195 }])?.waterAboveLowest).toEqual({
        value: null,
        why: "no pressure was read",
      });
    });

    test("not what was poured in, nor one of two of which the rest is not known", () => {
      const filled = [phase("running", 0), bar(0), { kind: "fill", ml: 125, atS: 1190 } as const, bar(1200)];
      expect(forecastOf(filled)?.waterAboveLowest).toMatchObject({ value: null });
      // a by-pass shut in steam, and nothing says whether she ran
      const pumped = analyse(
        { ...engine, axlePump: { ramMm: 5, strokeMm: 8, strokesPerRev: 1 } },
        {
          ...smallSteaming(),
          entries: [
            fuel[1] as Entry,
            { kind: "pressure", barG: 0, atS: 0 },
            phase("raising", 0),
            { kind: "level", mm: 25, atS: 1170 },
            { kind: "bypass", state: "shut", atS: 700 },
            { kind: "level", mm: 25, atS: 1190 },
            bar(1200),
          ].sort((a, b) => a.atS - b.atS) as Entry[],
        },
      );
      expect(pumped.forecast?.waterAboveLowest).toMatchObject({ value: null });
    });
  });
});
