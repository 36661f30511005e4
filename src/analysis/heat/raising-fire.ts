import { abscissaOf, type Line } from "../../statistics/line-fit.ts";
import type { Sources } from "../sources.ts";

/** A safety valve that lifts was brought to about this part of working pressure (our choice), with its doubt. */
export const LIFTS_AT = { mean: 1.03, u: 0.03 };

/** What else the log tells of the rise. */
export interface Fire {
  /** the blower was turned on or off, and the pace changed */
  turned: readonly { atS: number; state: "on" | "off" }[];
  /** when it was lit, or the dial last read since then before a moment; null where it was lit before */
  lastReadS(beforeS: number): number | null;
  /** the owner wrote down when the valve lifted, and it had not yet */
  valveSeenShutUntil(atS: number): boolean;
  /** and lifted no later than by the line of the rise: the fire was not turned down before */
  keptUpToLift(line: Line, atS: number): boolean;
  /**
   * When so high a boiling temperature was met by the pace since lighting up to the last reading before a moment, warming so
   * many times as fast before she boiled; null where nothing tells
   */
  byPaceS(kelvin: number, beforeS: number, timesAsFast: number): number | null;
}

export function fireOf({ timeline, pressure, around, stateAt, locomotive }: Sources, fromS: number): Fire {
  const lifts = timeline.of("valve").filter((entry) => entry.state === "lifts");
  const valveSeenShutUntil = (atS: number) => lifts.length > 0 && lifts.every((lift) => lift.atS >= atS);
  const liftsByK = around.boilingK((LIFTS_AT.mean + 2 * LIFTS_AT.u) * locomotive.workingPressureBarG);
  const litS = timeline.of("fire").find((entry) => entry.state === "lit" && entry.atS >= fromS)?.atS;
  return {
    turned: timeline.of("blower"),
    lastReadS: (beforeS) =>
      litS === undefined
        ? null
        : Math.max(litS, pressure.points.findLast(([atS]) => atS < beforeS)?.[0] ?? litS),
    valveSeenShutUntil,
    keptUpToLift: (line, atS) =>
      valveSeenShutUntil(atS) && (lifts[0]?.atS ?? Infinity) <= abscissaOf(line, liftsByK, 0).value,
    byPaceS: (kelvin, beforeS, timesAsFast) => {
      if (timeline.of("blower").some(({ atS }) => atS >= fromS && atS < beforeS)) return null;
      const litS = timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
      const last = pressure.points.findLast(([atS]) => atS < beforeS);
      if (litS === undefined || litS < fromS || last === undefined || last[0] <= litS) return null;
      const boilingK = around.boilingK(0);
      const [lastS, lastK] = [last[0], around.boilingK(Math.max(last[1], 0))];
      // as if she had warmed all the way at the pace after boiling
      const { temperatureK } = stateAt(litS);
      const litK = Math.max(temperatureK, boilingK - (boilingK - temperatureK) / timesAsFast);
      return litK < lastK ? lastS + ((kelvin - lastK) * (lastS - litS)) / (lastK - litK) : null;
    },
  };
}
