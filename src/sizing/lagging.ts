import type { Locomotive } from "../logbook/locomotive.ts";
import type { Reported } from "../quantity/reported.ts";
import { waterState } from "../steam/region1.ts";
import { saturatedSteam, saturationTemperatureK } from "../steam/saturation.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import { type BuildUp, checkedMm } from "./build-up.ts";
import { surfaceLossWPerM } from "./free-convection.ts";
import { type Layout, usableMl, withBuildUp } from "./layout.ts";
import type { Plan } from "./plan-schema.ts";
import type { RunFigures } from "./run-figures.ts";

/** Cork, felt or balsa between boiler and cleading (handbook range 0.04 to 0.06 W/m/K, from memory). */
const CONDUCTIVITY_W_PER_M_K = 0.05;
/** Emissivity of painted cleading and of dull copper (handbook tables, from memory). */
const EMISSIVITY = { cleading: 0.9, bare: 0.5 };
const ICE_POINT_K = 273.15;
const STANDARD_ATMOSPHERE_PA = 101_325;
const USUAL_AIR_C = 15;
const STEP_MM = 0.25;
const THICKEST_MM = 4;

export interface LaggingPoint {
  laggingMm: number;
  lossW: number;
  /** water that this loss would boil away in the planned run, ml; null where its minutes are not known */
  waterMl: number | null;
  /** water that the tanks hold less than without any lagging, ml; null where no tank stands beside the boiler */
  tankMl: number | null;
}

export interface LaggingWorth {
  bareW: number;
  laggedW: number;
  /** what another half millimetre saves and costs */
  halfMm: { watts: number; mlPerMinute: number; tankWidthMm: number; tankMl: number | null };
  source: string;
  points: LaggingPoint[];
}

interface Surroundings {
  up: BuildUp;
  lengthM: number;
  boilerK: number;
  airK: number;
  conductivity: number;
}

/** Loss through the barrel with so much lagging under cleading, W; 0 mm is the bare boiler. */
function barrelLossW(at: Surroundings, laggingMm: number): number {
  const radiusM = (at.up.boilerRadiusMm ?? 0) / 1000;
  if (laggingMm === 0) return at.lengthM * surfaceLossWPerM(radiusM, at.boilerK, at.airK, EMISSIVITY.bare);
  const overLaggingM = radiusM + laggingMm / 1000;
  const outsideM = overLaggingM + at.up.cleadingMm / 1000;
  const perKelvin = (2 * Math.PI * at.conductivity) / Math.log(overLaggingM / radiusM);
  let [low, high] = [at.airK, at.boilerK];
  for (let i = 0; i < 34; i++) {
    const surfaceK = (low + high) / 2;
    const through = perKelvin * (at.boilerK - surfaceK);
    if (through > surfaceLossWPerM(outsideM, surfaceK, at.airK, EMISSIVITY.cleading)) low = surfaceK;
    else high = surfaceK;
  }
  return at.lengthM * perKelvin * (at.boilerK - (low + high) / 2);
}

/**
 * Heat lost with and without lagging, and the worth of half a millimetre more of it. Where the engine's own cooling
 * was measured the whole curve is set to it; else it is the barrel's alone, by handbook coefficients.
 * @returns why it cannot be reckoned, in words
 */
export function laggingWorthOf(
  locomotive: Locomotive,
  runs: readonly RunFigures[],
  plan: Plan,
  layout: Layout,
  plannedMinutes: number | null,
): LaggingWorth | string {
  const { buildUp } = layout;
  if (buildUp.boilerRadiusMm === null) return "the boiler's outer diameter is not known";
  const { shape } = locomotive.boiler;
  if (shape.kind === "table") return "the boiler's length is not known: its shape is a table";
  const pressurePa = locomotive.workingPressureBarG * 1e5 + STANDARD_ATMOSPHERE_PA;
  const asked = plan.tanks?.lagging;
  const airK = (asked?.ambientC ?? USUAL_AIR_C) + ICE_POINT_K;
  const surroundings: Surroundings = {
    up: buildUp,
    lengthM: (shape.kind === "horizontal" ? shape.innerLengthMm : shape.innerHeightMm) / 1000,
    boilerK: saturationTemperatureK(pressurePa),
    airK,
    conductivity: asked?.conductivityWPerMK ?? CONDUCTIVITY_W_PER_M_K,
  };
  const measuredMm = asked?.measuredWith === undefined ? 0 : checkedMm(asked.measuredWith, layout.scale);
  const own = ownLoss(runs);
  const factor = own === null ? 1 : own.value / barrelLossW(surroundings, measuredMm);
  const lossW = (laggingMm: number) => factor * barrelLossW(surroundings, laggingMm);
  const perGram = (saturatedSteam(pressurePa).enthalpyJPerKg - waterState(airK, 2e5).enthalpyJPerKg) / 1000;
  const mlPerMinute = (watts: number) => (watts * 60) / perGram / WATER_G_PER_ML;
  const beside = layout.tanks.some(({ kind }) => kind === "side-pair");
  const room = (laggingMm: number) => usableMl(withBuildUp(layout, { laggingMm }));
  const now = buildUp.laggingMm;
  const saved = lossW(now) - lossW(now + 0.5);
  const most = room(0);
  return {
    bareW: lossW(0),
    laggedW: lossW(now),
    halfMm: {
      watts: saved,
      mlPerMinute: mlPerMinute(saved),
      tankWidthMm: 0.5,
      tankMl: beside ? room(now) - room(now + 0.5) : null,
    },
    source:
      own === null
        ? "barrel alone: Churchill & Chu 1975 with radiation, coefficients of lagging and surface from memory"
        : `the engine's own cooling, ${own.value.toFixed(0)} W measured in ${own.runs} ${own.runs === 1 ? "steaming" : "steamings"} with ${measuredMm} mm of lagging, other thicknesses in proportion by Churchill & Chu 1975`,
    points: Array.from({ length: THICKEST_MM / STEP_MM + 1 }, (_, i) => {
      const laggingMm = i * STEP_MM;
      return {
        laggingMm,
        lossW: lossW(laggingMm),
        waterMl: plannedMinutes === null ? null : mlPerMinute(lossW(laggingMm)) * plannedMinutes,
        tankMl: beside ? most - room(laggingMm) : null,
      };
    }),
  };
}

/** Mean loss at working pressure that the chosen steamings measured. */
function ownLoss(runs: readonly RunFigures[]): { value: number; runs: number } | null {
  const told = runs.flatMap(({ coolingLoss }: { coolingLoss: Reported }) =>
    coolingLoss.value === null || coolingLoss.value <= 0 ? [] : [coolingLoss.value],
  );
  return told.length === 0
    ? null
    : { value: told.reduce((a, b) => a + b, 0) / told.length, runs: told.length };
}
