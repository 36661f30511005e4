import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { reportSchema } from "../../src/analysis/report-schema.ts";
import { absent, exact } from "../../src/quantity/measured.ts";
import { smallEngine, smallSteaming, untouched } from "../support/small-logbook.ts";

const shown = (value: number) => ({ value, u: 0, lo95: value, hi95: value, unit: "1" });
const figure = (value: number) => exact(value, "1");
const steaming = smallSteaming();
const nothing = {
  sources: { locomotive: smallEngine(), steaming },
  ...untouched,
};
const report = (told: object) => reportOf({ ...nothing, ...told } as unknown as Analysis);

describe("the report of the contract", () => {
  test("of a log that tells nothing is null, section by section", () => {
    const { sources: _, ...sections } = nothing;
    expect(report({})).toEqual({
      format: "lapwater-report",
      version: 1,
      steamingId: "small-run",
      locomotiveId: "small",
      ...sections,
    });
  });

  test("has every figure under its own name, and counts and times as they are", () => {
    const phase = { name: "running", fromS: 0, toS: 60, inferred: true, laps: 2, meanPressureBarG: 2.5 };
    const totals = { fromS: 1, toS: 59, laps: 2, distanceM: 40, inSteamS: 60, runningS: 60 };
    const drip = { fitting: "left-gland", atS: 50 };
    const warning = { code: "a", text: "Look.", entries: ["one"] };
    const made = report({
      phases: [{ ...phase, steamingRate: figure(1) }],
      totals: { ...totals, waterDrawn: figure(2), feed: figure(3), fuelBurnt: absent("nobody looked") },
      perLap: { water: figure(5), fuel: figure(6) },
      per100m: { water: figure(7) },
      perMinuteRunning: { water: figure(8) },
      raising: { toFirstSteamS: 9, toWorkingPressureS: 10, power: figure(11) },
      heat: {
        efficiency: figure(12),
        evaporationRatio: figure(13),
        factorOfEvaporation: figure(14),
        equivalentEvaporation: figure(15),
      },
      cooling: { lossAtWorkingPressure: figure(16), leak: figure(17) },
      coldHold: { compliance: figure(18), leak: figure(19), temperatureCouldExplain: true },
      safetyValve: { lift: figure(20), reseat: figure(21), highest: figure(22), rise: figure(23) },
      pump: { perRevolution: figure(24), volumetricEfficiency: figure(25), keepsUp: false },
      engine: { dryDemand: figure(26), missingQuantity: figure(27), overallEfficiency: figure(28) },
      leaks: [{ ...drip, rate: figure(29), equivalentHole: figure(30) }],
      forecast: {
        atS: 31,
        waterAboveLowest: figure(32),
        minutesToLowest: figure(33),
        lapsToLowest: figure(34),
      },
      warnings: [warning],
    });
    expect(made).toEqual({
      format: "lapwater-report",
      version: 1,
      steamingId: "small-run",
      locomotiveId: "small",
      phases: [{ ...phase, steamingRate: shown(1) }],
      totals: {
        ...totals,
        waterDrawn: shown(2),
        feed: shown(3),
        fuelBurnt: { value: null, why: "nobody looked" },
      },
      perLap: { water: shown(5), fuel: shown(6) },
      per100m: { water: shown(7) },
      perMinuteRunning: { water: shown(8) },
      raising: { toFirstSteamS: 9, toWorkingPressureS: 10, power: shown(11) },
      heat: {
        efficiency: shown(12),
        evaporationRatio: shown(13),
        factorOfEvaporation: shown(14),
        equivalentEvaporation: shown(15),
      },
      cooling: { lossAtWorkingPressure: shown(16), leak: shown(17) },
      coldHold: { compliance: shown(18), leak: shown(19), temperatureCouldExplain: true },
      safetyValve: { lift: shown(20), reseat: shown(21), highest: shown(22), rise: shown(23) },
      pump: { perRevolution: shown(24), volumetricEfficiency: shown(25), keepsUp: false },
      engine: { dryDemand: shown(26), missingQuantity: shown(27), overallEfficiency: shown(28) },
      leaks: [{ ...drip, rate: shown(29), equivalentHole: shown(30) }],
      forecast: {
        atS: 31,
        waterAboveLowest: shown(32),
        minutesToLowest: shown(33),
        lapsToLowest: shown(34),
      },
      warnings: [warning],
    });
    expect(() => reportSchema.parse(made)).not.toThrow();
  });
});
