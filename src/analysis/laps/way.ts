import type { Timeline } from "../../logbook/timeline.ts";
import { absent, type Figure } from "../../quantity/measured.ts";
import type { Stretch } from "../state/phases.ts";
import type { WayCounted } from "./way-counted.ts";

/** How far she went and how often the driving wheel turned, in windows of time. */
export interface Way {
  metresIn(windows: readonly Stretch[]): Figure;
  turnsIn(windows: readonly Stretch[]): Figure;
}

const FEW_TURNS =
  "fewer turns of the wheel were counted than half of what the laps take: count them from the entry before, over the whole run";

export const WHEN_SHE_RAN_UNKNOWN =
  "it is not known when she ran: write down when the regulator is opened and shut, or each lap as it is run";

/** What was counted of it, and why nothing where it does not tell. */
export function wayOf(timeline: Timeline, counted: WayCounted): Way {
  const { metresByLaps, turns, turnsIn, roundM, few, unknown, asMeasured } = counted;
  const noWheel = absent("the driving wheel's diameter was not recorded");
  const nothing = absent(
    timeline.of("lap").length > 0
      ? "the length of a lap was not recorded, nor the turns of the wheel"
      : "neither laps nor turns of the wheel were recorded",
  );
  if (unknown) {
    const why = absent(WHEN_SHE_RAN_UNKNOWN);
    return { metresIn: () => why, turnsIn: () => why };
  }
  const noTurns = turns !== null && few ? absent(FEW_TURNS) : metresByLaps === null ? nothing : noWheel;
  return {
    metresIn: (windows) =>
      metresByLaps !== null
        ? metresByLaps(windows)
        : turns === null
          ? nothing
          : roundM === null
            ? noWheel
            : asMeasured(turns(windows), roundM, "m"),
    turnsIn: (windows) => turnsIn(windows) ?? noTurns,
  };
}
