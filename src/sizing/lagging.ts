import { ICE_POINT_K, PA_PER_BAR, STANDARD_ATMOSPHERE_PA } from "../analysis/state/circumstances.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import type { Reported } from "../quantity/reported.ts";
import { waterState } from "../steam/region1.ts";
import { saturatedSteam, saturationTemperatureK } from "../steam/saturation.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import { type BuildUp, checkedMm } from "./build-up.ts";
import { laggedLossWPerM, surfaceLossWPerM } from "./free-convection.ts";
import { bareEmissivity, cleadingSurfaces, USUAL_CONDUCTIVITY_W_PER_M_K } from "./lagging-coefficients.ts";
import { type Layout, usableMl, withBuildUp } from "./layout.ts";
import type { Plan } from "./plan-schema.ts";
import type { RunFigures } from "./run-figures.ts";

const USUAL_AIR_C = 15;
const STEP_MM = 0.25;
const THICKEST_MM = 4;
const NORMAL_95 = 1.959964;

export interface LaggingPoint {
  laggingMm: number;
  lossW: number;
  /** water that this loss would boil away in the planned run, ml; null where its minutes are not known */
  waterMl: number | null;
  /** water that the tanks hold less than without any lagging, ml; null where no tank stands beside the boiler */
  tankMl: number | null;
}

export interface LaggingWorth {
  /** the bare boiler, without cleading; water as of a point */
  bareW: number;
  bareWaterMl: number | null;
  laggedW: number;
  /** 95 % range of every loss and saving here, as parts of it; null where no cooling was measured */
  range95: { low: number; high: number } | null;
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
  emissivity: { cleading: number; bare: number };
}

/** Loss of the bare barrel, W. */
const bareLossW = ({ up, lengthM, boilerK, airK, emissivity }: Surroundings): number =>
  lengthM * surfaceLossWPerM((up.boilerRadiusMm ?? 0) / 1000, boilerK, airK, emissivity.bare);

/**
 * Loss through the barrel with so much lagging under cleading, W. Painted cleading gives off more than bare copper, so
 * with next to nothing under it the loss is above that of the bare barrel. With neither there is but the barrel.
 */
function barrelLossW(at: Surroundings, laggingMm: number): number {
  if (laggingMm === 0 && at.up.cleadingMm === 0) return bareLossW(at);
  const radiusM = (at.up.boilerRadiusMm ?? 0) / 1000;
  const overLaggingM = radiusM + laggingMm / 1000;
  const perM = laggedLossWPerM({
    radiusM,
    overLaggingM,
    outsideM: overLaggingM + at.up.cleadingMm / 1000,
    hotK: at.boilerK,
    airK: at.airK,
    conductivityWPerMK: at.conductivity,
    emissivity: at.emissivity.cleading,
  });
  return at.lengthM * perM;
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
  const pressurePa = locomotive.workingPressureBarG * PA_PER_BAR + STANDARD_ATMOSPHERE_PA;
  const asked = plan.tanks?.lagging;
  const surface = asked?.cleadingSurface ?? "painted";
  const airK = (asked?.ambientC ?? USUAL_AIR_C) + ICE_POINT_K;
  const surroundings: Surroundings = {
    up: buildUp,
    lengthM: (shape.kind === "horizontal" ? shape.innerLengthMm : shape.innerHeightMm) / 1000,
    boilerK: saturationTemperatureK(pressurePa),
    airK,
    conductivity: asked?.conductivityWPerMK ?? USUAL_CONDUCTIVITY_W_PER_M_K,
    emissivity: {
      cleading: cleadingSurfaces[surface].emissivity,
      bare: bareEmissivity[locomotive.boiler.metal],
    },
  };
  const measuredMm = asked?.measuredWith === undefined ? 0 : checkedMm(asked.measuredWith, layout.scale);
  const own = ownLoss(runs);
  const asMeasured = measuredMm === 0 ? bareLossW(surroundings) : barrelLossW(surroundings, measuredMm);
  const factor = own === null ? 1 : own.value / asMeasured;
  const lossW = (laggingMm: number) => factor * barrelLossW(surroundings, laggingMm);
  // the feed is as cold as the air, but never ice
  const feedK = Math.max(airK, ICE_POINT_K);
  const perGram = (saturatedSteam(pressurePa).enthalpyJPerKg - waterState(feedK, 2e5).enthalpyJPerKg) / 1000;
  const mlPerMinute = (watts: number) => (watts * 60) / perGram / WATER_G_PER_ML;
  const beside = layout.tanks.some(({ kind }) => kind === "side-pair");
  const room = (laggingMm: number) => usableMl(withBuildUp(layout, { laggingMm }));
  const now = buildUp.laggingMm;
  const saved = lossW(now) - lossW(now + 0.5);
  const most = room(0);
  const bareW = factor * bareLossW(surroundings);
  const boiledAway = (watts: number) =>
    plannedMinutes === null ? null : mlPerMinute(watts) * plannedMinutes;
  return {
    bareW,
    bareWaterMl: boiledAway(bareW),
    laggedW: lossW(now),
    range95:
      own === null
        ? null
        : {
            low: Math.max(0, 1 - (NORMAL_95 * own.u) / own.value),
            high: 1 + (NORMAL_95 * own.u) / own.value,
          },
    halfMm: {
      watts: saved,
      mlPerMinute: mlPerMinute(saved),
      tankWidthMm: 0.5,
      tankMl: beside ? room(now) - room(now + 0.5) : null,
    },
    source:
      own === null
        ? `the barrel alone, its ends and fittings left out: Churchill & Chu 1975 with radiation, handbook coefficients, lagging of ${surroundings.conductivity} W/m/K under ${cleadingSurfaces[surface].words} cleading`
        : `the engine's own cooling, ${own.value.toFixed(0)} W (${own.u.toFixed(0)} W standard uncertainty) measured in ${own.runs} ${own.runs === 1 ? "steaming" : "steamings"} ${asked?.measuredWith === undefined ? "and taken as bare, as it is not said what lagging was on" : measuredMm === 0 ? "bare" : `with ${measuredMm} mm of lagging`}, other thicknesses in proportion by Churchill & Chu 1975 as if all of it went through the barrel`,
    points: Array.from({ length: THICKEST_MM / STEP_MM + 1 }, (_, i) => {
      const laggingMm = i * STEP_MM;
      return {
        laggingMm,
        lossW: lossW(laggingMm),
        waterMl: boiledAway(lossW(laggingMm)),
        tankMl: beside ? most - room(laggingMm) : null,
      };
    }),
  };
}

/**
 * Mean loss at working pressure that the engine's steamings measured. Their errors may be the same one (dial, heat capacity),
 * so more steamings do not make it smaller; how far they stray from each other comes on top.
 */
function ownLoss(runs: readonly RunFigures[]): { value: number; u: number; runs: number } | null {
  const told = runs.flatMap(({ coolingLoss }: { coolingLoss: Reported }) =>
    coolingLoss.value === null || coolingLoss.value <= 0 ? [] : [coolingLoss],
  );
  if (told.length === 0) return null;
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  const value = mean(told.map((loss) => loss.value));
  const squares = told.reduce((sum, loss) => sum + (loss.value - value) ** 2, 0);
  const strayOfMean = told.length === 1 ? 0 : Math.sqrt(squares / (told.length - 1) / told.length);
  return { value, u: Math.hypot(mean(told.map((loss) => loss.u)), strayOfMean), runs: told.length };
}
