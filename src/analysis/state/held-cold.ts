import type { Steaming } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";

/**
 * A hydraulic hold in which no fire was lit: pressure without steam, and above working pressure on purpose. Pump strokes
 * with the pressure that they reached tell one of no other purpose too.
 */
export const heldCold = ({ purpose }: Pick<Steaming, "purpose">, timeline: Timeline): boolean =>
  (purpose === "cold-hold" || (purpose === "other" && timeline.of("strokes").length > 0)) &&
  timeline.of("fire").every(({ state }) => state !== "lit");

/**
 * Whether what was under pressure at a moment was cold water, by a pump: a hydraulic hold, or one pumped up by strokes
 * under another purpose, with no fire lit before.
 */
export const coldAt = (
  { steaming, timeline }: { steaming: Pick<Steaming, "purpose">; timeline: Timeline },
  atS: number,
): boolean =>
  (steaming.purpose === "cold-hold" || timeline.of("strokes").length > 0) &&
  timeline.of("fire").every((fire) => fire.state !== "lit" || fire.atS > atS);

/** From when on pressure is steam: where cold water was pumped up first, from the lighting of the fire. */
export function steamFromS(
  from: { steaming: Pick<Steaming, "purpose">; timeline: Timeline },
  startS: number,
): number {
  const litS = from.timeline.of("fire").find(({ state }) => state === "lit")?.atS;
  return litS !== undefined && coldAt(from, startS) ? litS : startS;
}
