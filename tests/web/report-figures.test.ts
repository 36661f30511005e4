import { expect, test } from "vitest";
import { type Report, reportSchema } from "../../src/analysis/report-schema.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { leakMeaning } from "../../web/words/meaning.ts";
import { reportFigures } from "../../web/words/report-figures.ts";
import { sheetSentence } from "../../web/words/sheet-sentence.ts";
import { smallEngine, untouched } from "../support/small-logbook.ts";

const figure = (value: number, unit: string): Reported => ({
  value,
  u: value / 40,
  lo95: value * 0.95,
  hi95: value * 1.05,
  unit,
});

/** Every section filled; the numbers mean nothing. */
const whole: Report = {
  format: "lapwater-report",
  version: 1,
  steamingId: "small-run",
  locomotiveId: "small",
  phases: [
    {
      name: "running",
      fromS: 60,
      toS: 500,
      inferred: false,
      steamingRate: figure(6, "g/min"),
      laps: 10,
      meanPressureBarG: 2.8,
    },
  ],
  totals: {
    fromS: 0,
    toS: 500,
    waterDrawn: figure(50, "g"),
    feed: figure(40, "g"),
    fuelBurnt: { value: null, why: "no fuel was recorded" },
    laps: 10,
    distanceM: 200,
    inSteamS: 500,
    runningS: 440,
  },
  perLap: { water: figure(5, "g"), fuel: figure(2, "g") },
  per100m: { water: figure(25, "g") },
  perMinuteRunning: { water: figure(6, "g") },
  raising: { toFirstSteamS: null, toWorkingPressureS: 480, power: figure(240, "W") },
  heat: {
    efficiency: figure(0.3, "1"),
    evaporationRatio: figure(2, "g/g"),
    factorOfEvaporation: figure(1.17, "1"),
    equivalentEvaporation: figure(2.3, "g/g"),
  },
  cooling: { lossAtWorkingPressure: figure(41, "W"), leak: figure(0.4, "g/min") },
  coldHold: {
    compliance: figure(0.2, "ml/bar"),
    leak: figure(0.01, "ml/min"),
    temperatureCouldExplain: true,
  },
  safetyValve: {
    lift: figure(3.1, "bar"),
    reseat: figure(2.9, "bar"),
    highest: figure(3.2, "bar"),
    rise: figure(0.06, "1"),
  },
  pump: { perRevolution: figure(0.09, "ml"), volumetricEfficiency: figure(0.8, "1"), keepsUp: false },
  engine: {
    dryDemand: figure(0.1, "g/rev"),
    missingQuantity: figure(0.4, "1"),
    overallEfficiency: figure(0.01, "1"),
  },
  leaks: [{ fitting: "left-gland", atS: 300, rate: figure(0.8, "g/min"), equivalentHole: figure(0.2, "mm") }],
  forecast: {
    atS: 500,
    waterAboveLowest: figure(60, "g"),
    minutesToLowest: figure(10, "min"),
    lapsToLowest: figure(12, "1"),
  },
  warnings: [],
};

function figurePlaces(part: unknown, path: readonly string[] = []): string[] {
  if (part === null || typeof part !== "object") return [];
  if ("value" in part) return [path.join(".")];
  return Object.entries(part).flatMap(([key, inner]) => figurePlaces(inner, [...path, key]));
}

const placesShown = (report: Report): string[] =>
  reportFigures(report, smallEngine()).flatMap((group) => group.lines.map((line) => line.key));

test("every figure of a report has its line on the test sheet, once", () => {
  expect(reportSchema.safeParse(whole).success).toBe(true);
  expect(placesShown(whole).sort()).toEqual(figurePlaces(whole).sort());
});

test("a section that the entries do not touch has no lines", () => {
  const empty: Report = {
    ...whole,
    ...untouched,
  };
  expect(reportFigures(empty, smallEngine())).toEqual([]);
  expect(sheetSentence(empty)).toContain("Nothing can be reckoned yet");
});

test("the first sentence gives what she drew, and the reason where that cannot be had", () => {
  expect(sheetSentence(whole)).toMatch(/^Running, she drew 6\.0 g of water a minute and 5\.0 g a lap\./);
  const why = "no reading fixes the water";
  const none: Reported = { value: null, why };
  const unread: Report = {
    ...whole,
    totals: whole.totals && { ...whole.totals, waterDrawn: none, runningS: 0 },
    perLap: null,
    perMinuteRunning: null,
    heat: null,
    cooling: null,
    coldHold: null,
    safetyValve: null,
    pump: null,
  };
  expect(sheetSentence(unread)).toBe(`The water drawn cannot be reckoned yet: ${why}.`);
});

test("the first sentences give no number to a leak that is not told from nothing, as the section does not", () => {
  const cooling = (leak: Reported): Report => ({
    ...whole,
    perLap: null,
    perMinuteRunning: null,
    totals: null,
    cooling: { lossAtWorkingPressure: figure(41, "W"), leak },
  });
  const inDoubt = { value: 0.7, u: 0.55, lo95: 0.1, hi95: 2.2, unit: "g/min" };
  for (const leak of [inDoubt, { ...inDoubt, lo95: 0 }, { ...inDoubt, u: 0.3, lo95: -0.1 }]) {
    expect(sheetSentence(cooling(leak))).toContain(
      `, and leaks perhaps nothing, at most ${leak.hi95.toFixed(1)} g/min.`,
    );
    expect(leakMeaning(cooling(leak))).toContain(
      `she leaks perhaps nothing, at most ${leak.hi95.toFixed(1)} g/min.`,
    );
  }
  const told: Reported = { ...inDoubt, u: 0.2, lo95: 0.3, hi95: 1.2 };
  expect(sheetSentence(cooling(told))).toContain(", and leaks 0.7 g/min.");
  expect(leakMeaning(cooling(told))).toContain("Shut in she leaks 0.7");
});

test("a leak is named by its fitting, and a forecast says to look at the glass", () => {
  const groups = reportFigures(whole, smallEngine());
  const lines = groups.flatMap((group) => group.lines);
  expect(lines.find((line) => line.key === "leaks.0.rate")?.name).toBe("Left piston-rod gland");
  const forecast = groups.find((group) => group.lines.some((line) => line.key.startsWith("forecast.")));
  expect(forecast?.note).toContain("Look at the glass");
});
