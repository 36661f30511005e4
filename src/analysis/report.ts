import { reported } from "../quantity/reported.ts";
import type { Analysis } from "./analyse.ts";
import type { Report } from "./report-schema.ts";

/** The report of the contract from an analysis. */
export function reportOf(analysis: Analysis): Report {
  const { totals, perLap, per100m, perMinuteRunning, raising, heat, forecast, pump, engine } = analysis;
  const { locomotive, steaming } = analysis.sources;
  return {
    format: "lapwater-report",
    version: 1,
    steamingId: steaming.id,
    locomotiveId: locomotive.id,
    phases: analysis.phases.map((phase) => ({ ...phase, steamingRate: reported(phase.steamingRate) })),
    totals: totals && {
      ...totals,
      waterDrawn: reported(totals.waterDrawn),
      feed: reported(totals.feed),
      fuelBurnt: reported(totals.fuelBurnt),
    },
    perLap: perLap && { water: reported(perLap.water), fuel: reported(perLap.fuel) },
    per100m: per100m && { water: reported(per100m.water) },
    perMinuteRunning: perMinuteRunning && { water: reported(perMinuteRunning.water) },
    raising: raising && {
      toFirstSteamS: raising.toFirstSteamS,
      toWorkingPressureS: raising.toWorkingPressureS,
      power: reported(raising.power),
    },
    heat: heat && {
      efficiency: reported(heat.efficiency),
      evaporationRatio: reported(heat.evaporationRatio),
      factorOfEvaporation: reported(heat.factorOfEvaporation),
      equivalentEvaporation: reported(heat.equivalentEvaporation),
    },
    cooling: analysis.cooling && {
      lossAtWorkingPressure: reported(analysis.cooling.lossAtWorkingPressure),
      leak: reported(analysis.cooling.leak),
    },
    coldHold: analysis.coldHold && {
      compliance: reported(analysis.coldHold.compliance),
      leak: reported(analysis.coldHold.leak),
      temperatureCouldExplain: analysis.coldHold.temperatureCouldExplain,
    },
    safetyValve: analysis.safetyValve && {
      lift: reported(analysis.safetyValve.lift),
      reseat: reported(analysis.safetyValve.reseat),
      highest: reported(analysis.safetyValve.highest),
      rise: reported(analysis.safetyValve.rise),
    },
    pump: pump && {
      perRevolution: reported(pump.perRevolution),
      volumetricEfficiency: reported(pump.volumetricEfficiency),
      keepsUp: pump.keepsUp,
    },
    engine: engine && {
      dryDemand: reported(engine.dryDemand),
      missingQuantity: reported(engine.missingQuantity),
      overallEfficiency: reported(engine.overallEfficiency),
    },
    leaks:
      analysis.leaks?.map((drip) => ({
        ...drip,
        rate: reported(drip.rate),
        equivalentHole: reported(drip.equivalentHole),
      })) ?? null,
    forecast: forecast && {
      atS: forecast.atS,
      waterAboveLowest: reported(forecast.waterAboveLowest),
      minutesToLowest: reported(forecast.minutesToLowest),
      lapsToLowest: reported(forecast.lapsToLowest),
    },
    warnings: [...analysis.warnings],
  };
}
