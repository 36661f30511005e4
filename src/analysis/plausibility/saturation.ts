import { clock } from "../../quantity/clock.ts";
import { printed } from "../../quantity/digits.ts";
import type { PressurePoint } from "../pressure/pressure-points.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { ICE_POINT_K } from "../state/circumstances.ts";
import { heldCold } from "../state/held-cold.ts";
import type { Question } from "./question.ts";

/** A boiler thermometer in its pocket shows the water to about this, standard uncertainty, K (common practice). */
const THERMOMETER_K = 1.5;
/** In so many of their common standard uncertainty the two must agree. */
const BEYOND = 3;
/** The pressure must have been read within so many seconds of the temperature. */
const TOGETHER_S = 60;
/** Until then it may have strayed, the further the more: a minute's stray as a part of working pressure (our estimate). */
const STRAY = 0.08;
/** A gauge pressure up to here may stand over water that does not boil yet, bar: dials rest on a pin. */
export const NO_PRESSURE_BAR = 0.1;

export interface Pair {
  ids: readonly string[];
  atS: number;
  barG: number;
  celsius: number;
  saturationC: number;
  /** true where steam of this pressure cannot be of this temperature */
  disagrees: boolean;
}

/**
 * Whether water at this gauge pressure may have this temperature: in steam it is that of saturation, and without
 * pressure no higher than boiling.
 * @param uBar standard uncertainty of the dial
 */
export function disagreesWithSaturation(
  from: Pick<Sources, "around">,
  barG: number,
  celsius: number,
  uBar: number,
): boolean {
  const saturationC = from.around.boilingK(barG) - ICE_POINT_K;
  const uK = Math.hypot(from.around.boilingK(barG + uBar) - ICE_POINT_K - saturationC, THERMOMETER_K);
  const over = celsius - saturationC;
  return barG <= NO_PRESSURE_BAR ? over > BEYOND * uK : Math.abs(over) > BEYOND * uK;
}

/** The pressures of the log, but for those that the boiler's thermometer told itself. */
export function pointsRead({ pressure, pressures }: Sources): readonly PressurePoint[] {
  const told = new Set(pressures.all.flatMap(({ by, atS }) => (by === "thermometer" ? [atS] : [])));
  return told.size === 0 ? pressure.points : pressure.points.filter(([atS]) => !told.has(atS));
}

/** Readings of the boiler's temperature, each with the pressure at its moment. */
export function pairsOf(from: Sources): Pair[] {
  const { timeline, pressure, errors, around } = from;
  if (heldCold(from.steaming, timeline)) return [];
  const uBar = Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
  const read = pointsRead(from);
  return timeline.of("temperature").flatMap((entry): Pair[] => {
    if (entry.of !== "boiler") return [];
    const awayS = Math.min(...read.map(([atS]) => Math.abs(atS - entry.atS)));
    if (awayS > TOGETHER_S) return [];
    const barG = pressure.atS(entry.atS) as number;
    const dial = timeline.of("pressure").filter((one) => Math.abs(one.atS - entry.atS) <= TOGETHER_S);
    const near = dial.sort((a, b) => Math.abs(a.atS - entry.atS) - Math.abs(b.atS - entry.atS)).slice(0, 1);
    const strayed = STRAY * from.locomotive.workingPressureBarG * Math.sqrt(awayS / 60);
    return [
      {
        ids: [...near, entry].map(({ id }) => id),
        atS: entry.atS,
        barG,
        celsius: entry.celsius,
        saturationC: around.boilingK(barG) - ICE_POINT_K,
        disagrees: disagreesWithSaturation(from, barG, entry.celsius, Math.hypot(uBar, strayed)),
      },
    ];
  });
}

/** Whether most of the pairs in steam disagree, of which so many do. */
export const mostDisagree = (pairs: readonly Omit<Pair, "ids">[], wrong: number): boolean =>
  wrong > 1 && 2 * wrong > pairs.filter((pair) => pair.barG > NO_PRESSURE_BAR || pair.disagrees).length;

interface Disagreement extends Question {
  worst: Pair;
  /** most pairs disagree */
  all: boolean;
}

/**
 * Pressure and boiler temperature that disagree. Where most of those in steam do, thermometer or dial is wrong, and with
 * it every pair of the two is in question.
 */
export function againstSaturation(from: Sources): Disagreement[] {
  const pairs = pairsOf(from);
  const wrong = pairs.filter((pair) => pair.disagrees);
  const worst = wrong.reduce<Pair | undefined>(
    (most, pair) =>
      most === undefined ||
      Math.abs(pair.celsius - pair.saturationC) > Math.abs(most.celsius - most.saturationC)
        ? pair
        : most,
    undefined,
  );
  if (worst === undefined) return [];
  const all = mostDisagree(pairs, wrong.length);
  const named = all ? pairs : wrong;
  const entries = [...new Set(named.flatMap((pair) => pair.ids))];
  return [{ code: "pressure-and-temperature", entries, worst, all }];
}

export const saturationWarnings = (from: Sources): Warning[] =>
  againstSaturation(from).map(({ code, entries, worst, all }) => ({
    code,
    text: `Pressure and boiler temperature disagree: at ${clock(worst.atS)}, ${worst.barG.toFixed(1)} bar and ${printed(worst.celsius, 0)} °C, where steam of that pressure is at ${Math.round(worst.saturationC)} °C.${
      all
        ? " Most readings do, so dial or thermometer is wrong, and all pairs of the two are in question."
        : ""
    }`,
    entries,
  }));
