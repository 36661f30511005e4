import { CAUTIONS } from "../analysis/words/sheet-foot.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import { printed } from "../quantity/digits.ts";
import type { Reported } from "../quantity/reported.ts";
import { inMm } from "./drawing.ts";
import { BOTTLE, NO_FEED } from "./fit.ts";
import { fitSentence } from "./fit-words.ts";
import type { Plan } from "./plan-schema.ts";
import { inHundred, ofHundred, roundedDown, roundedUp } from "./rounding.ts";
import type { Sizing } from "./sizing-schema.ts";

/** Where a figure is a need it is rounded up, where it is a capacity down. */
const limit = (figure: Reported, to: typeof roundedUp): string =>
  figure.value === null ? `not to be had: ${figure.why}` : `${to(figure.value, 0)} ${figure.unit}`;

const said = (figure: Reported, decimals = 0): string => {
  if (figure.value === null) return `not to be had: ${figure.why}`;
  const range =
    figure.hi95 > figure.lo95
      ? ` (${printed(figure.lo95, decimals)} to ${printed(figure.hi95, decimals)})`
      : "";
  return `${printed(figure.value, decimals)}${range} ${figure.unit === "1" ? "" : figure.unit}`.trim();
};
const NAME_WIDTH = 40;
const strokes = (figure: Reported): string => `${said(figure)}${figure.value === null ? "" : " strokes"}`;
const row = (name: string, what: string): string => `${name.padEnd(NAME_WIDTH)}  ${what}`;
const chance = (value: number | null, why: string | null): string =>
  value === null ? `not to be had${why === null ? "" : `: ${why}`}` : `in ${ofHundred(value)} of 100 runs`;

const watts = ({ range95 }: NonNullable<Sizing["lagging"]>, value: number): string =>
  range95 === null
    ? value.toFixed(1)
    : `${value.toFixed(1)} (${(value * range95.low).toFixed(1)} to ${(value * range95.high).toFixed(1)})`;

/** Length, width and height outside. */
function sizeOf({
  lengthMm,
  widthMm,
  heightMm,
  count,
}: Pick<Sizing["tanks"][number], "lengthMm" | "widthMm" | "heightMm" | "count">): string {
  if (lengthMm === null || widthMm === null || heightMm === null) return "";
  const size = [lengthMm, widthMm, heightMm].map(inMm).join(" x ");
  return `; ${size} mm outside${count === 2 ? ", each" : ""}`;
}

/** A sizing to read. */
export function sizingText(locomotive: Locomotive, plan: Plan, sizing: Sizing): string {
  const { fit, endurance, fuel, lagging, feeding } = sizing;
  const { laps, minutes, distanceM } = plan.plan;
  const length =
    laps !== undefined ? `${laps} laps` : minutes !== undefined ? `${minutes} minutes` : `${distanceM} m`;
  const sections = [
    [`Tank bench: ${locomotive.name}, ${length}`],
    [
      row("Water expected", said(sizing.demand)),
      row(`Suffices ${inHundred(sizing.probability)} times in 100`, limit(sizing.bound, roundedUp)),
      row(
        "Tank needed",
        feeding.underPressure
          ? limit(sizing.needed, roundedUp)
          : `none helps: ${feeding.byBottle ? BOTTLE : NO_FEED}`,
      ),
      ...sizing.withMoreRuns.map(({ moreRuns, boundMl }) =>
        row(
          `  bound with ${moreRuns} more ${moreRuns === 1 ? "run" : "runs"}`,
          `about ${roundedUp(boundMl, 0)} ml`,
        ),
      ),
    ],
    [
      ...sizing.tanks.map(({ name, usable, holds, ...tank }) =>
        row(
          name,
          usable.value === null
            ? usable.why
            : `${limit(usable, roundedDown)} to use of ${limit(holds, roundedDown)}${sizeOf(tank)}`,
        ),
      ),
      ...(fit === null
        ? []
        : [
            row("Tanks", fitSentence(fit)),
            ...fit.sensitivity.map(({ dimension, mlPerMm }) =>
              row(`  1 mm more ${dimension}`, `${mlPerMm > 0 ? "+" : ""}${printed(mlPerMm, 2)} ml`),
            ),
          ]),
    ],
    [
      row("Fuel that suffices", limit(fuel.bound, roundedUp)),
      row("Fuel tank for it", limit(fuel.tankMl, roundedUp)),
      row("Water lasts", said(endurance.waterLasts, 1)),
      row("Fuel lasts", said(endurance.fuelLasts, 1)),
      row("Fuel ends before the water", chance(endurance.fuelEndsFirst, endurance.why)),
      row("Hand pump, lowest to highest level", strokes(feeding.handPumpStrokes.lowestToHighest)),
      row("Axle pump, back through the by-pass", said(feeding.axlePump.returned, 1)),
      ...(lagging === null
        ? []
        : [
            row("Heat lost, lagged / bare", `${lagging.laggedW.toFixed(1)} / ${lagging.bareW.toFixed(1)} W`),
            row("  half a millimetre more saves", `${watts(lagging, lagging.halfMm.watts)} W`),
            `  by ${lagging.source}`,
          ]),
    ],
    sizing.cutting.map((piece) =>
      row(
        `${piece.count} x ${piece.name}`,
        piece.thicknessMm === 0
          ? `${piece.lengthMm.toFixed(1)} mm long, ${piece.widthMm.toFixed(1)} mm bore`
          : `${piece.lengthMm.toFixed(1)} x ${piece.widthMm.toFixed(1)} x ${piece.thicknessMm} mm`,
      ),
    ),
    sizing.warnings.map(({ text }) => `! ${text}`),
    CAUTIONS,
  ];
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join("\n"))
    .join("\n\n");
}
