import type { Reported } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";

/** How a figure is put into words by who prints it; null where it is not to be had. */
export interface PumpWords {
  turn: (figure: Reported) => string | null;
  perCent: (figure: Reported) => string | null;
  /** a bare number */
  times: (figure: Reported) => string | null;
}

/**
 * What the axle pump gives, and whether that keeps up; null where neither is told.
 * @param timesDrawn what it gives over what she draws, both under way
 */
export function pumpSentence(
  pump: Report["pump"],
  timesDrawn: Reported | null,
  words: PumpWords,
): string | null {
  if (pump === null) return null;
  const times = timesDrawn === null ? null : words.times(timesDrawn);
  const turn = words.turn(pump.perRevolution);
  if (turn === null && pump.keepsUp === null) return null;
  const keeps = `${keepsInWords(pump.keepsUp)}${times === null ? "" : `: with the by-pass shut it gives ${times} times as much`}`;
  if (turn === null) return `Of the axle pump: ${keeps}.`;
  return `The axle pump gives ${turn} a turn, ${words.perCent(pump.volumetricEfficiency)} of what its ram sweeps; ${keeps}.`;
}

const keepsInWords = (keepsUp: boolean | null): string =>
  keepsUp === null
    ? "whether it keeps up with what she draws cannot be told from these readings"
    : keepsUp
      ? "it keeps up with what she draws"
      : "it does not keep up with what she draws";
