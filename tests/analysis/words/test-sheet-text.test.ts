import { describe, expect, test } from "vitest";
import type { Report } from "../../../src/analysis/report-schema.ts";
import { CAUTIONS } from "../../../src/analysis/words/sheet-foot.ts";
import { testSheetText } from "../../../src/analysis/words/test-sheet-text.ts";
import { smallEngine, untouched } from "../../support/small-logbook.ts";

const figure = (value: number) => ({ value, u: 1, lo95: value - 2, hi95: value + 2, unit: "" });
const part = (value: number) => ({
  value: value / 100,
  u: 0.01,
  lo95: value / 100 - 0.02,
  hi95: value / 100 + 0.02,
  unit: "1",
});
const none = { value: null, why: "nobody looked" } as const;

/** A report of which nothing is real but the places: every figure is another whole number. */
const full: Report = {
  format: "lapwater-report",
  version: 1,
  steamingId: "run-1",
  locomotiveId: "small",
  phases: [
    {
      name: "raising",
      fromS: 0,
      toS: 90,
      inferred: true,
      steamingRate: figure(11),
      laps: 0,
      meanPressureBarG: null,
    },
    {
      name: "running",
      fromS: 90,
      toS: 3690,
      inferred: false,
      steamingRate: figure(12),
      laps: 1,
      meanPressureBarG: 2.5,
    },
    {
      name: "running",
      fromS: 3690,
      toS: 3750,
      inferred: false,
      steamingRate: none,
      laps: 2,
      meanPressureBarG: 2.25,
    },
  ],
  totals: {
    fromS: 5,
    toS: 3745,
    waterDrawn: figure(21),
    feed: figure(22),
    fuelBurnt: figure(23),
    laps: 33,
    distanceM: 660.4,
    inSteamS: 3600,
    runningS: 3660,
  },
  perLap: { water: figure(31), fuel: figure(32) },
  per100m: { water: figure(34) },
  perMinuteRunning: { water: figure(35) },
  raising: { toFirstSteamS: 61, toWorkingPressureS: 122, power: figure(41) },
  heat: {
    efficiency: part(51),
    evaporationRatio: figure(52),
    factorOfEvaporation: figure(53),
    equivalentEvaporation: figure(54),
  },
  forecast: {
    atS: 3750,
    waterAboveLowest: figure(61),
    minutesToLowest: figure(62),
    lapsToLowest: figure(63),
  },
  cooling: { lossAtWorkingPressure: figure(71), leak: figure(72) },
  coldHold: { compliance: figure(73), leak: figure(74), temperatureCouldExplain: true },
  safetyValve: { lift: figure(81), reseat: figure(82), highest: figure(83), rise: part(84) },
  leaks: [
    { fitting: "left-gland", atS: 125, rate: figure(85), equivalentHole: figure(86) },
    { fitting: "unheard-of", atS: 130, rate: none, equivalentHole: figure(87) },
  ],
  pump: { perRevolution: figure(91), volumetricEfficiency: part(92), keepsUp: true },
  engine: {
    dryDemand: { value: 0.093, u: 0.001, lo95: 0.091, hi95: 0.095, unit: "g/rev" },
    missingQuantity: part(94),
    overallEfficiency: part(95),
  },
  warnings: [
    { code: "a", text: "Something is odd.", entries: ["e1", "e2"] },
    { code: "b", text: "Something else is.", entries: [] },
  ],
};
const steaming = {
  id: "run-1",
  locomotiveId: "small",
  purpose: "trial" as const,
  startedAt: "2026-05-01T10:00:00+01:00",
};
const linesOf = (report: Report, head: object = {}) =>
  testSheetText(report, { ...steaming, ...head }, smallEngine(), {
    held: null,
    burntForS: 3750,
    pumpTimesDrawn: null,
  }).split("\n");
/** Lines with their columns one blank apart. */
const said = (report: Report) => linesOf(report).map((line) => line.replace(/ {2,}/g, " ").trim());

