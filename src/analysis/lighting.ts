import type { Entry } from "../logbook/entry.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import type { Steaming } from "../logbook/steaming.ts";
import type { Timeline } from "../logbook/timeline.ts";
import { saturationPressurePa } from "../steam/saturation.ts";
import { asWater, type Circumstances, ICE_POINT_K, PA_PER_BAR } from "./circumstances.ts";
import type { ReadingErrors } from "./instruments.ts";
import { runningStretches } from "./phases.ts";
import { BEYOND_DOUBT, NONE_BAR } from "./pressure-course.ts";
import type { PressureReading } from "./pressure-points.ts";

/** What is thought of the boiler at the moment the fire was lit, where nobody read it. */
export interface Lighting {
  /** gauge pressure then; null where it was read, or what was read first is taken for it */
  thought: readonly [atS: number, barG: number] | null;
  /** temperature then, where the pace of the rise says that she cannot have been cold */
  warm: { atS: number; kelvin: number; uK: number } | null;
  /** what it was made of, where it ought to be said */
  said: "cold" | "warm" | "as first read" | null;
}

/** No boiler raises steam from cold in less than this, s (our choice). */
const LEAST_TO_STEAM_S = 60;
/** A boiler thermometer speaks for so long after it was read, s. */
const HOLDS_S = 300;
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

/** @param readings in order of time */
export function lightingOf(
  { purpose }: Pick<Steaming, "purpose">,
  timeline: Timeline,
  readings: readonly PressureReading[],
  around: Circumstances,
  locomotive: Locomotive,
  errors: Pick<ReadingErrors, "pressureReadingBar" | "pressureBiasBar">,
): Lighting {
  const litS = timeline.of("fire").find(({ state }) => state === "lit")?.atS;
  const first = readings[0];
  const nothing: Lighting = { thought: null, warm: null, said: null };
  if (litS === undefined || first === undefined || purpose === "hot-hold") return nothing;
  const thermometer = timeline
    .of("temperature")
    .findLast((entry) => entry.of === "boiler" && entry.atS <= litS && litS - entry.atS <= HOLDS_S);
  const unread = first.atS > litS && first.barG > NONE_BAR;
  if (unread && thermometer !== undefined) {
    const pa = saturationPressurePa(Math.max(thermometer.celsius, 0.01) + ICE_POINT_K);
    return { ...nothing, thought: [litS, Math.max(0, (pa - around.atmospherePa) / PA_PER_BAR)] };
  }
  if (unread && first.atS - litS < LEAST_TO_STEAM_S) return nothing;
  if (unread && speaksForSteam(timeline, litS, first.atS)) return { ...nothing, said: "as first read" };
  const standing = readings.findLast(({ atS }) => atS <= litS)?.barG ?? 0;
  const leastBar = Math.max(
    NONE_BAR,
    BEYOND_DOUBT * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar),
  );
  const warm =
    thermometer === undefined && standing <= NONE_BAR
      ? warmByPace(
          litS,
          risen(timeline, readings, litS, [leastBar, UNEASED * locomotive.workingPressureBarG]),
          {
            coldK: asWater((around.ambientC + around.feedC) / 2) + ICE_POINT_K,
            boilingK: around.boilingK,
            uBar: errors.pressureReadingBar,
            leastBar,
          },
        )
      : null;
  if (!unread) {
    const kelvin = Math.min(warm?.kelvin ?? 0, around.boilingK(0));
    return warm === null ? nothing : { thought: null, warm: { ...warm, kelvin }, said: "warm" };
  }
  if (warm === null) return { thought: [litS, 0], warm, said: "cold" };
  const pa = saturationPressurePa(warm.kelvin);
  return { thought: [litS, Math.max(0, (pa - around.atmospherePa) / PA_PER_BAR)], warm, said: "warm" };
}

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

interface WarmthKnown {
  coldK: number;
  boilingK(barG: number): number;
  uBar: number;
  /** a reading up to here may be of no pressure */
  leastBar: number;
}

/** How warm she was lit, if three times the pace of the rise could not have brought her up from cold. */
function warmByPace(
  litS: number,
  { before, rise }: ReturnType<typeof risen>,
  { coldK, boilingK, uBar, leastBar }: WarmthKnown,
): Lighting["warm"] {
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
  const mostK = mostPace * (from.atS - litS);
  if (fromK - FASTER.most * mostK <= coldK + WARM_K) return null;
  return {
    atS: litS,
    kelvin: Math.max(coldK, fromK - FASTER.usual * beforeK),
    uK: Math.hypot(FASTER.u * beforeK, uK),
  };
}
