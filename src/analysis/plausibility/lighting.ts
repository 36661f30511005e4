import { clock } from "../../quantity/clock.ts";
import type { PressureReading } from "../pressure/pressure-points.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { ICE_POINT_K } from "../state/circumstances.ts";

/** How warm the boiler is taken to have been when the fire was lit, where nobody read it. */
export function lightingWarnings({ lighting, timeline, pressures }: Sources): Warning[] {
  if (lighting.said === null) return [];
  const lit = timeline.of("fire").find(({ state }) => state === "lit");
  const first = pressures.all[0] as PressureReading;
  const unread = `No pressure was read until ${clock(first.atS)}`;
  const remedy = "Read the dial, or the boiler's thermometer, before the fire is lit.";
  const { warm } = lighting;
  const text =
    lighting.said === "as first read"
      ? `${unread}, ${Math.round(first.atS - (lit?.atS ?? 0))} s after the fire was lit, and the log speaks of steam before that: ${first.barG.toFixed(1)} bar is taken to have stood from the lighting on. ${remedy}`
      : warm === null
        ? `${unread}: the boiler is taken to have been cold when ${lit === undefined ? "the log begins, by the pace of the rise" : "the fire was lit"}, which makes power and efficiency too high if it was still warm. ${remedy}`
        : `By the pace of the rise the boiler was warm when the fire was lit: it is taken to have been at ${Math.round(warm.kelvin - ICE_POINT_K)} °C, give or take ${Math.round(2 * warm.uK)}. ${remedy}`;
  const code = { cold: "taken-as-cold", warm: "lit-warm", "as first read": "lit-in-steam" }[lighting.said];
  return [{ code, text, entries: lit === undefined ? [] : [lit.id] }];
}
