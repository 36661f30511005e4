import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { safetyValveOf } from "../../../src/analysis/valve/safety-valve.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { type Figure, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Up to a lift at 3.1 bar at 100 s, as `blowing` says from there to a reseat at 2.8, and up again; a logger at 5 Hz. */
const LIFT = { atS: 100, barG: 3.1 };
const RESEAT = 2.8;
type Blowing = (sinceS: number) => number;
const blown: [string, Blowing][] = [
  ["sinks quickly", (s) => 2.78 + 0.32 * Math.exp(-s / 15)],
  ["falls steadily", (s) => 3.1 - 0.005 * s],
  ["stands for a while, then falls", (s) => 3.1 - 0.006 * Math.max(0, s - 40)],
];
/** Errors of 0.01 bar that no generator makes anew: a sine of a great angle, of standard deviation 1. */
const stray = (i: number) => 0.01 * Math.SQRT2 * Math.sin(12.9898 * i * i);

function tried(
  blowing: Blowing,
  lateS: number,
  after: (sinceS: number) => number = (s) => RESEAT + 0.005 * s,
) {
  const reseatS = LIFT.atS + [...Array(400).keys()].findIndex((s) => blowing(s) <= RESEAT);
  const pressure = (s: number) => {
    if (s < LIFT.atS) return LIFT.barG - 0.006 * (LIFT.atS - s);
    return s < reseatS ? blowing(s - LIFT.atS) : after(s - reseatS);
  };
  const everyS = 0.2;
  const values = Array.from({ length: (reseatS + 40) / everyS }, (_, i) => pressure(i * everyS) + stray(i));
  const entries: Entry[] = [
    { kind: "valve", atS: LIFT.atS + lateS, state: "lifts" },
    { kind: "valve", atS: reseatS + lateS, state: "reseats" },
  ];
  const engine = {
    ...smallEngine(),
    instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.001 },
  };
  const traces = [{ channel: "pressureBarG" as const, startS: 0, everyS, values }];
  const sheet = safetyValveOf(sourcesOf(engine, { ...smallSteaming(), entries, traces }));
  const of = (figure: Figure | undefined) => {
    if (figure === undefined || !isMeasured(figure)) throw new Error("no figure");
    return { value: figure.value, u: standardUncertainty(figure) };
  };
  return { lift: of(sheet?.lift), reseat: of(sheet?.reseat), highest: of(sheet?.highest) };
}

describe.each(blown)(
  "a logger at five a second beside a valve from whose lift the pressure %s",
  (_, blowing) => {
    test.each([-3, 0, 2, 4])("tells lift and highest, written %d s late", (lateS) => {
      const { lift, highest } = tried(blowing, lateS);
      for (const figure of [lift, highest]) {
        expect(Math.abs(figure.value - LIFT.barG)).toBeLessThan(0.012);
        expect(Math.abs(figure.value - LIFT.barG)).toBeLessThan(2 * figure.u);
        // three seconds of the climb, were the corner not seen
        expect(figure.u).toBeLessThan(3 * 0.006);
      }
    });

    test("tells the reseat at the bend", () => {
      const { reseat } = tried(blowing, 0);
      expect(Math.abs(reseat.value - RESEAT)).toBeLessThan(2 * reseat.u);
      expect(reseat.u).toBeLessThan(0.02);
    });
  },
);

test("where the pressure goes on as it came there is no corner, and the moment's doubt stays", () => {
  const steady = tried((s) => (s < 60 ? 3.1 + 0.006 * s : 3.46 - 0.01 * (s - 60)), 0);
  expect(steady.lift.u).toBeGreaterThan(0.7 * 3 * 0.006);
  expect(Math.abs(steady.lift.value - LIFT.barG)).toBeLessThan(2 * steady.lift.u);
  expect(Math.abs(steady.highest.value - 3.46)).toBeLessThan(2 * steady.highest.u);
});

test("the corner where something else brings the pressure down is not taken for the reseat after it", () => {
  // steam taken from 2.86 bar on, two seconds before the valve shuts
  const drawn: Blowing = (s) => (s < 60 ? 3.1 - 0.004 * s : 2.86 - 0.03 * (s - 60));
  const { reseat } = tried(drawn, 0, (s) => RESEAT - 0.03 * s);
  expect(Math.abs(reseat.value - RESEAT)).toBeLessThan(2 * reseat.u);
});

describe("a valve that pops and shuts within seconds", () => {
  // up 0.5 bar in 11 s, down again in 7: three rises and falls in as long as a moment's samples are taken from
  const popping = (s: number) => {
    const sinceS = s % 18;
    return sinceS < 11 ? 2.7 + (0.5 * sinceS) / 11 : 3.2 - (0.5 * (sinceS - 11)) / 7;
  };
  const marks = Array.from({ length: 5 }, (_, i): Entry[] => [
    { kind: "valve", atS: 11 + 18 * i, state: "lifts" },
    { kind: "valve", atS: 18 + 18 * i, state: "reseats" },
  ]).flat();
  const engine = { ...smallEngine(), instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.001 } };
  const highestOf = (entries: Entry[], strayFrom: number) => {
    const values = Array.from({ length: 900 }, (_, i) => popping(i * 0.2) + stray(i + strayFrom));
    const traces = [{ channel: "pressureBarG" as const, startS: 0, everyS: 0.2, values }];
    const steaming = { ...smallSteaming(), purpose: "safety-valve" as const, entries, traces };
    const highest = safetyValveOf(sourcesOf(engine, steaming))?.highest;
    if (highest === undefined || !isMeasured(highest)) throw new Error("no figure");
    return highest;
  };

  test.each([
    ["with its marks", marks],
    ["without a mark", []],
  ])("is told the highest that the logger showed, %s", (_, entries) => {
    const told = Array.from({ length: 8 }, (_, i) => highestOf(entries, 1000 * i));
    const misses = told.map(({ value }) => value - 3.2);
    for (const miss of misses) expect(Math.abs(miss)).toBeLessThan(0.02);
    expect(Math.abs(misses.reduce((a, b) => a + b, 0) / 8)).toBeLessThan(0.01);
    for (const figure of told) expect(standardUncertainty(figure)).toBeLessThan(0.01);
  });
});
