import type { Locomotive } from "../../logbook/locomotive.ts";
import { type NamedEntry, type Timeline, timelineOf } from "../../logbook/timeline.ts";
import { type ByHand, sourcesByHand } from "../sources-by-hand.ts";
import { readingErrors } from "../state/instruments.ts";
import { fireStretches } from "../state/phases.ts";
import { balanceInputOf } from "../water/water.ts";
import { beyondGlass } from "./beyond-glass.ts";
import { lapsTooFast } from "./lap-pace.ts";
import { outlying } from "./outlying-pressure.ts";
import type { Question } from "./question.ts";
import { filledOnTop, levelsRisen } from "./rising-level.ts";
import { againstSaturation } from "./saturation.ts";
import { stuckDial } from "./stuck-dial.ts";

/**
 * The sheet's own checks, those that an entry of this kind can set off, as of now: what they question is what the sheet
 * would speak of in this log. Only as much is worked out as they need, so that it is quick on a phone.
 */
export function questionsAtTap(
  locomotive: Locomotive,
  steaming: ByHand,
  kind: NamedEntry["kind"],
): Question[] {
  const timeline = timelineOf(steaming);
  switch (kind) {
    case "lap":
      return lapsTooFast({ timeline, steaming, locomotive });
    case "pressure":
      return [
        ...outlying({ asWritten: timeline, locomotive, errors: readingErrors(locomotive) }),
        ...stuckDial(timeline, fireStretches(timeline)),
        ...(hasThermometer(timeline) ? againstSaturation(sourcesByHand(locomotive, steaming)) : []),
      ];
    case "level": {
      const sources = sourcesByHand(locomotive, steaming);
      const water = { input: balanceInputOf(sources) };
      return [...beyondGlass(sources), ...filledOnTop(sources, water), ...levelsRisen(sources, water)];
    }
    case "temperature":
      return hasThermometer(timeline) ? againstSaturation(sourcesByHand(locomotive, steaming)) : [];
    default:
      return [];
  }
}

const hasThermometer = (timeline: Timeline): boolean =>
  timeline.of("temperature").some((entry) => entry.of === "boiler");
