import type { Entry } from "../../logbook/entry.ts";
import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { saturationPressurePa } from "../../steam/saturation.ts";
import { BEYOND_DOUBT, NONE_BAR } from "../pressure/pressure-course.ts";
import type { PressureReading } from "../pressure/pressure-points.ts";
import { type Circumstances, ICE_POINT_K, PA_PER_BAR } from "./circumstances.ts";
import { coldWater, filledForFire } from "./cold-water.ts";
import type { ReadingErrors } from "./instruments.ts";
import { runningStretches } from "./phases.ts";

/** What is thought of the boiler at the moment the fire was lit, where nobody read it. */
export interface Lighting {
  /** gauge pressure then; null where it was read, or what was read first is taken for it */
  thought: readonly [atS: number, barG: number] | null;
  /** temperature then, where the pace of the rise says that she cannot have been cold, and no filling that she was */
  warm: { atS: number; kelvin: number; uK: number } | null;
  /** what it was made of, where it ought to be said */
  said: "cold" | "warm" | "as first read" | null;
}

/** No boiler raises steam from cold in less than this, s (our choice). */
const LEAST_TO_STEAM_S = 60;
/** A boiler thermometer speaks for so long after it was read, s. */
const HOLDS_S = 300;
/** One read so soon after the fire was lit still tells how warm she was then, s: it is a few degrees that she gains in it (our choice). */
export const JUST_LIT_S = 15;
/** Warmer than this water is not cold, and may be in steam. */
const BOILING_C = 95;
/** Up to this part of working pressure no safety valve lifts and no owner eases the fire. */
const UNEASED = 0.9;
/** A rise of less than this, or in less than this time, tells no pace, nor does one over so long that nobody knows what was done. */
const LEAST_RISE_K = 4;
const LEAST_S = 20;
const MOST_S = 240;
/** Before she boils the same fire warms her so many times as fast as after, with its doubt, and never more than the last (our estimate). */
export const FASTER = { usual: 1.3, u: 0.5, most: 3 };
/** So much above cold is warm, K. */
const WARM_K = 10;

const nothing: Lighting = { thought: null, warm: null, said: null };

/** @param readings in order of time */
export function lightingOf(
  timeline: Timeline,
  readings: readonly PressureReading[],
  around: Circumstances,
  locomotive: Locomotive,
  errors: Pick<ReadingErrors, "pressureReadingBar" | "pressureBiasBar">,
): Lighting {
  const litS = timeline.of("fire").find(({ state }) => state === "lit")?.atS;
  const first = readings[0];
  if (first === undefined) return nothing;
  if (litS === undefined) return unlit(timeline, readings, around, locomotive, errors);
  const thermometer = boilerThermometer(timeline, litS) ?? readJustLit(timeline, litS);
  const unread = first.atS > litS && first.barG > NONE_BAR;
  if (unread && thermometer !== undefined) {
    const pa = saturationPressurePa(Math.max(thermometer.celsius, 0.01) + ICE_POINT_K);
    return { ...nothing, thought: [litS, Math.max(0, (pa - around.atmospherePa) / PA_PER_BAR)] };
  }
  if (unread && first.atS - litS < LEAST_TO_STEAM_S) return nothing;
  if (unread && speaksForSteam(timeline, litS, first.atS)) return { ...nothing, said: "as first read" };
  const standing = readings.findLast(({ atS }) => atS <= litS)?.barG ?? 0;
  const pace =
    thermometer === undefined && standing <= NONE_BAR && !filledForFire(timeline, litS)
      ? paceSince(litS, timeline, readings, around, locomotive, errors)
      : null;
  const warm = pace === null ? null : warmBy(pace, coldK(around, timeline, litS));
  if (!unread) {
    const kelvin = Math.min(warm?.kelvin ?? 0, around.boilingK(0));
    return warm === null ? nothing : { thought: null, warm: { ...warm, kelvin }, said: "warm" };
  }
  if (warm === null) return { thought: [litS, 0], warm, said: "cold" };
  const pa = saturationPressurePa(warm.kelvin);
  return { thought: [litS, Math.max(0, (pa - around.atmospherePa) / PA_PER_BAR)], warm, said: "warm" };
}

/**
 * Where no fire was written down, the log may begin with her cold or in steam: cold where the pace of the rise that was
 * seen brings her up from cold since the beginning, as first read where it does not or was not seen.
 */
function unlit(...[timeline, readings, around, locomotive, errors]: Parameters<typeof lightingOf>): Lighting {
  const [beginsS, first] = [timeline.entries[0]?.atS, readings[0]];
  if (beginsS === undefined || first === undefined || first.barG <= NONE_BAR) return nothing;
  if (speaksForSteam(timeline, beginsS, first.atS)) return nothing;
  const pace = paceSince(beginsS, timeline, readings, around, locomotive, errors);
  if (pace === null || pace.fromK - FASTER.usual * pace.beforeK > coldK(around, timeline, beginsS) + WARM_K)
    return nothing;
  return { thought: [beginsS, 0], warm: null, said: "cold" };
}

