import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { coldHoldOf } from "../../../src/analysis/cold-hold/cold-hold.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { interval, isMeasured, type Measured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Of the pressure at which she is held as working pressure, where her leak stands as it leaks there. */
const engine = (handPump = true) => ({
  ...smallEngine(),
  workingPressureBarG: 5.7,
  ...(handPump ? { handPump: { mlPerStroke: 0.5, uMlPerStroke: 0.005 } } : {}),
  instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.02 },
});
const holdOf = (entries: Entry[], locomotive = engine()) =>
  coldHoldOf(sourcesOf(locomotive, { ...smallSteaming(), purpose: "cold-hold", entries }));
const figure = (of: unknown): Measured => {
  const found = of as Measured;
  if (!isMeasured(found)) throw new Error(JSON.stringify(of));
  return found;
};

/** 1 ml fills the last of the space; then 0.5 ml a stroke, 0.25 ml/bar: 2 bar a stroke. */
const strokes: Entry[] = [
  { kind: "strokes", count: 2, barG: 0, atS: 0 },
  { kind: "strokes", count: 1, barG: 2, atS: 10 },
  { kind: "strokes", count: 1, barG: 4, atS: 20 },
  { kind: "strokes", count: 1, barG: 6, atS: 30 },
];
/** 6 to 5.4 bar in 10 min: 0.25 ml/bar x 0.6 bar / 10 min = 0.015 ml/min at a steady temperature */
const fall: Entry[] = [
  { kind: "pressure", barG: 5.7, atS: 330 },
  { kind: "pressure", barG: 5.4, atS: 630 },
];
const temperatures = (start: number, end: number): Entry[] => [
  { kind: "temperature", of: "boiler", celsius: start, atS: 30 },
  { kind: "temperature", of: "boiler", celsius: end, atS: 630 },
];

