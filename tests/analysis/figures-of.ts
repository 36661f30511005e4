import type { Analysis } from "../../src/analysis/analyse.ts";
import type { Figure } from "../../src/quantity/measured.ts";

/** Figures of a steaming that its readings tell, by name. */
export const figuresOf = (analysis: Analysis): Record<string, Figure | undefined> => ({
  ...Object.fromEntries(analysis.phases.map((phase) => [phase.name, phase.steamingRate])),
  drawn: analysis.totals?.waterDrawn,
  feed: analysis.totals?.feed,
  "fuel burnt": analysis.totals?.fuelBurnt,
  "a lap": analysis.perLap?.water,
  "fuel a lap": analysis.perLap?.fuel,
  "100 m": analysis.per100m?.water,
  "a minute": analysis.perMinuteRunning?.water,
  power: analysis.raising?.power,
  efficiency: analysis.heat?.efficiency,
  "evaporation ratio": analysis.heat?.evaporationRatio,
  "from and at 100 °C": analysis.heat?.equivalentEvaporation,
  loss: analysis.cooling?.lossAtWorkingPressure,
  "leak shut in": analysis.cooling?.leak,
  lift: analysis.safetyValve?.lift,
  reseat: analysis.safetyValve?.reseat,
  highest: analysis.safetyValve?.highest,
  rise: analysis.safetyValve?.rise,
  pump: analysis.pump?.perRevolution,
  "pump's efficiency": analysis.pump?.volumetricEfficiency,
  missing: analysis.engine?.missingQuantity,
  "dry demand": analysis.engine?.dryDemand,
  "overall efficiency": analysis.engine?.overallEfficiency,
  ...Object.fromEntries(
    (analysis.leaks ?? []).map((leak) => [`drip ${leak.fitting} ${leak.atS}`, leak.rate]),
  ),
});
