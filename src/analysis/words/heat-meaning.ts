import type { Reported } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";

/**
 * Where the fuel's heat went; null where that is not to be had.
 * @param words how a figure is put into words by who prints it, a share in per cent; null where it is not to be had
 */
export function heatSentence(
  { heat, raising }: Pick<Report, "heat" | "raising">,
  words: { perCent: (figure: Reported) => string | null; power: (figure: Reported) => string | null },
): string | null {
  const efficiency = heat === null ? null : words.perCent(heat.efficiency);
  const power = raising === null ? null : words.power(raising.power);
  if (efficiency === null) return null;
  return `Of the fuel's heat ${efficiency} went into water and steam${power === null ? "" : `; raising steam, ${power} went into boiler and water`}.`;
}
