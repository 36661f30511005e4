import type { Entry } from "../../logbook/entry.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { saturationPressurePa } from "../../steam/saturation.ts";
import type { PressurePoint } from "../pressure/pressure-points.ts";
import { asWater, type Circumstances, ICE_POINT_K, PA_PER_BAR } from "./circumstances.ts";

/** A boiler without a fire cools with about this time constant (from a published cooling record). */
export const COOLING_S = 3300;
/** How far that may be out, as a part of what she has cooled (our estimate). */
export const COOLED_DOUBT = 0.35;
/** Nobody leaves an engine with a fire in her for so long without writing anything down, s (our choice). */
const LEFT_ALONE_S = 1200;
/** So many straight pieces stand for the way down. */
const PIECES = 8;

/** Temperature of a boiler that cools without a fire, K. */
export const cooledK = (fromK: number, airK: number, forS: number): number =>
  airK + (fromK - airK) * Math.exp(-forS / COOLING_S);

/**
 * Gauge pressure after the last reading, down to none, where no fire keeps it up: from when the fire was out, or from where
 * she was left alone. The first point is what was read last. Empty where a fire may keep it up, or none was on.
 * @param read in order of time
 */
export function coolingAway(
  { entries, lastS }: Pick<Timeline, "entries" | "lastS">,
  read: readonly PressurePoint[],
  around: Circumstances,
): PressurePoint[] {
  const [readS, barG] = read.at(-1) ?? [0, 0];
  const fromS = aloneFromS(entries, readS);
  if (barG <= 0 || fromS === null || fromS >= (lastS ?? 0)) return [];
  const airK = asWater(around.ambientC) + ICE_POINT_K;
  const [fromK, goneK] = [around.boilingK(barG), around.boilingK(0)];
  const goneAfterS = COOLING_S * Math.log((fromK - airK) / (goneK - airK));
  const down = Array.from({ length: PIECES - 1 }, (_, i): PressurePoint => {
    const forS = ((i + 1) / PIECES) * goneAfterS;
    const pa = saturationPressurePa(cooledK(fromK, airK, forS));
    return [fromS + forS, (pa - around.atmospherePa) / PA_PER_BAR];
  });
  return [[fromS, barG], ...down, [fromS + goneAfterS, 0]];
}

/** When nobody had a fire in her any more, not before a moment; null where somebody may have. */
function aloneFromS(entries: readonly Entry[], readS: number): number | null {
  const fire = entries.findLast((entry) => entry.kind === "fire");
  if (fire?.state === "out") return Math.max(fire.atS, readS);
  const after = entries.filter(({ atS }) => atS >= readS);
  const left = after.findIndex(({ atS }, i) => (after[i + 1]?.atS ?? atS) - atS > LEFT_ALONE_S);
  const seen = after[left];
  return seen === undefined || after.slice(left + 1).some(inUse) ? null : seen.atS;
}

/** An entry of which a fire or steam is the cause. */
function inUse(entry: Entry): boolean {
  switch (entry.kind) {
    case "fire":
    case "valve":
    case "lap":
    case "revolutions":
      return true;
    case "regulator":
      return entry.state === "open";
    case "blower":
      return entry.state === "on";
    case "phase":
      return entry.name !== "shut-in";
    default:
      return false;
  }
}
