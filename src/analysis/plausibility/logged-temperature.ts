import { clock } from "../../quantity/clock.ts";
import { printed } from "../../quantity/digits.ts";
import { loggedAbout } from "../pressure/offset.ts";
import { samplesOf } from "../pressure/trace-samples.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { ICE_POINT_K } from "../state/circumstances.ts";
import { heldCold } from "../state/held-cold.ts";
import { disagreesWithSaturation, mostDisagree, type Pair, pointsRead } from "./saturation.ts";

/** By so many seconds a thermometer may lag, or a reading be written down beside its moment (our estimate). */
const LAG_S = 10;

/** Each pressure as it was read, with what a logger showed of the boiler's temperature at that moment. */
export function loggedPairs(from: Sources): Omit<Pair, "ids">[] {
  const { timeline, pressure, errors, around } = from;
  const samples = samplesOf(timeline, "temperatureC");
  if (samples.length === 0 || heldCold(from.steaming, timeline)) return [];
  const thoughtS = pressure.beginsThought ? pressure.points[0]?.[0] : undefined;
  const points = pointsRead(from).filter(([atS]) => atS !== thoughtS);
  return points.flatMap(([atS, barG]) => {
    const about = loggedAbout(samples, atS);
    if (about === null) return [];
    const boilingK = around.boilingK(barG);
    const kelvinPerBar = (around.boilingK(barG + NEAR_BAR) - boilingK) / NEAR_BAR;
    const uBar = Math.hypot(
      errors.pressureReadingBar,
      errors.pressureBiasBar,
      (about.pace * LAG_S) / kelvinPerBar,
    );
    return [
      {
        atS,
        barG,
        celsius: about.value,
        saturationC: boilingK - ICE_POINT_K,
        disagrees: disagreesWithSaturation(from, barG, about.value, uBar),
      },
    ];
  });
}
const NEAR_BAR = 0.05;

/** One alone may be a slip. */
const MORE_THAN = 1;

/** A logger of the boiler's temperature that stands off from the pressure: it may be of something else, or stuck. */
export function loggedTemperatureWarnings(from: Sources): Warning[] {
  const pairs = loggedPairs(from);
  const wrong = pairs.filter(({ disagrees }) => disagrees);
  if (wrong.length <= MORE_THAN) return [];
  const { atS, barG, celsius, saturationC } = furthestOff(wrong);
  return [
    {
      code: "pressure-and-logged-temperature",
      text: `Pressure and the temperature that was logged disagree: at ${clock(atS)}, ${barG.toFixed(1)} bar and ${printed(celsius, 0)} °C, where steam of that pressure is at ${Math.round(saturationC)} °C.${
        mostDisagree(pairs, wrong.length)
          ? " Most of it does, so the thermometer is not in the boiler's water or steam, or it or the dial is wrong."
          : ""
      }`,
      entries: [],
    },
  ];
}

type Off = Pick<Pair, "celsius" | "saturationC">;
const offK = ({ celsius, saturationC }: Off): number => Math.abs(celsius - saturationC);

/** @param pairs one or more */
export const furthestOff = <One extends Off>(pairs: readonly One[]): One =>
  pairs.reduce((a, b) => (offK(b) > offK(a) ? b : a));
