import type { Steaming } from "../logbook/steaming.ts";
import type { Timeline } from "../logbook/timeline.ts";
import { NONE_BAR } from "./pressure-course.ts";
import type { PressureReading } from "./pressure-readings.ts";

/** No boiler raises steam from cold in less than this, s (our choice). */
const LEAST_TO_STEAM_S = 60;
const BOILING_C = 95;

/**
 * When a fire was lit before any pressure was read: with nothing that speaks for steam she was cold then, and without
 * pressure.
 * @param readings in order of time
 * @returns seconds of the lighting; null where pressure was read by then, or something speaks for steam
 */
export function litColdS(
  { purpose }: Pick<Steaming, "purpose">,
  timeline: Timeline,
  readings: readonly PressureReading[],
): number | null {
  const litS = timeline.of("fire").find(({ state }) => state === "lit")?.atS;
  const first = readings[0];
  if (litS === undefined || first === undefined || purpose === "hot-hold") return null;
  if (first.barG <= NONE_BAR || first.atS - litS < LEAST_TO_STEAM_S) return null;
  const speaksForSteam = timeline.entries.some(
    (entry) =>
      entry.atS < first.atS &&
      ((entry.kind === "temperature" &&
        entry.of === "boiler" &&
        entry.atS <= litS &&
        entry.celsius > BOILING_C) ||
        (entry.kind === "fire" && entry.state === "out") ||
        (entry.kind === "phase" && entry.name !== "raising" && entry.atS <= litS + LEAST_TO_STEAM_S) ||
        (entry.atS <= litS + LEAST_TO_STEAM_S &&
          (["valve", "lap", "revolutions"].includes(entry.kind) ||
            (entry.kind === "regulator" && entry.state === "open")))),
  );
  return speaksForSteam ? null : litS;
}
