import { glassReading, isInSight } from "../../logbook/glass-reading.ts";
import { clock } from "../../quantity/clock.ts";
import { asRead } from "../../quantity/digits.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";

/** Water read below the lowest level to work at while the fire was lit, or may have been, on the glass or by a logger of the level. */
export function belowLowestWarnings({ timeline, locomotive, fuel, logged }: Sources): Warning[] {
  const { lowestLevelMm } = locomotive.boiler;
  const fire =
    timeline.of("fire").length > 0 ? "with the fire lit" : "and no entry says that the fire was out";
  const lit = (atS: number) => fuel.fire.some(([fromS, toS]) => atS >= fromS && atS <= toS);
  const low = timeline
    .of("level")
    .filter(
      (entry) =>
        lit(entry.atS) && (glassReading(entry) === "below" || (isInSight(entry) && entry.mm < lowestLevelMm)),
    );
  const stood = [
    ...low.map((entry) => ({
      atS: entry.atS,
      where: isInSight(entry) ? `at ${mm(entry.mm)}` : "out of sight below the glass",
    })),
    ...logged.readings
      .filter(({ of, atS, value }) => of === "level" && value < lowestLevelMm && lit(atS))
      .map(({ atS, value }) => ({ atS, where: `at ${mm(value)} by the logger` })),
  ];
  const [first] = stood.sort((a, b) => a.atS - b.atS);
  if (first === undefined) return [];
  return [
    {
      code: "water-below-lowest",
      text: `The water stood ${first.where} at ${clock(first.atS)}, below the lowest level of ${mm(lowestLevelMm)}, ${fire}. Where it stands so, let the fire out, and look at the glass.`,
      entries: low.map(({ id }) => id),
    },
  ];
}

const mm = (value: number): string => `${asRead(Number(value.toFixed(1)))} mm`;
