import type { Entry } from "../../logbook/entry.ts";
import type { Steaming } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import type { Phase } from "./phases.ts";

interface Held {
  steaming: Pick<Steaming, "purpose">;
  timeline: Timeline;
  phases: readonly Phase[];
}

/** In a hot hold of which no entry says that steam was used nothing but leaks drew, from lighting up to the last entry. */
export const onlyLeaked = ({ steaming, timeline, phases }: Held): boolean =>
  steaming.purpose === "hot-hold" &&
  phases.every(({ name }) => name !== "running") &&
  !timeline.entries.some(usesSteam);

export const usesSteam = (entry: Entry): boolean =>
  entry.kind === "lap" ||
  entry.kind === "revolutions" ||
  (entry.kind === "regulator" && entry.state === "open") ||
  (entry.kind === "blower" && entry.state === "on") ||
  (entry.kind === "valve" && entry.state === "lifts");
