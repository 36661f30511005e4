import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Steaming } from "../../logbook/steaming.ts";
import { believedThermometer } from "../cooling/believed-thermometer.ts";
import { loggedPairs } from "../plausibility/logged-temperature.ts";
import { NO_PRESSURE_BAR, type Pair, pairsOf } from "../plausibility/saturation.ts";
import { type SheetSources, type Sources, sourcesOf } from "../sources.ts";
import type { PressureReading } from "./pressure-points.ts";
import { thermometerPressures } from "./thermometer-pressures.ts";

/** Read each minute or two, the dial tells what is between; where it was left for longer, its thermometer does, s. */
const LEFT_S = 120;
/** Of the readings beside the dial no more than this part may stand off from it, as slips (our choice). */
const SLIPS = 0.1;

/** What the log says, with a boiler thermometer in a hot hold heard while the dial was left unread. */
export function sourcesWithThermometer(
  locomotive: Locomotive,
  steaming: Steaming,
  untilS?: number,
): SheetSources {
  const read = sourcesOf(locomotive, steaming, untilS);
  const between = thermometerBetween(read);
  return between.length === 0 ? read : sourcesOf(locomotive, steaming, untilS, between);
}

/**
 * What the boiler's thermometer tells of a hot hold while the dial was left unread. All was shut, so that water and steam are at
 * one temperature; but the two must have been read together in steam, and have agreed. Empty where they were not, or did not.
 */
function thermometerBetween(from: Sources): PressureReading[] {
  const { steaming, pressures, timeline } = from;
  const read = pressures.all;
  if (steaming.purpose !== "hot-hold" || read.length === 0 || read.some(({ by }) => by !== "dial")) return [];
  const [byHand, logged] = [agree(pairsOf(from)), agree(loggedPairs(from))];
  if (!byHand && !logged) return [];
  const believed = believedThermometer(from, timeline.firstS ?? 0, timeline.lastS ?? 0);
  const told = thermometerPressures(
    {
      ...believed,
      of: (kind) => (kind === "temperature" && !byHand ? [] : believed.of(kind)),
      traces: logged ? believed.traces : [],
    },
    from.around,
  );
  return told.filter(({ atS }) => read.every((dial) => Math.abs(dial.atS - atS) > LEFT_S));
}

function agree(pairs: readonly Omit<Pair, "ids">[]): boolean {
  const wrong = pairs.filter(({ disagrees }) => disagrees).length;
  return (
    wrong <= SLIPS * pairs.length && pairs.some(({ barG, disagrees }) => barG > NO_PRESSURE_BAR && !disagrees)
  );
}
