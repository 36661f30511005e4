import { saturationPressurePa } from "../../steam/saturation.ts";
import type { Sources } from "../log-in-order.ts";
import { BEYOND_DOUBT, NONE_BAR } from "../pressure/pressure-course.ts";
import { lastAtOrBefore, type PressurePoint } from "../pressure/pressure-points.ts";
import type { BoilerState } from "./boiler-state.ts";
import { PA_PER_BAR } from "./circumstances.ts";

/**
 * A pace that slackens evenly all through three gaps bends the line in the middle one by a quarter of what one does that
 * slackens at once, by a fire turned down or a valve: anywhere between the two.
 */
const EVENLY = 0.25;
const USUAL = (EVENLY + 1) / 2;
const U_USUAL = (1 - EVENLY) / Math.sqrt(12);

type Warmth = readonly [atS: number, kelvin: number];

/**
 * What stands in the boiler where the rise to working pressure slackened between two readings: warmer than straight from one to
 * the other, up to where the pace before meets the pace after. A glass is read beside the dial; a logger of
 * the level reads on meanwhile, and took what the warmer water had swollen by for water.
 */
export function bentWhereSlackened(from: Sources): Sources["stateAt"] {
  const { around, errors, stateAt, stateAtPressure } = from;
  const steam = steamRaised(from);
  const rise = steam.map(([atS, barG]): Warmth => [atS, around.boilingK(barG)]);
  return (atS) => {
    const state = stateAt(atS);
    if (state.steam === null || state.courseToS !== undefined) return state;
    const near = lastAtOrBefore(rise, atS);
    const [before, low, high, after] = [rise[near - 1], rise[near], rise[near + 1], rise[near + 2]];
    if (before === undefined || low === undefined || high === undefined) return state;
    const bend = slackening(before, low, high, after);
    const barG = steam[near + 1]?.[1] ?? 0;
    const uK = around.boilingK(barG) - around.boilingK(barG - errors.pressureReadingBar);
    if (bend === null || !(bend.mostK > BEYOND_DOUBT * uK)) return state;
    return warmer(state, bend.atS(atS), high[0]);
  };

  function warmer(state: BoilerState, bentK: number, courseToS: number): BoilerState {
    const pa = saturationPressurePa(state.temperatureK + USUAL * bentK);
    const bent = stateAtPressure((pa - around.atmospherePa) / PA_PER_BAR);
    return { ...bent, uTemperatureK: U_USUAL * bentK, courseToS };
  }
}

/** The pressures read from first steam until steam was used or the fire put out. */
function steamRaised({ pressure, phases, timeline }: Sources): PressurePoint[] {
  const { firstSteamS, points } = pressure;
  if (firstSteamS === null) return [];
  const usedS = phases.find(({ name }) => name === "running")?.fromS ?? Number.POSITIVE_INFINITY;
  const outS = timeline.of("fire").find(({ state }) => state === "out")?.atS ?? Number.POSITIVE_INFINITY;
  const raised = points.filter(
    ([atS, barG]) => atS > firstSteamS && atS <= Math.min(usedS, outS) && barG > NONE_BAR,
  );
  return [[firstSteamS, 0], ...raised];
}

/** How far above the straight line the pace before and the pace after, at least none, meet; null where the pace did not slacken. */
function slackening(
  before: Warmth,
  low: Warmth,
  high: Warmth,
  after: Warmth | undefined,
): { mostK: number; atS: (atS: number) => number } | null {
  const [was, is] = [pace(before, low), pace(low, high)];
  const becomes = after === undefined ? 0 : Math.max(0, pace(high, after));
  if (!(was > is && is > becomes)) return null;
  const atS = (moment: number) =>
    Math.min((was - is) * (moment - low[0]), (is - becomes) * (high[0] - moment));
  const cornerS = low[0] + ((is - becomes) / (was - becomes)) * (high[0] - low[0]);
  return { mostK: atS(cornerS), atS };
}

const pace = ([a, p]: Warmth, [b, q]: Warmth): number => (q - p) / (b - a);
