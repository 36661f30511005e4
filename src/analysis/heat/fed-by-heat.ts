import type { Sources } from "../sources.ts";
import { lengthS, underWayStretches } from "../state/phases.ts";
import { pumpUnwritten } from "../water/unseen-pump.ts";
import { drawnWithin, unseenPump, type Water } from "../water/water.ts";
import { raisingOf } from "./raising.ts";

/**
 * Under way a fire gives at the least so much of what it gave raising steam (our estimate: gas usually three quarters, spirit
 * nine tenths, a grate twice as much, give or take a fifth and more; of 72 simulated engines that were not fed the least was 0.56).
 */
const LEAST_OF_RAISING = 0.55;
/** Heat that a gram of water takes along as steam, from cold feed to some bar, J (steam tables: 2.6 to 2.7 kJ). */
const J_PER_G = 2600;

/**
 * The water with an axle pump that fed unseen, where nothing was written of the pump or of any other feed, and what the level
 * fell by takes far less heat than the same fire gave while steam was raised.
 */
export function withPumpByHeat(from: Sources, water: Water): Water {
  if (water.unseen !== undefined || !pumpUnwritten(from) || from.timeline.of("feed").length > 0) return water;
  const underWay = underWayStretches(from.timeline, from.phases);
  const drawn = drawnWithin(water, underWay);
  const power = raisingOf(from, water)?.power;
  if (drawn.value === null || power === undefined || power.value === null) return water;
  const watts = (J_PER_G * drawn.value) / lengthS(underWay);
  return watts < LEAST_OF_RAISING * power.value ? { ...water, unseen: unseenPump(from) } : water;
}
