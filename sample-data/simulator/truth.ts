import type { Entry } from "../../src/logbook/entry.ts";
import { saturationTemperatureK } from "../../src/steam/saturation.ts";
import { pumpM3PerRevolution } from "./feed.ts";
import { lapTimesS } from "./laps.ts";
import { chokedShare } from "./leaks.ts";
import { curveAt } from "./ledger.ts";
import { surfaceLossW } from "./loss.ts";
import type { PhaseName, TruePhase, Truth } from "./truth-types.ts";
import { heatBetween, phaseBetween } from "./truth-windows.ts";
import type { Watch } from "./watch.ts";

/** Steam is first seen when the pointer leaves its pin. */
const FIRST_STEAM_BAR = 0.05;

/** The truth of a steaming, for judging what is made of its entries. */
export function truthOf(watch: Watch, seed: number, entries: readonly Entry[]): Truth {
  const { day, ledger, plan } = watch;
  const { curves, endS } = ledger;
  const laps = plan.track === null ? [] : lapTimesS(curves.distanceM, plan.track.lapM);
  const base = { curves, lapTimesS: laps };
  const { nature } = plan.engine;
  const workingK = saturationTemperatureK(day.workingPa);
  const highestBarG = curves.pressureBarG.reduce((most, barG) => Math.max(most, barG), 0);
  const workingBarG = day.locomotive.workingPressureBarG;
  return {
    seed,
    endS,
    phases: truePhases(watch, base),
    markedPhases: markedPhases(entries, base),
    ...base,
    raising: raising(watch, highestBarG),
    heat: heatBetween(base, day.lowerHeatingJPerKg, ...fireWindow(entries, endS)),
    lossAtWorkingPressureW: surfaceLossW(day.loss, workingK, day.airK),
    shutInLeakGPerMin: nature.leaks
      .filter((leak) => leak.side !== "chest")
      .reduce((sum, leak) => sum + leak.gPerMinAtWorkingPressure, 0),
    leaks: [...nature.leaks],
    drips: drips(watch, entries),
    pump: pump(watch),
    safetyValve: {
      liftBarG: nature.safetyValve.liftBarG,
      reseatBarG: nature.safetyValve.reseatBarG,
      lifts: ledger.happenings.filter((h) => h.kind === "valve" && h.state === "lifts").length,
      highestBarG,
      rise: (highestBarG - workingBarG) / workingBarG,
    },
    engine: engine(watch),
    runningS: curves.regulatorOpenS.at(-1) ?? 0,
    lowestLevelAtS: lowestLevelAtS(watch),
    feedScale: day.faults.feedScale,
    dialBiasBar: day.dialBiasBar,
    residuals: residuals(watch),
  };
}

function truePhases(watch: Watch, base: Pick<Truth, "curves" | "lapTimesS">): TruePhase[] {
  const stages = watch.ledger.happenings.filter((h) => h.kind === "stage");
  return stages.map(({ name, atS }, index) =>
    phaseBetween(base, name, atS, stages[index + 1]?.atS ?? watch.ledger.endS),
  );
}

function markedPhases(entries: readonly Entry[], base: Pick<Truth, "curves" | "lapTimesS">): TruePhase[] {
  const marks: { name: PhaseName; atS: number }[] = entries.filter((entry) => entry.kind === "phase");
  const lastS = entries.at(-1)?.atS ?? 0;
  return marks.map(({ name, atS }, index) => phaseBetween(base, name, atS, marks[index + 1]?.atS ?? lastS));
}

/** From fire lit to fire out as written, else to the last entry. */
function fireWindow(entries: readonly Entry[], endS: number): [number, number] {
  const fires = entries.filter((entry) => entry.kind === "fire");
  const lit = fires.find((fire) => fire.state === "lit")?.atS ?? 0;
  const out = fires.findLast((fire) => fire.state === "out")?.atS ?? entries.at(-1)?.atS ?? endS;
  return [lit, out];
}

function raising(watch: Watch, highestBarG: number): Truth["raising"] {
  const { curves, happenings } = watch.ledger;
  const litAtS = happenings.find((h) => h.kind === "fire" && h.state === "lit")?.atS ?? 0;
  const first = (barG: number) => {
    const index = curves.pressureBarG.findIndex((each) => each >= barG);
    return index < 0 ? null : index;
  };
  const workingPressureAtS = first(watch.day.locomotive.workingPressureBarG);
  const toS = workingPressureAtS ?? curves.pressureBarG.indexOf(highestBarG);
  const risenJ = curveAt(curves.storedJ, toS) - curveAt(curves.storedJ, litAtS);
  return {
    litAtS,
    firstSteamAtS: first(FIRST_STEAM_BAR),
    workingPressureAtS,
    powerW: risenJ / (toS - litAtS),
  };
}

function drips(watch: Watch, entries: readonly Entry[]): Truth["drips"] {
  const { curves, leakedG } = watch.ledger;
  const { atmospherePa, workingPa } = watch.day;
  return entries.flatMap((entry) => {
    if (entry.kind !== "drip") return [];
    const leak = watch.plan.engine.nature.leaks.find((each) => each.fitting === entry.fitting);
    const leaked = leakedG[entry.fitting];
    const fromS = Math.max(0, entry.atS - entry.overS);
    const g = leaked === undefined ? 0 : curveAt(leaked, entry.atS) - curveAt(leaked, fromS);
    const pressures = curves.pressureBarG.slice(Math.round(fromS), Math.round(entry.atS) + 1);
    const meanPa =
      (pressures.reduce((sum, barG) => sum + barG, 0) / Math.max(1, pressures.length)) * 1e5 + atmospherePa;
    const share =
      leak?.side === "water"
        ? Math.sqrt((workingPa - atmospherePa) / (meanPa - atmospherePa))
        : (workingPa * chokedShare(workingPa, atmospherePa)) / (meanPa * chokedShare(meanPa, atmospherePa));
    return [
      { fitting: entry.fitting, atS: entry.atS, g, gPerMinAtWorkingPressure: (g * 60 * share) / entry.overS },
    ];
  });
}

function pump(watch: Watch): Truth["pump"] {
  const { axlePump } = watch.day.locomotive;
  if (axlePump === undefined) return null;
  const efficiency = watch.plan.engine.nature.pumpEfficiency;
  return {
    mlPerRevolution: pumpM3PerRevolution(axlePump, efficiency) * 1e6,
    volumetricEfficiency: efficiency,
    revolutions: watch.ledger.curves.pumpRevolutions.at(-1) ?? 0,
  };
}

function engine(watch: Watch): Truth["engine"] {
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

function lowestLevelAtS(watch: Watch): number | null {
  const { lowestLevelMm } = watch.day.locomotive.boiler;
  for (let s = 0; s <= watch.ledger.endS; s += 1) if (watch.levelMm(s) <= lowestLevelMm) return s;
  return null;
}

/** Books: start + in - out - end, over the largest of what went through and what was there. */
function residuals(watch: Watch): Truth["residuals"] {
  const { curves } = watch.ledger;
  const last = watch.ledger.endS;
  const change = (name: keyof typeof curves) => curveAt(curves[name], last) - curveAt(curves[name], 0);
  const mass = change("fedG") - change("drawnG") - change("massG");
  const energy =
    change("fireJ") + change("broughtJ") - change("lossJ") - change("carriedOffJ") - change("storedJ");
  return {
    mass: mass / Math.max(change("fedG"), change("drawnG"), curveAt(curves.massG, 0)),
    energy: energy / Math.max(change("fireJ"), curveAt(curves.storedJ, 0)),
  };
}
