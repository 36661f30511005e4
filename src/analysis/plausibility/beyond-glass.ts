import { isInSight } from "../../logbook/glass-reading.ts";
import { asRead } from "../../quantity/digits.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** Beyond the ends of the boiler by this many reading errors is beyond doubt. */
const BEYOND = 3;

/** Levels that no glass on this boiler can show: below its lowest inside point, or above its top. */
export function beyondGlassWarnings({ timeline, geometry, errors }: Sources): Warning[] {
  const slack = BEYOND * errors.levelReadingMm;
  const lowestMm = geometry.levelMmAtWaterM3(0) - slack;
  const highestMm = geometry.levelMmAtWaterM3(geometry.totalM3) + slack;
  const wrong = timeline
    .of("level")
    .filter((entry) => isInSight(entry) && (entry.mm < lowestMm || entry.mm > highestMm));
  const first = wrong[0];
  if (first === undefined) return [];
  return [
    {
      code: "level-beyond-boiler",
      text: `A level of ${asRead(first.mm)} mm at ${Math.round(first.atS)} s is ${first.mm < lowestMm ? "below the bottom" : "above the top"} of the boiler as it is described${wrong.length > 1 ? `, and so are ${wrong.length - 1} more` : ""}: a slip, or the glass's zero is wrong.`,
      entries: wrong.map((entry) => entry.id),
    },
  ];
}
