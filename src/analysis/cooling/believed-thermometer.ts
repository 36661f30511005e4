import { type Timeline, without } from "../../logbook/timeline.ts";
import { meanOf } from "../../statistics/mean-of.ts";
import { loggedPairs } from "../plausibility/logged-temperature.ts";
import { mostDisagree, NO_PRESSURE_BAR, type Pair, pairsOf } from "../plausibility/saturation.ts";
import type { Sources } from "../sources.ts";

type Read = Omit<Pair, "ids">;

/** In so many of their common standard uncertainty the two must go alike. */
const BEYOND = 3;
/** What a thermometer is off by stays the same in one hold but for this, K (our estimate). */
const STEADY_K = 0.5;

/** What a thermometer showed in a window where it does not go with the pressure; by hand, or by a logger. */
export interface LeftOut {
  byHand: readonly Read[] | null;
  logged: readonly Read[] | null;
}

/** Whether a boiler thermometer was read at all, by hand or by a logger. */
export const isWarmthRead = ({ timeline }: Pick<Sources, "timeline">): boolean =>
  timeline.of("temperature").some(({ of }) => of === "boiler") ||
  timeline.traces.some(({ channel }) => channel === "temperatureC");

/**
 * Whether a boiler thermometer does not go with the pressure in a window: most of it stands off from saturation, or by more at
 * one end than at the other, as one that is stuck or in the flue. Where no pressure was read there the rest of the log tells.
 */
export function leftOutThermometer(from: Sources, fromS: number, toS: number): LeftOut {
  if (!isWarmthRead(from)) return { byHand: null, logged: null };
  const whereOff = (all: readonly Read[]): readonly Read[] | null => {
    const inside = all.filter(({ atS }) => atS >= fromS && atS <= toS);
    const judged = inside.length > 1 ? inside : all;
    const wrong = judged.filter(({ disagrees }) => disagrees).length;
    return mostDisagree(judged, wrong) || goesOtherwise(from, inside) ? judged : null;
  };
  return { byHand: whereOff(pairsOf(from)), logged: whereOff(loggedPairs(from)) };
}

/** The log without a thermometer that is left out. */
export function believedThermometer(from: Sources, fromS: number, toS: number): Timeline {
  const { byHand, logged } = leftOutThermometer(from, fromS, toS);
  const { timeline } = from;
  const kept =
    byHand === null
      ? timeline
      : without(
          timeline,
          timeline.of("temperature").filter(({ of }) => of === "boiler"),
        );
  return logged === null
    ? kept
    : { ...kept, traces: kept.traces.filter(({ channel }) => channel !== "temperatureC") };
}

/** Whether it stands off by more in the one half of the time than in the other. */
function goesOtherwise(from: Sources, pairs: readonly Read[]): boolean {
  const inSteam = pairs.filter(({ barG }) => barG > NO_PRESSURE_BAR);
  const middle = inSteam.length >> 1;
  if (middle === 0) return false;
  const [early, late] = [halfOf(from, inSteam.slice(0, middle)), halfOf(from, inSteam.slice(-middle))];
  const u = Math.hypot(
    early.uK,
    late.uK,
    STEADY_K,
    // the dial's bias is more kelvins where the pressure is low
    (late.kelvinPerBar - early.kelvinPerBar) * from.errors.pressureBiasBar,
  );
  return Math.abs(late.offK - early.offK) > BEYOND * u;
}

/** By how much it stood off in a part of the time, with the error of the pressures read in that. */
function halfOf({ around, errors }: Sources, half: readonly Read[]) {
  const meanBar = meanOf(half, ({ barG }) => barG);
  const kelvinPerBar = 10 * (around.boilingK(meanBar + 0.1) - around.boilingK(meanBar));
  return {
    offK: meanOf(half, ({ celsius, saturationC }) => celsius - saturationC),
    uK: (kelvinPerBar * errors.pressureReadingBar) / Math.sqrt(half.length),
    kelvinPerBar,
  };
}
