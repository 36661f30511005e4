import type { PressureReading } from "../pressure/pressure-points.ts";
import { reachedByStrokes } from "../pressure/pressure-readings.ts";
import type { Sources } from "../sources.ts";
import { coldAt, heldCold } from "../state/held-cold.ts";

/** All pressures read while she was cold: off the dial, also as strokes reached them, and by a logger; in order of time. */
export function pressuresRead(from: Sources): readonly PressureReading[] {
  const { timeline, steaming, pressures, errors } = from;
  if (heldCold(steaming, timeline)) return pressures.all;
  return [...pressures.all, ...reachedByStrokes(timeline, errors)]
    .filter(({ atS }) => coldAt(from, atS))
    .sort((a, b) => a.atS - b.atS);
}

/** Of the pressures read other than at strokes, those off the dial and those by a logger. */
export function readBeside(from: Sources) {
  const read = pressuresRead(from).filter(({ strokesId }) => strokesId === undefined);
  return {
    dial: read.filter(({ by }) => by === "dial"),
    logged: read.filter(({ by }) => by === "logger"),
  };
}
