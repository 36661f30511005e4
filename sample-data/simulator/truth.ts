import type { Entry } from "../../src/logbook/entry.ts";
import { saturationTemperatureK } from "../../src/steam/saturation.ts";
import { waterM3AtGlassMm } from "./glass.ts";
import { lapTimesS } from "./laps.ts";
import type { PhaseName } from "./ledger.ts";
import { curveAt } from "./ledger.ts";
import { surfaceLossW } from "./loss.ts";
import { coldWaterAt, saturationAt } from "./steam-table.ts";
import { loggerBias } from "./trace.ts";
import { trueEngine, truePump, trueRaising } from "./truth-engine.ts";
import { trueDrips } from "./truth-fittings.ts";
import type { TruePhase, Truth } from "./truth-types.ts";
import { heatBetween, phaseBetween } from "./truth-windows.ts";
import type { Watch } from "./watch.ts";

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
    raising: trueRaising(watch, highestBarG),
    heat: heatBetween(base, day.lowerHeatingJPerKg, ...fireWindow(entries, endS)),
    lossAtWorkingPressureW: surfaceLossW(day.loss, workingK, day.airK),
    shutInLeakGPerMin: nature.leaks
      .filter((leak) => leak.side !== "chest")
      .reduce((sum, leak) => sum + leak.gPerMinAtWorkingPressure, 0),
    leaks: [...nature.leaks],
    drips: trueDrips(watch, entries),
    pump: truePump(watch),
    safetyValve: {
      liftBarG: nature.safetyValve.liftBarG,
      reseatBarG: nature.safetyValve.reseatBarG,
      lifts: ledger.happenings.filter((h) => h.kind === "valve" && h.state === "lifts").length,
      highestBarG,
      rise: (highestBarG - workingBarG) / workingBarG,
    },
    engine: trueEngine(watch),
    runningS: curves.regulatorOpenS.at(-1) ?? 0,
    lowestLevelAtS: lowestLevelAtS(watch),
    aboveLowestG: aboveLowestG(watch, Math.min(endS, entries.at(-1)?.atS ?? endS)),
    feedScale: day.faults.feedScale,
    dialBiasBar: day.dialBiasBar,
    ...loggerBiases(watch),
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

function lowestLevelAtS(watch: Watch): number | null {
  const { lowestLevelMm } = watch.day.locomotive.boiler;
  for (let s = 0; s <= watch.ledger.endS; s += 1) if (watch.levelMm(s) <= lowestLevelMm) return s;
  return null;
}

/** Water goes and steam takes its room, at the temperature of the moment. */
export function aboveLowestG(watch: Watch, atS: number): number {
  const { geometry, locomotive, vessel } = watch.day;
  const kelvin = watch.at("temperatureC", atS) + 273.15;
  const { boiler } = locomotive;
  const lowestM3 = waterM3AtGlassMm(boiler, geometry, boiler.lowestLevelMm, kelvin);
  const { waterM3PerKg, steamM3PerKg } = saturationAt(kelvin);
  const kgPerM3 =
    kelvin < vessel.boilingK ? 1 / coldWaterAt(kelvin).volumeM3PerKg : 1 / waterM3PerKg - 1 / steamM3PerKg;
  return 1000 * (watch.at("waterM3", atS) - lowestM3) * kgPerM3;
}

/** Of loggers with a sender of their own. */
function loggerBiases(watch: Watch): Pick<Truth, "loggerBias"> {
  const own = watch.habits.traces.filter(({ biasU, bias }) => (biasU ?? bias) !== undefined);
  if (own.length === 0) return {};
  return { loggerBias: Object.fromEntries(own.map((habit) => [habit.channel, loggerBias(watch, habit)])) };
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
