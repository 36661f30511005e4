import { absent, type Figure } from "../quantity/measured.ts";
import { energyRise } from "./energy-rise.ts";
import type { PressureCourse } from "./pressure-course.ts";
import type { Sources } from "./sources.ts";
import type { Water } from "./water.ts";

export interface Raising {
  toFirstSteamS: number | null;
  toWorkingPressureS: number | null;
  power: Figure;
  /** the window of the power, s since the start; null where there is none */
  window: readonly [fromS: number, toS: number] | null;
}

interface Reached {
  atS: number;
  /** standard uncertainty of that moment, s */
  uS: number;
}

/** Part of a pressure up to which the rise is steep, so that its pace tells when the rest will come. */
const STEEP = 0.85;

/**
 * When the pressure came up to a mark; null if it never did. Under a steady fire the temperature rises along a
 * straight line, so moments are read off between readings by boiling temperature. A reading may fall short of the
 * mark by the dial's error, and a safety valve may hold the pressure just under it: where no reading meets the mark
 * by about when the rise would, but one comes within the dial's error of it by then, it is taken to have been met
 * as the rise went on.
 */
function reached(from: Sources, barG: number, sinceS: number): Reached | null {
  const { pressure, errors, around } = from;
  const uBar = Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
  const kelvin = (value: number) => around.boilingK(Math.max(value, 0));
  const points = pressure.points.filter(([atS]) => atS >= sinceS);
  const crossing = (mark: number): number | null => {
    const place = points.findIndex(([, value]) => value >= mark);
    const [after, before] = [points[place], points[place - 1]];
    if (after === undefined) return null;
    if (before === undefined) return after[0];
    // below boiling the dial stands still: the line starts at first steam
    const fromS = before[1] > 0 ? before[0] : Math.max(before[0], pressure.firstSteamS ?? before[0]);
    const share = (kelvin(mark) - kelvin(before[1])) / (kelvin(after[1]) - kelvin(before[1]));
    return fromS + share * (after[0] - fromS);
  };
  const exactS = crossing(barG);
  const steepS = crossing(STEEP * barG);
  const startS = pressure.firstSteamS ?? sinceS;
  if (steepS === null) return null;
  if (steepS <= startS) return exactS === null ? null : { atS: exactS, uS: 0 };
  const kelvinPerS = (kelvin(STEEP * barG) - kelvin(0)) / (steepS - startS);
  const expectedS = steepS + (kelvin(barG) - kelvin(STEEP * barG)) / kelvinPerS;
  const promptS = expectedS + 2 * (expectedS - steepS) + 30;
  const nearS = crossing(Math.max(barG - 2 * uBar, STEEP * barG));
  const isPrompt = (atS: number | null): atS is number => atS !== null && atS <= promptS;
  const uKelvin = (kelvin(barG + uBar) - kelvin(barG - uBar)) / 2;
  const metAt = (atS: number): Reached => {
    const [beforeS, afterS] = gapAt(pressure, atS);
    const straight = uKelvin / kelvinPerS;
    if (afterS - beforeS <= NARROW_S)
      return { atS, uS: Math.hypot(straight, (afterS - beforeS) * WITHIN_GAP) };
    // in a wide gap the rise may have gone on at its pace and stopped: half way between that and the straight line
    const byPaceS = Math.min(afterS, Math.max(beforeS, expectedS));
    const uGapS = Math.max((afterS - beforeS) * WITHIN_GAP, Math.abs(atS - byPaceS) / 2);
    return { atS: (atS + byPaceS) / 2, uS: Math.hypot(straight, uGapS) };
  };
  if (isPrompt(exactS)) return metAt(exactS);
  if (isPrompt(nearS)) return metAt(Math.max(nearS, expectedS));
  return exactS === null ? null : { atS: exactS, uS: uKelvin / kelvinPerS };
}

/** Readings this near to one another leave nothing to guess between them, s. */
const NARROW_S = 60;
/** Where in the gap between two readings a mark was passed, the straight line tells to about this part of the gap. */
const WITHIN_GAP = 0.15;

/** The readings before and after a moment. */
function gapAt(pressure: PressureCourse, atS: number): readonly [number, number] {
  const before = pressure.points.findLast(([readS]) => readS < atS)?.[0] ?? atS;
  const after = pressure.points.find(([readS]) => readS >= atS)?.[0] ?? atS;
  return [before, after];
}

/**
 * Times from fire lit, s, and the mean rise of stored heat until working pressure, W; if it was not raised before steam
 * was used to run, until the highest that was.
 */
export function raisingOf(from: Sources, water: Water): Raising | null {
  const litS = from.timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
  if (litS === undefined) return null;
  const { pressure } = from;
  const sinceLit = (atS: number | null) => (atS === null || atS < litS ? null : atS - litS);
  const working = reached(from, from.locomotive.workingPressureBarG, litS);
  const until =
    working !== null && working.atS <= usedFromS(from, litS) ? working : highestBefore(from, litS);
  const startsInSteam = (pressure.atS(litS) ?? 0) >= from.locomotive.workingPressureBarG;
  return {
    window: until === null ? null : [litS, until.atS],
    toFirstSteamS: sinceLit(pressure.firstSteamS),
    toWorkingPressureS: startsInSteam ? null : sinceLit(working?.atS ?? null),
    power:
      until === null || until.atS <= litS
        ? absent("no pressure was read to rise after the fire was lit")
        : startsInSteam
          ? absent("the boiler was at working pressure when the fire was lit")
          : powerUntil(from, water, litS, until),
  };
}

/** A reading so long after steam is first used still shows what had been raised, s. */
const STILL_RAISED_S = 30;

/** From when steam was used to run, so that the fire no longer only raised it. */
const usedFromS = (from: Sources, litS: number): number =>
  (from.phases.find((phase) => phase.name === "running" && phase.fromS > litS)?.fromS ??
    Number.POSITIVE_INFINITY) + STILL_RAISED_S;

/** The highest pressure raised before steam was used; null where none was read. */
function highestBefore(from: Sources, litS: number): Reached | null {
  const before = from.pressure.points.filter(([atS]) => atS > litS && atS <= usedFromS(from, litS));
  if (!before.some(([, barG]) => barG > 0)) return null;
  return reached(from, Math.max(...before.map(([, barG]) => barG)), litS);
}

function powerUntil(from: Sources, water: Water, litS: number, until: Reached): Figure {
  const power = energyRise(from, water, { fromS: litS, toS: until.atS, perSecond: true, unit: "W" });
  if (power.value === null) return power;
  const uMoment = (power.value * until.uS) / (until.atS - litS);
  return { ...power, parts: [...power.parts, { name: "moment of working pressure", u: Math.abs(uMoment) }] };
}