describe("a cold hold", () => {
  test("compliance by hand, the strokes before there was pressure left out", () => {
    expect(figure(holdOf([...strokes, ...fall])?.compliance).value).toBeCloseTo(0.25, 2);
  });

  test("leak by hand at a steady temperature, which then explains nothing", () => {
    const hold = holdOf([...strokes, ...fall, ...temperatures(15, 15)]);
    expect(figure(hold?.leak).value).toBeCloseTo(0.015, 3);
    expect(hold?.temperatureCouldExplain).toBe(false);
    expect(hold?.held).toMatchObject({ fromS: 30, toS: 630, meanBar: expect.closeTo(5.7, 2) });
  });

  // 235.6 ml, copper, 15 °C: water 1.51e-4 less copper 0.495e-4 /K; 6.3 K colder draws in 0.15 ml: the whole fall
  test("a fall that cooling water makes by itself is no leak", () => {
    const hold = holdOf([...strokes, ...fall, ...temperatures(18, 11.7)]);
    expect(Math.abs(figure(hold?.leak).value)).toBeLessThan(0.002);
    expect(hold?.temperatureCouldExplain).toBe(true);
  });

  test("warming water hides a leak, and is no excuse for one", () => {
    const hold = holdOf([...strokes, ...fall, ...temperatures(15, 16)]);
    expect(figure(hold?.leak).value).toBeGreaterThan(0.0165);
    expect(hold?.temperatureCouldExplain).toBe(false);
  });

  // 0.03 bar read to 0.028 is 0.0075 ml; two readings of 0.1 K in a boiler of 0.024 ml/K leave 0.0067 ml at most
  test("a fall that may be none is not laid on a temperature that was watched too closely for it", () => {
    const slight: Entry[] = [{ kind: "pressure", barG: 5.97, atS: 630 }];
    const hold = holdOf([...strokes, ...slight, ...temperatures(15, 15)]);
    expect(figure(hold?.leak).value).toBeCloseTo(0.00075, 4);
    expect(hold?.temperatureCouldExplain).toBe(false);
    expect(holdOf([...strokes, ...slight])?.temperatureCouldExplain).toBe(true);
  });

  // as the root of the gauge pressure: twice as much at four times 1.425 bar
  test("leak is told at working pressure, its hole the same whatever that is", () => {
    const of = (workingPressureBarG: number) =>
      holdOf([...strokes, ...fall, ...temperatures(15, 15)], { ...engine(), workingPressureBarG });
    const [quarter, held] = [of(1.425), of(5.7)];
    expect(figure(held?.leak).value / figure(quarter?.leak).value).toBeCloseTo(2, 9);
    expect(figure(held?.leak).value).toBeCloseTo(0.015, 3);
    expect(figure(quarter?.equivalentHole).value).toBeCloseTo(figure(held?.equivalentHole).value, 12);
    // a dial that stands 0.02 bar too high at 5.7 leaves it too low by half as much of it
    const bias = (workingPressureBarG: number) =>
      figure(of(workingPressureBarG)?.leak).parts.find(({ source }) => source === "dial of small")?.u ?? 0;
    const byCompliance =
      figure(held?.compliance).parts.find(({ source }) => source === "dial of small")?.u ?? 0;
    const { value } = figure(held?.leak);
    expect(bias(5.7) - (byCompliance * value) / figure(held?.compliance).value).toBeCloseTo(
      (-0.02 / 5.7 / 2) * value,
      6,
    );
  });

  // 0.015 ml/min of water of 0.9991 g/ml at 5.7 bar: v = sqrt(2 x 5.7e5 / 999.1) = 33.78 m/s; 7.40e-12 m2; 0.00307 mm
  test("the round hole that would let out as much at the pressure of the hold", () => {
    const hold = holdOf([...strokes, ...fall, ...temperatures(15, 15)]);
    expect(figure(hold?.equivalentHole).value).toBeCloseTo(0.00307, 4);
    expect(figure(hold?.equivalentHole).unit).toBe("mm");
    const warmer = figure(holdOf([...strokes, ...fall, ...temperatures(18, 11.7)])?.equivalentHole);
    expect(warmer.range95?.[0]).toBe(0);
  });

  // 1.5 ml to 6 bar: 0.25 ml/bar if none of it squeezed air; 1.5/(1 - 1.01325/7.01325) = 1.753 ml of air would give
  // 1.753 x 1.01325/(1.01325 + 5.7)^2 = 0.0394 ml/bar at 5.7 bar. Between them evenly: 0.1447, u 0.2106/sqrt(12)
  test("strokes to one pressure only, from 0 bar: between none and all of them spent on air", () => {
    const once: Entry[] = [
      { kind: "pressure", barG: 0, atS: 0 },
      { kind: "strokes", count: 3, barG: 6, atS: 30 },
    ];
    const hold = holdOf([...once, ...fall, ...temperatures(15, 15)]);
    const compliance = figure(hold?.compliance);
    expect(compliance.value).toBeCloseTo(0.1447, 3);
    expect(compliance.parts.find(({ name }) => name === "air in the boiler")?.u).toBeCloseTo(0.0608, 3);
    const [low, high] = interval(figure(hold?.leak));
    expect(low).toBeLessThan((0.0394 * 0.6) / 10);
    expect(high).toBeGreaterThan((0.25 * 0.6) / 10);
    const byStrokes: Entry[] = [
      { kind: "strokes", count: 4, barG: 0, atS: 0 },
      { kind: "strokes", count: 3, barG: 6, atS: 30 },
    ];
    expect(figure(holdOf([...byStrokes, ...fall])?.compliance).value).toBeCloseTo(compliance.value, 9);
    expect(holdOf([...once.slice(1), ...fall])?.compliance).toEqual({
      value: null,
      why: expect.stringContaining("0 bar when she is full"),
    });
  });

  test("water fed by the hand pump in a cold hold is what was pumped, each to the pressure read next", () => {
    const fed = strokes.flatMap((entry): Entry[] =>
      entry.kind !== "strokes"
        ? []
        : [
            { kind: "feed", by: "hand-pump", ml: 0.5 * entry.count, strokes: entry.count, atS: entry.atS },
            { kind: "pressure", barG: entry.barG, atS: entry.atS + 2 },
          ],
    );
    const counted = holdOf([...strokes, ...fall, ...temperatures(15, 15)]);
    const written = holdOf([...fed, ...fall, ...temperatures(15, 15)]);
    expect(figure(written?.compliance).value).toBeCloseTo(figure(counted?.compliance).value, 6);
    expect(figure(written?.leak).value).toBeCloseTo(figure(counted?.leak).value, 3);
    // without the pump's own data the measure is that of the feed
    const measured = figure(holdOf([...fed, ...fall], engine(false))?.compliance);
    expect(measured.parts.find(({ source }) => source === "feed scale of small")?.u).toBeCloseTo(
      0.02 * 0.25,
      3,
    );
    const bottle = fed.map((entry): Entry => (entry.kind === "feed" ? { ...entry, by: "bottle" } : entry));
    expect(holdOf([...bottle, ...fall])?.compliance).toEqual({
      value: null,
      why: expect.stringContaining("strokes of the hand pump"),
    });
  });

  test("a fall that no thermometer watched and that may be none could be temperature", () => {
    const slight: Entry[] = [{ kind: "pressure", barG: 5.99, atS: 630 }];
    expect(holdOf([...strokes, ...slight])?.temperatureCouldExplain).toBe(true);
  });

  test("strokes that only put back what leaked are no springiness", () => {
    const again: Entry = { kind: "strokes", count: 1, barG: 6, atS: 700 };
    const once = figure(holdOf([...strokes, ...fall])?.compliance).value;
    expect(figure(holdOf([...strokes, ...fall, again])?.compliance).value).toBeCloseTo(once, 9);
  });

  test("without a thermometer the doubt is larger", () => {
    const long: Entry[] = [...fall, { kind: "pressure", barG: 4.2, atS: 1830 }];
    const watched: Entry[] = [30, 1830].map((atS) => ({
      kind: "temperature",
      of: "boiler",
      celsius: 15,
      atS,
    }));
    const width = (of: unknown) => Math.hypot(...figure(of).parts.map((part) => part.u));
    const without = width(holdOf([...strokes, ...long])?.leak);
    expect(without).toBeGreaterThan(1.2 * width(holdOf([...strokes, ...long, ...watched])?.leak));
  });

  // 2 ml of air: 1 bar takes 2 x (1 - 1.013/2.013) = 0.993 ml; at 8 bar it still gives 2 x 1.013/9.013^2 = 0.025 ml/bar
  test("air in the boiler does not pass for springiness", () => {
    const pumpedMl = (bar: number) => 0.25 * bar + 2 * (1 - 1.01325 / (1.01325 + bar));
    const list = [1, 2, 3, 4, 5, 6, 7, 8].map(
      (barG, i): Entry => ({
        kind: "strokes",
        barG,
        atS: 10 * i,
        count: (pumpedMl(barG) - pumpedMl(i === 0 ? 0 : barG - 1)) / 0.5,
      }),
    );
    expect(figure(holdOf(list)?.compliance).value).toBeCloseTo(0.275, 2);
  });

  test("pressure without steam is no raising, no standing, and not questioned for its temperature or its height", () => {
    const steaming = {
      ...smallSteaming(),
      purpose: "cold-hold" as const,
      entries: [...strokes, ...fall, ...temperatures(15, 15)],
    };
    const asked = (purpose: "cold-hold" | "trial") => {
      const { phases, warnings } = analyse({ ...engine(), workingPressureBarG: 3 }, { ...steaming, purpose });
      return { phases: phases.length, codes: warnings.map(({ code }) => code) };
    };
    expect(asked("cold-hold").phases).toBe(0);
    const questions = ["above-working-pressure", "pressure-and-temperature"];
    for (const code of questions) {
      expect(asked("cold-hold").codes).not.toContain(code);
      expect(asked("trial").codes).toContain(code);
    }
  });

  test("a filling, feeds and a draining of cold water make no time in steam, no heat and no forecast", () => {
    const more: Entry[] = [
      { kind: "fill", ml: 230, atS: -60 },
      { kind: "feed", by: "hand-pump", ml: 1, atS: -30 },
      { kind: "level", mm: 30, atS: -20 },
      { kind: "drained", ml: 230, atS: 900 },
    ];
    const worked = (purpose: "cold-hold" | "trial") =>
      analyse(engine(), { ...smallSteaming(), purpose, entries: [...more, ...strokes, ...fall] });
    const cold = worked("cold-hold");
    expect(cold.totals?.feed.value).toBeGreaterThan(0);
    expect(cold.totals?.inSteamS).toBe(0);
    expect([cold.heat, cold.forecast]).toEqual([null, null]);
    const steam = worked("trial");
    expect(steam.totals?.inSteamS).toBeGreaterThan(600);
    expect(steam.heat).not.toBeNull();
    expect(steam.forecast).not.toBeNull();
  });

  test("what cannot be had says why", () => {
    expect(holdOf([...strokes, ...fall], engine(false))?.compliance).toEqual({
      value: null,
      why: expect.stringContaining("millilitres of a stroke"),
    });
    expect(holdOf(strokes)?.leak).toEqual({ value: null, why: expect.stringContaining("at rest") });
    expect(holdOf(strokes)?.temperatureCouldExplain).toBe(false);
    expect(holdOf(fall)?.compliance.value).toBeNull();
    expect(coldHoldOf(sourcesOf(engine(), smallSteaming()))).toBeNull();
  });
});
