import { describe, expect, test } from "vitest";
import type { Report } from "../../src/analysis/report-schema.ts";
import { shareInWords } from "../../src/analysis/words/shut-in-meaning.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import {
  coolingMeaning,
  dripMeaning,
  engineMeaning,
  holdMeaning,
  leakMeaning,
  plusMinus,
  pumpMeaning,
  valveMeaning,
} from "../../web/words/meaning.ts";
import { smallEngine } from "../support/small-logbook.ts";

const figure = (value: number, lo95: number, hi95: number, unit: string): Reported => ({
  value,
  u: (hi95 - lo95) / 3.92,
  lo95,
  hi95,
  unit,
});
const engineWithFittings = {
  ...smallEngine(),
  fittings: [
    { id: "gland", name: "Right gland", kind: "gland" as const },
    { id: "clack", name: "Feed clack", kind: "clack" as const },
  ],
};
const none: Reported = { value: null, why: "not read" };
const report = (part: Partial<Report>): Report =>
  ({ phases: [], totals: null, ...part }) as unknown as Report;

describe("a figure with what it may be off by", () => {
  test("is written even where it lies evenly, with its ends where it does not", () => {
    expect(plusMinus(figure(41.2, 37.1, 45.3, "W"))).toBe("41 ± 4 W");
    expect(plusMinus(figure(0.72, 0.29, 0.86, "1"), "per-cent")).toBe("72 % (29 to 86)");
    expect(plusMinus(none)).toBe(null);
  });
});

