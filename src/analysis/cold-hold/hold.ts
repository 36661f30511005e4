import { gathered, type Measured } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import { type FallenPressure, fallenPressure, type HeldPoint } from "./cold-hold-fall.ts";
import { type Softness, softnessBetween } from "./softness.ts";

/** When she was held with the pump at rest and pressure on, and how far the pressure fell. */
export interface Hold extends FallenPressure {
  fromS: number;
  toS: number;
  /** bar; its error is that of the water it stands for, in bars of the mean softness */
  fall: Measured;
}

/** Of a boiler whose softness is not known: all of it metal and water. */
const ALIKE: Softness = { steadyMlPerBar: 1, airMl: 0, atmosphereBar: 1 };

/**
 * @param points read in the hold, at two moments or more
 * @param softness null where it is not known: as if it gave alike at any pressure
 */
export function holdOf(
  { errors, locomotive }: Sources,
  points: readonly HeldPoint[],
  softness: Softness | null,
): Hold {
  const { pressureReadingBar, pressureBiasBar } = errors;
  const by = softness ?? ALIKE;
  const found = fallenPressure(points, pressureReadingBar, by);
  // a dial that reads high bends the curve: what it does is found out by lowering all that it read
  const lowered = fallenPressure(
    points.map((point) => ({ ...point, barG: point.barG - pressureBiasBar })),
    pressureReadingBar,
    by,
  );
  const mlPerBar = softnessBetween(by, found.fromBar, found.toBar);
  const parts = gathered([
    { name: "pressure readings", u: found.uLostMl / mlPerBar },
    {
      name: "bias of the pressure dial",
      source: sharedSource.dial(locomotive),
      u: (found.lostMl - lowered.lostMl) / mlPerBar,
    },
  ]);
  return {
    ...found,
    fromS: points[0]?.atS ?? 0,
    toS: points.at(-1)?.atS ?? 0,
    fall: { value: found.fromBar - found.toBar, unit: "bar", parts },
  };
}
