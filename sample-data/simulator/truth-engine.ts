import { pumpM3PerRevolution } from "./feed.ts";
import type { Truth } from "./truth-types.ts";
import { risePowerW } from "./truth-windows.ts";
import type { Watch } from "./watch.ts";

/** Steam is first seen when the pointer leaves its pin. */
const FIRST_STEAM_BAR = 0.05;

export function trueRaising(watch: Watch, highestBarG: number): Truth["raising"] {
  const { curves, happenings } = watch.ledger;
  const litAtS = happenings.find((h) => h.kind === "fire" && h.state === "lit")?.atS ?? 0;
  const first = (barG: number) => {
    const index = curves.pressureBarG.findIndex((each) => each >= barG);
    return index < 0 ? null : index;
  };
  const workingPressureAtS = first(watch.day.locomotive.workingPressureBarG);
  const toS = workingPressureAtS ?? curves.pressureBarG.indexOf(highestBarG);
  return {
    litAtS,
    firstSteamAtS: first(FIRST_STEAM_BAR),
    workingPressureAtS,
    toS,
    powerW: risePowerW(watch.ledger, litAtS, toS),
  };
}

export function truePump(watch: Watch): Truth["pump"] {
  const { axlePump } = watch.day.locomotive;
  if (axlePump === undefined) return null;
  const efficiency = watch.plan.engine.nature.pumpEfficiency;
  return {
    mlPerRevolution: pumpM3PerRevolution(axlePump, efficiency) * 1e6,
    volumetricEfficiency: efficiency,
    revolutions: watch.ledger.curves.pumpRevolutions.at(-1) ?? 0,
  };
}

export function trueEngine(watch: Watch): Truth["engine"] {
  const { curves } = watch.ledger;
  const revolutions = curves.revolutions.at(-1) ?? 0;
  if (revolutions === 0) return null;
  const drawnG = curves.engineG.at(-1) ?? 0;
  const dryG = curves.dryG.at(-1) ?? 0;
  return {
    dryDemandGPerRev: dryG / revolutions,
    drawnG,
    missingQuantity: (drawnG - dryG) / drawnG,
    workJ: curves.workJ.at(-1) ?? 0,
    revolutions,
  };
}
