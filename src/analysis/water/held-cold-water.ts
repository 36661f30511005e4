import { listed, type NamedEntry, type Timeline } from "../../logbook/timeline.ts";
import type { PressureCourse } from "../pressure/pressure-course.ts";
import type { Sources } from "../sources.ts";
import { boilerStates } from "../state/boiler-state.ts";
import { heldCold } from "../state/held-cold.ts";
import { type Water, waterOf } from "./water.ts";

export const STROKE_NOT_KNOWN = "the millilitres of a stroke of the hand pump are not known";

/** Whether strokes put in nobody knows how much. */
export const strokesUnmeasured = ({
  steaming,
  timeline,
  locomotive,
}: Pick<Sources, "steaming" | "timeline" | "locomotive">): boolean =>
  locomotive.handPump === undefined && heldCold(steaming, timeline) && timeline.of("strokes").length > 0;

/** The water of a boiler held cold: strokes of the hand pump are feed, and whatever they raise there is no steam. */
export function waterHeldCold(from: Sources): Water {
  const timeline = strokesAsFeed(from);
  const pressure = withoutSteam(from.pressure);
  const { at: stateAt } = boilerStates(
    timeline,
    pressure,
    from.around,
    from.locomotive.workingPressureBarG,
    from.lighting.warm,
  );
  const water = waterOf({ ...from, timeline, pressure, stateAt });
  return strokesUnmeasured(from) ? { ...water, balance: null, why: STROKE_NOT_KNOWN } : water;
}

function strokesAsFeed({ timeline, locomotive }: Sources): Timeline {
  const pump = locomotive.handPump;
  if (pump === undefined) return timeline;
  const entries = timeline.entries.map((entry): NamedEntry => {
    if (entry.kind !== "strokes") return entry;
    const { id, atS, count } = entry;
    return { id, atS, kind: "feed", by: "hand-pump", ml: count * pump.mlPerStroke, strokes: count };
  });
  return { ...timeline, ...listed(entries) };
}

const withoutSteam = (course: PressureCourse): PressureCourse => ({
  ...course,
  points: [],
  away: [],
  atS: () => 0,
  highest: null,
  firstSteamS: null,
  beganInSteam: false,
});
