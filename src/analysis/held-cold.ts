import type { Steaming } from "../logbook/steaming.ts";
import type { Timeline } from "../logbook/timeline.ts";

/** A hydraulic hold in which no fire was lit: pressure without steam, and above working pressure on purpose. */
export const heldCold = ({ purpose }: Pick<Steaming, "purpose">, timeline: Timeline): boolean =>
  purpose === "cold-hold" && timeline.of("fire").every(({ state }) => state !== "lit");
