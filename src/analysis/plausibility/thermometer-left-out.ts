import { clock } from "../../quantity/clock.ts";
import { printed } from "../../quantity/digits.ts";
import { isWarmthRead, leftOutThermometer } from "../cooling/believed-thermometer.ts";
import { shutInWindow } from "../cooling/shut-in-course.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { furthestOff } from "./logged-temperature.ts";

/** A boiler thermometer that does not go with the dial while all was shut: loss and leak do without it. */
export function thermometerLeftOutWarnings(from: Sources): Warning[] {
  const window = isWarmthRead(from) ? shutInWindow(from) : null;
  if (window === null) return [];
  const { byHand, logged } = leftOutThermometer(from, ...window);
  const off = [...(byHand ?? []), ...(logged ?? [])];
  if (off.length === 0) return [];
  const worst = furthestOff(off);
  return [
    {
      code: "thermometer-left-out",
      text: `The boiler's thermometer does not go with the dial: at ${clock(worst.atS)} it showed ${printed(worst.celsius, 0)} °C where steam of the ${worst.barG.toFixed(1)} bar that were read is at ${Math.round(worst.saturationC)} °C. Which is wrong is not known: loss and leak with all shut are taken from the pressures alone.`,
      entries: [],
    },
  ];
}
