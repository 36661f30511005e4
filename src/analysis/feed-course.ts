import type { Locomotive } from "../logbook/locomotive.ts";
import type { Timeline } from "../logbook/timeline.ts";
import { waterState } from "../steam/region1.ts";
import { type Circumstances, ICE_POINT_K } from "./circumstances.ts";
import { type ReadingErrors, sharedSource } from "./instruments.ts";

/** One quantity of water put in (positive) or let out (negative), by the hand of the driver. */
export interface WaterMove {
  atS: number;
  /** place in the log, to tell what came first within one second */
  order: number;
  grams: number;
  /** counts as feed in the totals (a filling and a blow-down do not) */
  isFeed: boolean;
  /** comes from, or goes to, outside the engine, so that a weighing of the engine sees it */
  fromOutside: boolean;
  /** relative standard uncertainty of its scale, and the name under which that error is shared */
  scaleRelative: number;
  source: string;
  sourceName: string;
  /** standard uncertainty of this one measure alone */
  uGrams: number;
}

/** First filling of an empty boiler fixes the mass; later ones are water moves. */
export function waterMoves(
  timeline: Timeline,
  locomotive: Locomotive,
  around: Circumstances,
  errors: ReadingErrors,
  massKnownFromOrder: number,
): WaterMove[] {
  const gramsPerMl = densityGPerMl(around.feedC, around);
  const uVolumeG = errors.volumeReadingMl * gramsPerMl;
  const feedScale = sharedSource.feedScale(locomotive);
  const pump = locomotive.handPump;
  const lastDrainOrder = timeline.entries.findLastIndex((entry) => entry.kind === "drained");

  return timeline.entries.flatMap((entry, order): WaterMove[] => {
    const common = { atS: entry.atS, order };
    const byMeasure = {
      scaleRelative: errors.feedRelative,
      source: feedScale,
      sourceName: "scale of the feed measure",
    };
    switch (entry.kind) {
      case "feed": {
        const byHandPump = entry.by === "hand-pump" && pump?.uMlPerStroke !== undefined;
        return [
          {
            ...common,
            grams: entry.ml * gramsPerMl,
            isFeed: true,
            fromOutside: entry.by === "bottle",
            ...(byHandPump && pump.uMlPerStroke !== undefined
              ? {
                  scaleRelative: pump.uMlPerStroke / pump.mlPerStroke,
                  source: sharedSource.handPump(locomotive),
                  sourceName: "hand pump's ml a stroke",
                }
              : byMeasure),
            uGrams: entry.by === "bottle" ? uVolumeG : 0,
          },
        ];
      }
      case "blowdown":
        return [
          {
            ...common,
            grams: -entry.ml * gramsPerMl,
            isFeed: false,
            fromOutside: true,
            ...byMeasure,
            uGrams: uVolumeG,
          },
        ];
      case "fill":
        return order > massKnownFromOrder
          ? [
              {
                ...common,
                grams: entry.ml * gramsPerMl,
                isFeed: false,
                fromOutside: true,
                ...byMeasure,
                uGrams: uVolumeG,
              },
            ]
          : [];
      case "drained":
        return order < lastDrainOrder
          ? [
              {
                ...common,
                grams: -entry.ml * gramsPerMl,
                isFeed: false,
                fromOutside: true,
                ...byMeasure,
                uGrams: uVolumeG,
              },
            ]
          : [];
      default:
        return [];
    }
  });
}

/** Density of cold water at the given temperature and the pressure of the air, g/ml. */
export const densityGPerMl = (celsius: number, around: Circumstances): number =>
  1e-3 / waterState(Math.min(celsius + ICE_POINT_K, around.boilingK(0)), around.atmospherePa).volumeM3PerKg;
