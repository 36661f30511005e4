import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { heldCold } from "../state/held-cold.ts";
import { drainedInSteam } from "../water/mass-readings.ts";

/** Water let out while it still boiled: its ml do not tell its weight. */
export function drainedHotWarnings(from: Sources): Warning[] {
  if (heldCold(from.steaming, from.timeline)) return [];
  const last = from.timeline.of("drained").at(-1);
  const hot = last === undefined ? null : drainedInSteam(from, last.atS);
  if (last === undefined || hot === null) return [];
  return [
    {
      code: "drained-hot",
      text: `The water was let out at ${clock(last.atS)}, when the dial had shown ${hot.barG.toFixed(1)} bar ${Math.round(last.atS - hot.readS)} s before. Hot water takes more room, and a part boils away as it comes out, so what was drawn is given wide: let her cool before the water is let out, or read the boiler's thermometer.`,
      entries: [last.id],
    },
  ];
}