describe("the test sheet to read", () => {
  const held = {
    fromS: 30,
    toS: 630,
    meanBar: 5.7,
    fromBar: 5.85,
    toBar: 5.55,
    waterC: { from: 14.24, to: 14.5 },
    equivalentHole: { value: 0.05, u: 0.01, lo95: 0.03, hi95: 0.07, unit: "mm" },
  };

  test("a cold hold's leak is told as a round hole where that is known", () => {
    const lines = testSheetText(full, steaming, smallEngine(), {
      held,
      burntForS: 0,
      pumpTimesDrawn: null,
    }).split("\n");
    const leak = lines.findIndex((line) => line.includes("leak at working pressure"));
    expect(lines[leak + 1]).toContain("as a round hole of");
    expect(lines[leak + 1]).toContain("0.05 (0.03 to 0.07) mm");
    expect(said(full).join("\n")).not.toContain("as a round hole of 0.05");
  });

  test("a cold hold says when, for how long, at what pressure and how warm she was held", () => {
    const lines = testSheetText(full, steaming, smallEngine(), {
      held,
      burntForS: 0,
      pumpTimesDrawn: null,
    }).split("\n");
    const head = lines.indexOf("Cold hold");
    expect(lines[head + 1]).toMatch(
      /^ {2}held 0:30 to 10:30 +10:00 at 5\.70 bar in the mean, from 5\.85 to 5\.55$/,
    );
    expect(lines[head + 2]).toMatch(/^ {2}temperature of the water +14\.2 °C, then 14\.5 °C$/);
    const unread = testSheetText(full, steaming, smallEngine(), {
      held: { ...held, waterC: null },
      burntForS: 0,
      pumpTimesDrawn: null,
    });
    expect(unread).toMatch(/temperature of the water +not read at both ends/);
    expect(said(full).join("\n")).not.toContain("held 0:30");
  });

  test("begins with engine, day and title, underlined, and its purpose", () => {
    expect(linesOf(full).slice(0, 3)).toEqual([
      "Small, 2026-05-01T10:00:00+01:00",
      "================================",
      "purpose trial, steaming run-1",
    ]);
    const [titled, rule] = linesOf(full, { title: "Uphill" });
    expect(titled).toBe("Small, 2026-05-01T10:00:00+01:00: Uphill");
    expect(rule).toHaveLength(titled?.length ?? 0);
  });

  test("has each section and each figure under its own name, with its range and unit", () => {
    expect(said(full).slice(3, -1 - CAUTIONS.length)).toEqual([
      "",
      "Phases",
      "raising 0:00 to 1:30 (inferred) 11 (9 to 13) g/min",
      "running 1:30 to 1:01:30 12 (10 to 14) g/min, mean 2.50 bar, 1 lap",
      "running 1:01:30 to 1:02:30 no rate: nobody looked, mean 2.25 bar, 2 laps",
      "",
      "In all",
      "water read from, to 0:05, 1:02:25",
      "water drawn 21 (19 to 23) g",
      "feed 22 (20 to 24) g",
      "fuel burnt 23 (21 to 25) g",
      "laps 33",
      "distance 660 m",
      "in steam 1:00:00",
      "running 1:01:00",
      "",
      "While running",
      "water a lap 31 (29 to 33) g",
      "fuel a lap 32 (30 to 34) g",
      "water for 100 m 34 (32 to 36) g",
      "water a minute 35 (33 to 37) g",
      "",
      "Raising steam",
      "to first steam 1:01",
      "to working pressure 2:02",
      "power into boiler and water 41 (39 to 43) W",
      "",
      "Heat",
      "efficiency of the boiler 51 (49 to 53) %",
      "evaporation, water to fuel 52 (50 to 54) g/g",
      "factor of evaporation 53 (51 to 55)",
      "from and at 100 °C 54 (52 to 56) g/g",
      "Of the fuel's heat 51 % went into water and steam; raising steam, 41 W went into boiler and water.",
      "",
      "At 1:02:30, if she goes on like this and nothing is fed (look at the glass)",
      "water above the lowest level 61 (59 to 63) g",
      "to the lowest level 62 (60 to 64) min",
      "laps to the lowest level 63 (61 to 65)",
      "",
      "Shut in hot, at working pressure",
      "heat lost through the surface 71 (69 to 73) W",
      "leak of all that is shut 72 (70 to 74) g/min",
      // 23 g of spirit at 24.6 MJ/kg in 3750 s are 151 W
      "The boiler loses 71 W standing at 3 bar: about half of the fire. Shut in she leaks 72 g/min.",
      "",
      "Cold hold",
      "to raise the pressure 73 (71 to 75) ml/bar",
      "leak at working pressure 74 (72 to 76) ml/min",
      "Full and cold the fall stands for 74 ml/min at working pressure. A drift of the water's temperature alone",
      "could explain it.",
      "",
      "Safety valve",
      "lifts at 81.0 (79.0 to 83.0) bar",
      "reseats at 82.0 (80.0 to 84.0) bar",
      "highest pressure 83.0 (81.0 to 85.0) bar",
      "above working pressure 84 (82 to 86) %",
      "The valve lifted at 81.0 bar, 2600 % above working pressure, and reseated at 82.0 bar. By the readings the",
      "pressure came to 83.0 bar at its highest, 84 % above working pressure, beyond the 10 % that model codes",
      "commonly allow; your club's code decides.",
      "",
      "Drips, at working pressure",
      "Left piston-rod gland at 2:05 85 (83 to 87) g/min",
      "as a round hole of 86 (84 to 88) mm",
      "unheard-of at 2:10 not to be had: nobody looked",
      "as a round hole of 87 (85 to 89) mm",
      "Most dripped from the left piston-rod gland: 85 g/min at working pressure, as much as a round hole of 86",
      "mm would let out.",
      "",
      "Axle pump",
      "delivered a turn of the wheel 91 (89 to 93) ml",
      "of what the ram sweeps 92 (90 to 94) %",
      "keeps up yes",
      "The axle pump gives 91 ml a turn, 92 % of what its ram sweeps; it keeps up with what she draws.",
      "",
      "Engine",
      "dry steam the cylinders ask for 93 (91 to 95) mg a turn",
      "missing quantity 94 (92 to 96) %",
      "overall efficiency 95 (93 to 97) %",
      "With a chest pressure that is thought of and not read, 94 % of the steam she drew condensed in the",
      "cylinders or leaked past: watch the trend of this at like pressure and speed, its value tells little.",
      "",
      "To look at again",
      "! Something is odd. [e1, e2]",
      "! Something else is.",
      "",
    ]);
  });

  test("ends with what the brackets mean and the cautions", () => {
    const foot = linesOf(full)
      .slice(-1 - CAUTIONS.length)
      .join(" ");
    expect(foot).toMatch(/^In brackets: .*95 times in 100\. Never above working pressure\./);
    expect(foot).toContain("does not say that a boiler is fit");
  });

  test("leaves out what the entries do not touch", () => {
    const bare = said({
      ...full,
      ...untouched,
    });
    expect(bare.slice(3, -1 - CAUTIONS.length)).toEqual([
      "",
      "Phases",
      "none nothing recorded tells when she was raising steam, standing or running",
      "",
    ]);
  });

  test.each(["perLap", "per100m", "perMinuteRunning"] as const)("tells of running with %s alone", (kept) => {
    const alone = said({ ...full, perLap: null, per100m: null, perMinuteRunning: null, [kept]: full[kept] });
    const start = alone.indexOf("While running");
    expect(start).toBeGreaterThan(0);
    expect(alone.indexOf("", start) - start).toBe(kept === "perLap" ? 3 : 2);
  });

  test("tells what a cold hold's fall means, and gives no leak it has not", () => {
    const { coldHold } = full;
    if (coldHold === null) throw new Error("no such part");
    const after = (part: object) => {
      const lines = said({ ...full, coldHold: { ...coldHold, ...part } });
      return lines.slice(lines.indexOf("Cold hold") + 1, lines.indexOf("Safety valve") - 1);
    };
    const none = { value: null, why: "the strokes are not known" };
    expect(after({ temperatureCouldExplain: false }).slice(2)).toEqual([
      "Full and cold she loses 74 ml/min at working pressure. The drift of the water's temperature does not",
      "explain it.",
    ]);
    expect(after({ temperatureCouldExplain: false, leak: figure(1) }).slice(2)).toEqual([
      "Full and cold she loses perhaps nothing, at most 3 ml/min at working pressure.",
    ]);
    expect(after({ compliance: none, leak: none })).toEqual([
      "to raise the pressure not to be had: the strokes are not known",
      "leak at working pressure not to be had, as above",
      "A drift of the water's temperature alone could explain the fall of pressure.",
    ]);
    expect(after({ leak: none, temperatureCouldExplain: false })).toHaveLength(2);
  });

  test("gives a reason once where the next line has the same, and anew in the next section", () => {
    const nobody = { value: null, why: "nobody read it: read it" };
    const { cooling, engine } = full;
    if (cooling === null || engine === null) throw new Error("no such part");
    const lines = said({
      ...full,
      cooling: { lossAtWorkingPressure: nobody, leak: nobody },
      coldHold: null,
      safetyValve: null,
      leaks: null,
      pump: null,
      engine: { dryDemand: nobody, missingQuantity: part(20), overallEfficiency: nobody },
    });
    expect(
      lines.slice(lines.indexOf("Shut in hot, at working pressure"), lines.indexOf("To look at again")),
    ).toEqual([
      "Shut in hot, at working pressure",
      "heat lost through the surface not to be had: nobody read it: read it",
      "leak of all that is shut not to be had, as above",
      "",
      "Engine",
      "dry steam the cylinders ask for not to be had: nobody read it: read it",
      "missing quantity 20 (18 to 22) %",
      "overall efficiency not to be had: nobody read it: read it",
      expect.stringMatching(/^With a chest pressure .* 20 % of the steam she drew condensed/),
      "cylinders or leaked past: watch the trend of this at like pressure and speed, its value tells little.",
      "",
    ]);
  });

  test("tells by how much the axle pump keeps up, and how far the highest lay below working pressure", () => {
    const lines = testSheetText(
      { ...full, safetyValve: full.safetyValve && { ...full.safetyValve, rise: part(-4) } },
      steaming,
      smallEngine(),
      { held: null, burntForS: 0, pumpTimesDrawn: figure(7) },
    )
      .split("\n")
      .map((line) => line.trim().replace(/ +/g, " "));
    expect(lines).toContain("of what she draws, by-pass shut 7 (5 to 9) times");
    expect(lines.join(" ")).toContain(
      "keeps up with what she draws: with the by-pass shut it gives 7 times as much.",
    );
    expect(lines).toContain("below working pressure 4 (2 to 6) %");
  });

  test("says of times and counts that were not read that they were not", () => {
    const { totals, raising, pump, coldHold } = full;
    if (totals === null || raising === null || pump === null || coldHold === null)
      throw new Error("no such part");
    const sparse = said({
      ...full,
      totals: { ...totals, fromS: null, distanceM: null, inSteamS: null },
      raising: { ...raising, toFirstSteamS: null, toWorkingPressureS: null },
      pump: { ...pump, keepsUp: null },
      coldHold: { ...coldHold, temperatureCouldExplain: false },
    });
    expect(sparse).toContain("to first steam not told by the readings");
    expect(sparse).toContain("to working pressure no reading shows it");
    expect(sparse).toContain("keeps up not told apart");
    expect(sparse).toContain("water read from, to not told by the readings");
    expect(sparse).toContain("distance not to be had: the length of a lap was not recorded");
    expect(sparse).toContain("in steam no pressure was read");
    expect(said({ ...full, totals: { ...totals, toS: null } })).toContain(
      "water read from, to not told by the readings",
    );
    const none = { ...totals, distanceM: null, laps: 0 };
    expect(said({ ...full, totals: none })).toContain("distance not told by the entries");
    // who did not run went nowhere
    expect(said({ ...full, totals: { ...none, runningS: 0 } }).join()).not.toContain("distance");
    expect(said({ ...full, pump: { ...pump, keepsUp: false } })).toContain("keeps up no");
    expect(said({ ...full, totals: { ...totals, runningS: 0 } })).toContain(
      "running not told by the entries",
    );
    expect(said({ ...full, totals: { ...totals, laps: 0, runningS: 0 } })).toContain("running 0:00");
  });
});
