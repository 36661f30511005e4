import type { Locomotive } from "../../logbook/locomotive.ts";
import { type NamedEntry, type Timeline, timelineOf } from "../../logbook/timeline.ts";
import type { Warning } from "../report-schema.ts";
import { type ByHand, sourcesByHand } from "../sources.ts";
import { readingErrors } from "../state/instruments.ts";
import { fireStretches } from "../state/phases.ts";
import { balanceInputOf } from "../water/water.ts";
import { beyondGlassWarnings } from "./beyond-glass.ts";
import { lapPaceWarnings } from "./lap-pace.ts";
import { outlyingPressureWarnings } from "./outlying-pressure.ts";
import { risingLevelWarnings, toppingUpWarnings } from "./rising-level.ts";
import { saturationWarnings } from "./saturation.ts";
import { stuckDialWarnings } from "./stuck-dial.ts";

/**
 * The sheet's own checks, those that an entry of this kind can set off, as of now: what they say is what the sheet
 * would say of this log. Only as much is worked out as they need, so that it is quick on a phone.
 */
export function warningsAtTap(locomotive: Locomotive, steaming: ByHand, kind: NamedEntry["kind"]): Warning[] {
  const timeline = timelineOf(steaming);
  switch (kind) {
    case "lap":
      return lapPaceWarnings({ timeline, steaming, locomotive });
    case "pressure":
      return [
        ...outlyingPressureWarnings({ asWritten: timeline, locomotive, errors: readingErrors(locomotive) }),
        ...stuckDialWarnings({ timeline, fuel: { fire: fireStretches(timeline) } }),
        ...(hasThermometer(timeline) ? saturationWarnings(sourcesByHand(locomotive, steaming)) : []),
      ];
    case "level": {
      const sources = sourcesByHand(locomotive, steaming);
      const water = { input: balanceInputOf(sources) };
      return [
        ...beyondGlassWarnings(sources),
        ...toppingUpWarnings(sources, water),
        ...risingLevelWarnings(sources, water),
      ];
    }
    case "temperature":
      return hasThermometer(timeline) ? saturationWarnings(sourcesByHand(locomotive, steaming)) : [];
    default:
      return [];
  }
}

const hasThermometer = (timeline: Timeline): boolean =>
  timeline.of("temperature").some((entry) => entry.of === "boiler");
