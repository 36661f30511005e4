import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";
import { figureValue } from "../support/figures.ts";
import { questionable, type Trial, tolerance, trials } from "./boiler-trials.ts";
import { relativeError } from "./closeness.ts";

/** Exact by definition: pound 453.59237 g; psi 6894.757 Pa; Btu(IT)/lb 2.326 kJ/kg (NIST SP 811). */
const G_PER_LB = 453.592_37;
const BAR_PER_PSI = 0.068_947_57;
const MJ_PER_KG_PER_BTU_PER_LB = 2.326e-3;

/**
 * Strohm, Boiler and Furnace Testing, US Fuel Administration Bulletin 1, 1918, the complete trial: 10 h; coal
 * 5,000 lb at 13,500 Btu/lb; water 35,000 lb; feed 180 °F; 100 psig: 7 lb/lb, factor 1.0727, 7.509 from and at
 * 212 °F, efficiency 0.54 (two digits). Factor 0.2 %, its steam table against IF97.
 */
const strohm: Trial = {
  number: 0,
  hours: 10,
  psig: 100,
  feedFahrenheit: 180,
  dryCoalLb: 5000,
  evaporatedLbPerH: 3500,
  btuPerLb: 13_500,
  factor: 1.0727,
  equivalentLbPerLb: 7.509,
  efficiencyPercent: 54,
};

/** Kell (1975), J. Chem. Eng. Data 20, 97: density of water at 1 atm, g/ml, 0-150 °C, good to 1e-5. */
function densityOfWater(c: number): number {
  const above =
    999.839_52 +
    16.945_176 * c -
    7.987_040_1e-3 * c ** 2 -
    46.170_461e-6 * c ** 3 +
    105.563_02e-9 * c ** 4 -
    280.542_53e-12 * c ** 5;
  return above / (1 + 16.879_85e-3 * c) / 1000;
}

/** The trial as a logbook: a boiler known by table and held at one level, fed hour by hour, fired at the start. */
function logbookOf(trial: Trial) {
  const hourS = 3600;
  const feedC = (trial.feedFahrenheit - 32) / 1.8;
  const mlAnHour = (trial.evaporatedLbPerH * G_PER_LB) / densityOfWater(feedC);
  const endS = trial.hours * hourS;
  const barG = trial.psig * BAR_PER_PSI;
  return {
    format: "lapwater-logbook",
    version: 1,
    services: [],
    locomotives: [
      {
        id: "boiler",
        name: `Trial ${trial.number}`,
        workingPressureBarG: barG,
        boiler: {
          shape: { kind: "table", totalMl: 20e6, points: [{ levelMm: 100, waterMl: 10e6 }] },
          lowestLevelMm: 50,
          highestLevelMm: 150,
          metalMassG: 5e6,
          metal: "steel",
        },
        fuel: { kind: "coal", lowerHeatingValueMJPerKg: trial.btuPerLb * MJ_PER_KG_PER_BTU_PER_LB },
        fittings: [],
      },
    ],
    steamings: [
      {
        id: "trial",
        locomotiveId: "boiler",
        purpose: "trial",
        startedAt: "1915-06-01T08:00:00+00:00",
        conditions: { ambientC: 20, feedC },
        entries: [
          { kind: "fire", state: "lit", atS: 0 },
          { kind: "pressure", barG, atS: 0 },
          { kind: "level", mm: 100, atS: 0 },
          { kind: "fuel", action: "added", g: trial.dryCoalLb * G_PER_LB, atS: 1 },
          ...Array.from({ length: trial.hours }, (_, hour) => ({
            kind: "feed",
            by: "injector",
            ml: mlAnHour,
            atS: (hour + 0.5) * hourS,
          })),
          { kind: "pressure", barG, atS: endS },
          { kind: "level", mm: 100, atS: endS },
          { kind: "fire", state: "out", atS: endS },
        ],
      },
    ],
  };
}

function heatOf(trial: Trial) {
  const checked = checkLogbook(logbookOf(trial));
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  const [locomotive] = checked.value.locomotives;
  const [steaming] = checked.value.steamings;
  if (locomotive === undefined || steaming === undefined) throw new Error("the logbook lost its trial");
  const { heat } = reportOf(analyse(locomotive, steaming));
  return {
    ratio: figureValue(heat?.evaporationRatio),
    factor: figureValue(heat?.factorOfEvaporation),
    equivalent: figureValue(heat?.equivalentEvaporation),
    efficiency: figureValue(heat?.efficiency),
  };
}

describe("printed boiler trials, written as logbooks and reported", () => {
  test.each(trials)(
    "Table 59, trial $number: factor, equivalent evaporation and efficiency as printed",
    (trial) => {
      const heat = heatOf(trial);
      expect(relativeError(heat.factor, trial.factor)).toBeLessThan(tolerance.factor);
      expect(relativeError(heat.equivalent, trial.equivalentLbPerLb)).toBeLessThan(tolerance.equivalent);
      expect(relativeError(heat.efficiency, trial.efficiencyPercent / 100)).toBeLessThan(
        tolerance.efficiency,
      );
    },
  );

  test("Table 59, trial 6 gives the 7.54 lb/lb that its own figures make, not the 9.57 it prints", () => {
    const { equivalent } = heatOf(questionable);
    expect(relativeError(equivalent, 7.54)).toBeLessThan(tolerance.equivalent);
  });

  test("Strohm's complete trial: 7 lb/lb, factor, from and at 212 °F, efficiency", () => {
    const heat = heatOf(strohm);
    expect(relativeError(heat.ratio, 7)).toBeLessThan(0.0005);
    expect(relativeError(heat.factor, strohm.factor)).toBeLessThan(0.002);
    expect(relativeError(heat.equivalent, strohm.equivalentLbPerLb)).toBeLessThan(0.002);
    expect(Math.abs(heat.efficiency - 0.54)).toBeLessThan(0.005);
  });
});
