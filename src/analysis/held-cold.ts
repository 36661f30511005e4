import type { Steaming } from "../logbook/steaming.ts";
import type { Timeline } from "../logbook/timeline.ts";

/**
 * A hydraulic hold in which no fire was lit: pressure without steam, and above working pressure on purpose. Pump strokes
 * with the pressure that they reached tell one of no other purpose too.
 */
export const heldCold = ({ purpose }: Pick<Steaming, "purpose">, timeline: Timeline): boolean =>
  (purpose === "cold-hold" || (purpose === "other" && timeline.of("strokes").length > 0)) &&
  timeline.of("fire").every(({ state }) => state !== "lit");
