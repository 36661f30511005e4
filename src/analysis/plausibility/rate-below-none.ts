import { clock } from "../../quantity/clock.ts";
import { type Figure, interval, isMeasured } from "../../quantity/measured.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import type { Phase } from "../state/phases.ts";
import type { Water } from "../water/water.ts";
import { entriesOf } from "./rising-level.ts";

/**
 * An engine that runs or stands in steam draws something, so that all of a 95 % range below none is no chance; raised or shut in
 * what leaves is often near none, where one such range in forty is.
 */
const LEVEL = { running: 0.95, standing: 0.95, raising: 0.997, "shut-in": 0.997 };

/** Water of which less than none is said to have left in a phase. */
export function rateBelowNoneWarnings(
  from: Sources,
  { input }: Pick<Water, "input">,
  phases: readonly (Phase & { steamingRate: Figure })[],
): Warning[] {
  return phases.flatMap(({ name, fromS, toS, steamingRate }): Warning[] => {
    if (!isMeasured(steamingRate) || steamingRate.value >= 0) return [];
    const [, most] = interval(steamingRate, LEVEL[name]);
    if (most >= 0) return [];
    const within = input.readings.filter(({ atS }) => atS >= fromS && atS <= toS);
    const burnt = input.readings.some(({ of, atS }) => of === "whole engine" && atS > fromS)
      ? " the fire burnt less then than is thought (it was eased, and nobody wrote down the fuel),"
      : "";
    return [
      {
        code: "rate-below-none",
        text: `By the readings water came into the boiler while ${SAID[name]} from ${clock(fromS)} to ${clock(toS)}, ${(-steamingRate.value).toFixed(1)} g a minute, which cannot be:${burnt} a feed was not written down or written at another time, or a reading is wrong. What is reckoned by the other parts of the time may be as far out.`,
        entries: entriesOf(from, [...within.slice(0, 1), ...within.slice(1).slice(-1)]),
      },
    ];
  });
}

const SAID: Record<Phase["name"], string> = {
  raising: "steam was raised",
  standing: "she stood",
  running: "she ran",
  "shut-in": "she was shut in",
};
