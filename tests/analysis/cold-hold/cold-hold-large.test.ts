import { describe, expect, test } from "vitest";
import { coldHoldOf } from "../../../src/analysis/cold-hold/cold-hold.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import {
  type Figure,
  isMeasured,
  type Measured,
  standardUncertainty,
} from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const ATMOSPHERE = 1.01325;
const engine = {
  ...smallEngine(),
  handPump: { mlPerStroke: 0.5, uMlPerStroke: 0.005 },
  instruments: { pressureReadingBar: 0.03, pressureBiasBar: 0.03 },
};
const holdOf = (entries: Entry[]) =>
  coldHoldOf(sourcesOf(engine, { ...smallSteaming(), purpose: "cold-hold", entries }));
const figure = (of: Figure | undefined): Measured => {
  if (of === undefined || !isMeasured(of)) throw new Error(`no figure: ${of?.why}`);
  return of;
};
const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const stroke = (count: number, barG: number, atS: number): Entry => ({ kind: "strokes", count, barG, atS });
const steady: Entry[] = [0, 3600].map((atS) => ({ kind: "temperature", of: "boiler", celsius: 15, atS }));

/** 0.25 ml/bar and air by Boyle's law; pumped up by a bar at a time. */
const takenMl = (airMl: number, barG: number) => 0.25 * barG + airMl * (1 - ATMOSPHERE / (ATMOSPHERE + barG));
const pumpedTo = (airMl: number, topBar: number): Entry[] =>
  Array.from({ length: topBar + 1 }, (_, i) =>
    i === 0 ? bar(0, 0) : stroke((takenMl(airMl, i) - takenMl(airMl, i - 1)) / 0.5, i, 5 * i),
  );

/** Read each minute after the last stroke, second by second by Torricelli, to a twentieth of a bar. */
function leaking(airMl: number, fromBar: number, mlPerMinAtOneBar: number, fromS: number, minutes: number) {
  let barG = fromBar;
  const readings: Entry[] = [];
  for (let s = 1; s <= 60 * minutes; s++) {
    const softness = 0.25 + (airMl * ATMOSPHERE) / (ATMOSPHERE + barG) ** 2;
    barG = Math.max(0, barG - ((mlPerMinAtOneBar / 60) * Math.sqrt(barG)) / softness);
    if (s % 60 === 0) readings.push(bar(Math.round(barG * 20) / 20, fromS + s));
  }
  return readings;
}

describe("a hold in which the pressure goes", () => {
  test.each([0, 2])(
    "with %d ml of air: ends where it is gone, and tells what leaks at working pressure",
    (airMl) => {
      const readings = leaking(airMl, 6, 0.15, 30, 40);
      const hold = holdOf([...pumpedTo(airMl, 6), ...readings, ...steady]);
      const held = hold?.held;
      if (held === undefined || held === null) throw new Error("not held");
      expect(held.toS).toBeLessThan(30 + 60 * 40);
      expect(held.fromBar).toBeCloseTo(6, 1);
      expect(held.toBar).toBeGreaterThan(0);
      expect(held.toBar).toBeLessThan(0.5);
      const leaks = 0.15 * Math.sqrt(engine.workingPressureBarG);
      const leak = figure(hold?.leak);
      expect(leak.value / leaks).toBeCloseTo(1, 1);
      expect(Math.abs(leak.value - leaks)).toBeLessThan(2 * standardUncertainty(leak));
      expect(hold?.temperatureCouldExplain).toBe(false);
    },
  );

  // two strokes leave the air open, but water that stays at 15 °C makes no fall from 6 bar to 2
  test("is laid on no temperature that was watched, though two strokes tell her softness badly", () => {
    const two = [stroke(1, 3, 5), stroke(1, 6, 10)];
    const hold = holdOf([...two, bar(4.7, 600), bar(3.6, 1200), bar(2.7, 1800), bar(2, 2400), ...steady]);
    expect(figure(hold?.compliance).range95?.[0]).toBeGreaterThan(0.1);
    expect(figure(hold?.leak).range95?.[0]).toBeGreaterThan(0);
    expect(hold?.temperatureCouldExplain).toBe(false);
  });

  test("gone by the second reading tells no leak", () => {
    const hold = holdOf([...pumpedTo(0, 6), bar(0, 330), bar(0, 630)]);
    expect(hold?.leak).toEqual({ value: null, why: expect.stringContaining("and pressure on") });
    expect(hold?.held).toBeNull();
  });
});

describe("pumping on after a rest", () => {
  // a stroke of 0.5 ml to 6.4 bar puts back what 1.6 bar took, 0.4 ml
  test("to a hair more tells nothing of her softness", () => {
    const raised = pumpedTo(0, 6);
    const down = [5.6, 5.2, 4.8, 4.4].map((barG, i) => bar(barG, 330 + 300 * i));
    const before = figure(holdOf([...raised, ...down])?.compliance).value;
    const topped = [...raised, ...down, stroke(1, 6.4, 1240), bar(6, 1540), bar(5.6, 1840)];
    expect(figure(holdOf(topped)?.compliance).value).toBeCloseTo(before, 4);
    // and where the longest rest is the later one
    const longer = [5.2, 4.8, 4.4, 4].map((barG, i) => bar(barG, 2140 + 300 * i));
    const held = holdOf([...topped, ...longer]);
    expect(held?.held?.fromS).toBe(1240);
    expect(figure(held?.compliance).value).toBeCloseTo(before, 2);
    // nor where nothing was read in the rest
    const unread = [...raised, stroke(1, 6.4, 1240), bar(6, 1540), bar(5.6, 1840)];
    expect(figure(holdOf(unread)?.compliance).value).toBeCloseTo(before, 2);
  });

  test("that lost next to nothing goes on with the raising", () => {
    const paused = pumpedTo(0, 6).map((entry) =>
      entry.atS > 15 ? { ...entry, atS: entry.atS + 120 } : entry,
    );
    const compliance = (entries: Entry[]) =>
      standardUncertainty(figure(holdOf([...entries, bar(5.9, 900), bar(5.8, 1650)])?.compliance));
    expect(compliance(paused) / compliance(pumpedTo(0, 6))).toBeCloseTo(1, 3);
  });
});
