import type { Timeline } from "../../logbook/timeline.ts";
import { asWater, type Circumstances } from "./circumstances.ts";

/** A filling so long before the fire is still as it was filled, s. */
const JUST_FILLED_S = 1800;
/**
 * How far from the feed's temperature to the air's a boiler stands when she is lit, and its standard uncertainty (our
 * estimates). Just filled, her metal alone may still be as warm as the air, and it takes about a quarter of the heat. Where nobody wrote of
 * the filling she was most likely filled just before all the same (common practice), but may have stood.
 */
const TOWARDS_AIR = { justFilled: 1 / 8, unwritten: 1 / 4 };

/** All that she holds was filled in just before the fire: nothing was read or poured in before that. */
export function filledForFire({ entries }: Timeline, litS: number): boolean {
  const first = entries.find(({ kind }) => kind === "fill" || kind === "level" || kind === "feed");
  return first?.kind === "fill" && first.atS <= litS && litS - first.atS <= JUST_FILLED_S;
}

/** Water in a boiler that was not lit yet: °C, and its standard uncertainty, K. */
export function coldWater(
  { ambientC, feedC, uAmbientK, uFeedK }: Circumstances,
  timeline: Timeline,
  litS: number | null,
): { celsius: number; uK: number } {
  const filled = timeline
    .of("fill")
    .some(({ atS }) => litS !== null && atS <= litS && litS - atS <= JUST_FILLED_S);
  const share = filled ? TOWARDS_AIR.justFilled : TOWARDS_AIR.unwritten;
  const awayK = ambientC - feedC;
  const unrecordedK = (1 - share) * uFeedK + share * uAmbientK;
  return {
    celsius: asWater(feedC + share * awayK),
    uK: Math.hypot(Math.max(1, share * Math.abs(awayK)), unrecordedK),
  };
}
