import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { glassWords } from "../../src/logbook/glass-reading.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { type Figure, isMeasured, type Measured } from "../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";

/** A boiler of 5 ml a millimetre, its glass read almost without error, held at one pressure: grams go as millimetres. */
const engine: Locomotive = {
  ...smallEngine(),
  boiler: {
    shape: {
      kind: "table",
      totalMl: 400,
      points: [
        { levelMm: 0, waterMl: 0 },
        { levelMm: 60, waterMl: 300 },
      ],
    },
    lowestLevelMm: 5,
    highestLevelMm: 55,
    metalMassG: 500,
    metal: "copper",
  },
  instruments: { levelReadingMm: 0.01, pressureReadingBar: 0.01, pressureBiasBar: 0.01 },
};
const phase = (name: "raising" | "standing" | "running", atS: number): Entry => ({
  kind: "phase",
  name,
  atS,
});
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
