import type { Locomotive } from "../logbook/locomotive.ts";
import type { Reported } from "../quantity/reported.ts";
import type { Plan } from "./plan-schema.ts";
import type { Sizing } from "./sizing-schema.ts";

const said = (figure: Reported, decimals = 0): string => {
  if (figure.value === null) return `not to be had: ${figure.why}`;
  const range =
    figure.hi95 > figure.lo95
      ? ` (${figure.lo95.toFixed(decimals)} to ${figure.hi95.toFixed(decimals)})`
      : "";
  return `${figure.value.toFixed(decimals)}${range} ${figure.unit === "1" ? "" : figure.unit}`.trim();
};
const row = (name: string, what: string): string => `${name.padEnd(34)}${what}`;
const perCent = (value: number | null): string =>
  value === null ? "not to be had" : `${(100 * value).toFixed(0)} %`;

/** A sizing to read. */
export function sizingText(locomotive: Locomotive, plan: Plan, sizing: Sizing): string {
  const { fit, endurance, fuel, lagging, feeding } = sizing;
  const { laps, minutes, distanceM } = plan.plan;
  const length =
    laps !== undefined ? `${laps} laps` : minutes !== undefined ? `${minutes} minutes` : `${distanceM} m`;
  return [
    `Tank bench: ${locomotive.name}, ${length}`,
    "",
    row("Water expected", said(sizing.demand)),
    row(`Suffices ${(100 * sizing.probability).toFixed(0)} times in 100`, said(sizing.bound)),
    row("Tank needed", said(sizing.needed)),
    ...sizing.withMoreRuns.map(({ moreRuns, boundMl }) =>
      row(
        `  bound with ${moreRuns} more ${moreRuns === 1 ? "run" : "runs"}`,
        `about ${boundMl.toFixed(0)} ml`,
      ),
    ),
    "",
    ...sizing.tanks.map((tank) => row(tank.name, `${said(tank.usable)} to use of ${said(tank.holds)}`)),
    ...(fit === null
      ? []
      : [
          row("Tanks", fit.short === null ? "hold enough" : fit.short.words),
          ...(fit.solved?.mm === null || fit.solved === null
            ? []
            : [row(`${fit.solved.tank}: ${fit.solved.dimension}`, `${fit.solved.mm.toFixed(1)} mm`)]),
          ...fit.sensitivity.map(({ dimension, mlPerMm }) =>
            row(`  1 mm more ${dimension}`, `${mlPerMm > 0 ? "+" : ""}${mlPerMm.toFixed(2)} ml`),
          ),
        ]),
    "",
    row("Fuel that suffices", said(fuel.bound)),
    row("Fuel tank for it", said(fuel.tankMl)),
    row("Water lasts", said(endurance.waterLasts, 1)),
    row("Fuel lasts", said(endurance.fuelLasts, 1)),
    row("Fuel ends before the water", perCent(endurance.fuelEndsFirst)),
    row("Hand pump, lowest to highest level", `${said(feeding.handPumpStrokes.lowestToHighest)} strokes`),
    row("Axle pump, back through the by-pass", said(feeding.axlePump.returned, 1)),
    ...(lagging === null
      ? []
      : [row("Heat lost, lagged / bare", `${lagging.laggedW.toFixed(1)} / ${lagging.bareW.toFixed(1)} W`)]),
    "",
    ...sizing.cutting.map((piece) =>
      row(
        `${piece.count} x ${piece.name}`,
        `${piece.lengthMm.toFixed(1)} x ${piece.widthMm.toFixed(1)} x ${piece.thicknessMm} mm`,
      ),
    ),
    "",
    ...sizing.warnings.map(({ text }) => `! ${text}`),
  ].join("\n");
}