const boilerThermometer = (timeline: Timeline, beforeS: number) =>
  timeline
    .of("temperature")
    .findLast((entry) => entry.of === "boiler" && entry.atS <= beforeS && beforeS - entry.atS <= HOLDS_S);

const readJustLit = (timeline: Timeline, litS: number) =>
  timeline
    .of("temperature")
    .find((entry) => entry.of === "boiler" && entry.atS > litS && entry.atS <= litS + JUST_LIT_S);

const coldK = (around: Circumstances, timeline: Timeline, litS: number): number =>
  coldWater(around, timeline, litS).celsius + ICE_POINT_K;

/** Something that was written down before the first pressure says that she was in steam, or was made to be. */
const speaksForSteam = ({ entries }: Timeline, litS: number, firstS: number): boolean =>
  entries.some((entry) => {
    if (entry.atS >= firstS) return false;
    const soon = entry.atS <= litS + LEAST_TO_STEAM_S;
    switch (entry.kind) {
      case "temperature":
        return entry.of === "boiler" && entry.atS <= litS && entry.celsius > BOILING_C;
      case "fire":
        return entry.state === "out";
      case "phase":
        return soon && entry.name !== "raising";
      case "regulator":
        return soon && entry.state === "open";
      default:
        return soon && ["valve", "lap", "revolutions"].includes(entry.kind);
    }
  });

/** Readings of the rise as long as nothing but the fire works on it, and the last before it that may have been none. */
function risen(
  timeline: Timeline,
  readings: readonly PressureReading[],
  litS: number,
  [leastBar, mostBar]: readonly [number, number],
): { before: PressureReading | undefined; rise: readonly PressureReading[] } {
  const working = ["regulator", "valve", "lap", "revolutions", "feed", "fire", "blower", "blowdown"];
  const ends = (entry: Entry) =>
    working.includes(entry.kind) || (entry.kind === "phase" && entry.name !== "raising");
  const endedS = timeline.entries.find((entry) => entry.atS > litS && ends(entry))?.atS ?? Infinity;
  // a lap is written down when it is run
  const setOffS = runningStretches(timeline).find(([, stoppedS]) => stoppedS > litS)?.[0] ?? Infinity;
  const untilS = Math.min(endedS, setOffS);
  const within = readings.filter(({ atS }) => atS > litS && atS <= untilS);
  const beginning = within.findLastIndex(({ barG }) => barG <= leastBar) + 1;
  const eased = within.findIndex(({ barG }, i) => i >= beginning && barG > mostBar);
  return {
    before: within[beginning - 1],
    rise: within.slice(beginning, eased < 0 ? within.length : eased),
  };
}

interface Pace {
  litS: number;
  /** boiling temperature at the first reading of the rise, and its standard uncertainty */
  fromK: number;
  uK: number;
  /** what the pace of the rise comes to from the lighting to that reading, and what it may come to at the most */
  beforeK: number;
  mostK: number;
}

/** The pace of the rise that was seen after the lighting; null where it tells none. */
function paceSince(litS: number, ...rest: Parameters<typeof lightingOf>): Pace | null {
  const [timeline, readings, { boilingK }, { workingPressureBarG }, errors] = rest;
  const uBar = errors.pressureReadingBar;
  const leastBar = Math.max(NONE_BAR, BEYOND_DOUBT * Math.hypot(uBar, errors.pressureBiasBar));
  const { before, rise } = risen(timeline, readings, litS, [leastBar, UNEASED * workingPressureBarG]);
  const from = rise[0];
  if (from === undefined) return null;
  const fromK = boilingK(from.barG);
  const uK = Math.SQRT2 * (boilingK(from.barG + uBar) - fromK);
  const to = rise.find(
    ({ atS, barG }) => atS - from.atS >= LEAST_S && boilingK(barG) - fromK >= Math.max(LEAST_RISE_K, 2 * uK),
  );
  if (to === undefined || to.atS - from.atS > MOST_S) return null;
  const toK = boilingK(to.barG);
  const beforeK = ((toK - fromK) / (to.atS - from.atS)) * (from.atS - litS);
  // as fast as it was, if not faster, on the way from no pressure: a slower pace later is that of a fire that was eased
  const firstPace =
    before === undefined ? 0 : (fromK - uK - boilingK(leastBar)) / Math.max(1, from.atS - before.atS);
  const mostPace = Math.max((toK - fromK + 2 * uK) / (to.atS - from.atS), firstPace);
  return { litS, fromK, uK, beforeK, mostK: mostPace * (from.atS - litS) };
}

/** How warm she was lit, if three times the pace of the rise could not have brought her up from cold. */
function warmBy({ litS, fromK, uK, beforeK, mostK }: Pace, coldestK: number): Lighting["warm"] {
  if (fromK - FASTER.most * mostK <= coldestK + WARM_K) return null;
  return {
    atS: litS,
    kelvin: Math.max(coldestK, fromK - FASTER.usual * beforeK),
    uK: Math.hypot(FASTER.u * beforeK, uK),
  };
}