describe("what the figures mean", () => {
  const burning = {
    // 30 g of spirit at 24.6 MJ/kg in 2000 s: 369 W
    totals: { fuelBurnt: figure(30, 29, 31, "g") },
  } as unknown as Partial<Report>;

  test("the standing loss is told as a part of the fire", () => {
    const cooling = { lossAtWorkingPressure: figure(41, 37, 45, "W"), leak: none };
    expect(coolingMeaning(report({ ...burning, cooling }), smallEngine(), 2000)).toBe(
      "The boiler loses 41 ± 4 W standing at 3 bar: about a ninth of the fire.",
    );
    expect(coolingMeaning(report({ cooling }), smallEngine(), 2000)).toBe(
      "The boiler loses 41 ± 4 W standing at 3 bar.",
    );
  });

  test("a leak that may be none is not called one", () => {
    const leak = (lo95: number) =>
      leakMeaning(
        report({ cooling: { lossAtWorkingPressure: none, leak: figure(0.5, lo95, 1 - lo95, "g/min") } }),
      );
    expect(leak(0.2)).toBe("Shut in she leaks 0.5 ± 0.3 g/min.");
    expect(leak(-0.1)).toBe("Shut in she leaks perhaps nothing, at most 1.1 g/min.");
  });

  test("the largest of the drips is told with the round hole that would let out as much", () => {
    const drip = (fitting: string, g: number, lo95: number) => ({
      fitting,
      atS: 100,
      rate: figure(g, lo95, 2 * g - lo95, "g/min"),
      equivalentHole: figure(0.14, 0.13, 0.15, "mm"),
    });
    const leaks = [drip("clack", 0.1, 0.05), drip("gland", 0.5, 0.4)];
    expect(dripMeaning(report({ leaks }), engineWithFittings)).toBe(
      "Most dripped from the right gland: 0.50 ± 0.10 g/min at working pressure, as much as a round hole of 0.140 ± 0.010 mm would let out.",
    );
    expect(dripMeaning(report({ leaks: [drip("gland", 0.02, -0.03)] }), engineWithFittings)).toContain(
      "What dripped is perhaps nothing, at most 0.07 g/min at working pressure.",
    );
    expect(dripMeaning(report({ leaks: null }), engineWithFittings)).toBeNull();
  });

  test("a cold hold's fall is a leak, nothing, or perhaps the temperature's doing, and each bar's water is told", () => {
    const hold = (lo95: number, temperatureCouldExplain: boolean) =>
      holdMeaning(
        report({
          coldHold: {
            compliance: figure(0.16, 0.14, 0.18, "ml/bar"),
            leak: figure(0.5, lo95, 1 - lo95, "ml/min"),
            temperatureCouldExplain,
          },
        }),
      );
    expect(hold(0.2, false)).toBe(
      "Full and cold she loses 0.5 ± 0.3 ml/min at working pressure; each bar took 0.16 ± 0.02 ml of water. The drift of the water's temperature does not explain it.",
    );
    expect(hold(-0.2, false)).toContain("she loses perhaps nothing, at most 1.2 ml/min at working pressure;");
    expect(hold(-0.2, true)).toContain("alone could explain it");
    const untold = { compliance: none, leak: none, temperatureCouldExplain: true };
    expect(holdMeaning(report({ coldHold: untold }))).toMatch(
      /^A drift .* could explain the fall of pressure\.$/,
    );
    expect(holdMeaning(report({ coldHold: { ...untold, temperatureCouldExplain: false } }))).toBeNull();
    expect(holdMeaning(report({ coldHold: null }))).toBeNull();
  });

  test("the pump's verdict has three answers", () => {
    const pump = (keepsUp: boolean | null) =>
      pumpMeaning(
        report({
          pump: {
            perRevolution: figure(0.05, 0.04, 0.06, "ml"),
            volumetricEfficiency: figure(0.8, 0.7, 0.9, "1"),
            keepsUp,
          },
        }),
      );
    expect(pump(true)).toContain("of what its ram sweeps; it keeps up");
    expect(pump(false)).toContain("it does not keep up");
    expect(pump(null)).toContain("cannot be told");
  });

  test("the missing quantity is never offered without its trend", () => {
    const engine = {
      dryDemand: none,
      missingQuantity: figure(0.6, 0.4, 0.75, "1"),
      overallEfficiency: none,
    };
    expect(engineMeaning(report({ engine }))).toMatch(/60 % \(40 to 75\) of the steam she drew .*trend/);
    const perhapsNone = { ...engine, missingQuantity: figure(0.46, 0, 0.72, "1") };
    expect(engineMeaning(report({ engine: perhapsNone }))).toMatch(
      /perhaps none and at most 72 % of the steam she drew condensed .*trend/,
    );
    expect(engineMeaning(report({ engine: { ...engine, missingQuantity: none } }))).toBe(null);
  });

  test("a cold hold tells how long, at what pressure and how warm she was held", () => {
    const coldHold = {
      compliance: none,
      leak: figure(0.5, 0.2, 0.8, "ml/min"),
      temperatureCouldExplain: false,
    };
    const held = {
      fromS: 60,
      toS: 660,
      meanBar: 5.698,
      fromBar: 5.84,
      toBar: 5.55,
      waterC: { from: 14.24, to: 14.5 },
      equivalentHole: none,
    };
    expect(holdMeaning(report({ coldHold }), held)).toMatch(
      /^Held for 10 min at 5\.70 bar in the mean, from 5\.84 bar to 5\.55 bar; the water went from 14\.2 °C to 14\.5 °C\. Full and cold she loses/,
    );
    expect(holdMeaning(report({ coldHold }), { ...held, waterC: null })).toContain(
      "was not read at both ends",
    );
  });

  test("a rise that may be none is about working pressure, and never called safe", () => {
    const valve = (rise: Reported) =>
      valveMeaning(
        report({ safetyValve: { lift: none, reseat: none, highest: figure(3.1, 3, 3.2, "bar"), rise } }),
        smallEngine(),
      );
    expect(valve(figure(0.05, 0.02, 0.08, "1"))).toContain("5 ± 3 % above working pressure");
    expect(valve(figure(0.01, -0.02, 0.04, "1"))).toContain("about working pressure");
    expect(valve(figure(-0.1, -0.13, -0.07, "1"))).toContain("short of working pressure");
  });
});

test.each([
  [0.11, "about a ninth"],
  [0.25, "about a quarter"],
  [0.125, "about an eighth"],
  [0.5, "about half"],
  [0.72, "about 70 %"],
  [0.98, "nearly all"],
  [0.053, "about 5 %"],
])("%d in words is %s", (share, words) => expect(shareInWords(share)).toBe(words));
