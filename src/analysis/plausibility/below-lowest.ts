import { glassReading, isInSight } from "../../logbook/glass-reading.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** Water read below the lowest level to work at while the fire was lit, on the glass or by a logger of the level. */
export function belowLowestWarnings({ timeline, locomotive, fuel, logged }: Sources): Warning[] {
  const { lowestLevelMm } = locomotive.boiler;
  const lit = (atS: number) => fuel.fire.some(([fromS, toS]) => atS >= fromS && atS <= toS);
  const low = timeline
    .of("level")
    .filter(
      (entry) =>
        lit(entry.atS) && (glassReading(entry) === "below" || (isInSight(entry) && entry.mm < lowestLevelMm)),
    );
  const loggedLow = logged.readings.find(
    ({ of, atS, value }) => of === "level" && value < lowestLevelMm && lit(atS),
  );
  const first = low[0];
  const loggedFirst = loggedLow !== undefined && (first === undefined || loggedLow.atS < first.atS);
  if (first === undefined && loggedLow === undefined) return [];
  const stood = loggedFirst
    ? `at ${mm(loggedLow.value)} by the logger at ${Math.round(loggedLow.atS)} s`
    : first !== undefined && isInSight(first)
      ? `at ${mm(first.mm)} at ${Math.round(first.atS)} s`
      : `out of sight below the glass at ${Math.round(first?.atS ?? 0)} s`;
  return [
    {
      code: "water-below-lowest",
      text: `The water stood ${stood}, below the lowest level of ${mm(lowestLevelMm)}, with the fire lit. Where it stands so, let the fire out, and look at the glass.`,
      entries: low.map(({ id }) => id),
    },
  ];
}

const mm = (value: number): string => `${Number(value.toFixed(1))} mm`;
