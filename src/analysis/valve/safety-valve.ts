import {
  absent,
  exact,
  type Figure,
  interval,
  scaled,
  standardUncertainty,
  sum,
} from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { coldAt } from "../state/held-cold.ts";
import { liftedCold } from "./lifted-cold.ts";
import type { Mark, Moment } from "./valve-moment.ts";
import { higherThanLift, highestOf, highestRead, markOf } from "./valve-pressure.ts";

export interface SafetyValveFigures {
  /** bar gauge */
  lift: Figure;
  reseat: Figure;
  highest: Figure;
  /** highest pressure above working pressure, as a part of working pressure */
  rise: Figure;
}

const BEYOND_DOUBT = 2;

/**
 * What the entries tell of the safety valve; null where none does and the steaming was not to try it. Cold water under the pump
 * tells no more than where it lifted, and nothing where it lifted in steam too.
 */
export function safetyValveOf(from: Sources): SafetyValveFigures | null {
  const seen = from.timeline.of("valve");
  const tried = from.steaming.purpose === "safety-valve";
  if (seen.length === 0 && !tried) return null;
  const entries = seen.filter(({ atS }) => !coldAt(from, atS));
  if (coldAt(from, Number.POSITIVE_INFINITY) || (entries.length === 0 && !tried)) return liftedCold(from);
  const all = from.pressures.all.filter(({ atS }) => !coldAt(from, atS));
  const top = highestOf(all);
  const none = absent("no pressure was read");
  if (top === null) return { lift: none, reseat: none, highest: none, rise: none };

  const moments = entries.map(
    (entry): Moment => ({ atS: entry.atS, mark: entry.state === "lifts" ? "lift" : "reseat" }),
  );
  const marked = (mark: Mark, words: string): Figure =>
    moments.some((moment) => moment.mark === mark)
      ? (markOf(from, moments, all, mark) ??
        absent(`no pressure was read near enough to the ${mark}: read the dial as it happens`))
      : absent(`the valve was not seen to ${words}`);
  const lift = marked("lift", "lift");
  const lifted = moments.some((moment) => moment.mark === "lift");
  const highest =
    lift.value !== null
      ? higherThanLift(from, moments, all, lift)
      : lifted
        ? absent("the valve lifted while no pressure was read: the highest was not seen")
        : (highestRead(from, all, top) ?? absent("the pressure was hardly read"));
  return { lift, reseat: marked("reseat", "reseat"), highest, rise: riseOf(from, highest, lifted) };
}

/** What stays below working pressure with no lift seen is no trial of the valve. */
function riseOf(from: Sources, highest: Figure, lifted: boolean): Figure {
  if (highest.value === null) return highest;
  const working = from.locomotive.workingPressureBarG;
  const above = sum(highest, exact(-working, highest.unit));
  if (!lifted && interval(above)[1] < 0 && above.value < -BEYOND_DOUBT * standardUncertainty(highest))
    return absent("the valve was not seen to lift, and the pressure stayed below working pressure");
  return scaled(above, 1 / working, "1");
}
