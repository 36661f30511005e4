import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import type { ReadingErrors } from "../state/instruments.ts";
import { fuelProperties, isSolid } from "./fuel-table.ts";

/** A moment at which it is known what had been burnt since the fire was lit. */
export interface BurntAt {
  atS: number;
  grams: number;
  /** of what was put in since the moment before */
  uPutInG: number;
  /** of the reading of what was left; null where it was carried on from the one before */
  uReadG: number | null;
}

export interface FuelStock {
  /** in order of time; the first is the lighting of the fire, with nothing burnt */
  known: readonly [BurntAt, ...BurntAt[]];
  /** nothing was recorded as remaining: the last moment is as if all was burnt */
  leftUnread: boolean;
  /** put in, g, with the standard uncertainty of its measuring */
  putInG: number;
  uPutInG: number;
}

/** More left than there had been, by so many standard uncertainties, is no error of measuring. */
export const BEYOND_MEASURING = 3;
const MORE_LEFT =
  "more fuel was left than there had been: a filling was not written down, or a reading is wrong";

/** Of a fire still lit nearly all may be left, on the grate, in the tank or beside it, or nothing. */
export const LEFT_OF_LIT =
  "what fuel was left was not recorded, and the fire was still lit: measure what is left";
export const stillLit = (timeline: Timeline): boolean => timeline.of("fire").at(-1)?.state !== "out";

/**
 * A tank found empty was seen to be, whatever the scale or the measure; what clings to it unseen is a drop, give or take another,
 * g (our estimate).
 */
const CLINGS_G = 0.03;

/**
 * What was burnt by when, from what was added and what remained: a reading before lighting up is the stock, each
 * later one tells what was burnt until then. A grate that is lit still is not refused here: it may have been left as it was found.
 * @returns the reason where nothing can be said
 */
export function fuelStock(
  timeline: Timeline,
  locomotive: Locomotive,
  errors: ReadingErrors,
  litS: number,
  endS: number,
): FuelStock | string {
  const entries = timeline.of("fuel");
  const densityGPerMl =
    fuelProperties(locomotive.fuel)?.densityGPerMl ?? locomotive.fuel.densityGPerMl ?? null;
  if (densityGPerMl === null && entries.some((entry) => entry.ml !== undefined)) {
    return "fuel was measured in ml and the density of this fuel is not known: give it with the engine";
  }
  const gramsOf = (ml: number) => ml * (densityGPerMl ?? 0);
  const known: [BurntAt, ...BurntAt[]] = [{ atS: litS, grams: 0, uPutInG: 0, uReadG: 0 }];
  let putInG = 0;
  let [variance, sinceVariance] = [0, 0];
  for (const entry of entries) {
    const grams = entry.g ?? gramsOf(entry.ml ?? 0);
    const u = entry.g === undefined ? gramsOf(errors.volumeReadingMl) : errors.massReadingG;
    if (entry.action === "added") {
      putInG += grams;
      const more = grams === 0 ? 0 : u ** 2;
      variance += more;
      sinceVariance += more;
    } else if (entry.atS <= litS) {
      putInG = grams;
      variance = u ** 2;
      sinceVariance = variance;
    } else {
      if (putInG === 0) return "what the tank held when the fire was lit was not recorded";
      const [leftG, uReadG] = grams === 0 ? [CLINGS_G, CLINGS_G] : [grams, u];
      const last = known[known.length - 1] ?? known[0];
      const doubt = Math.hypot(uReadG, last.uReadG ?? 0, Math.sqrt(sinceVariance));
      if (grams - (putInG - last.grams) > BEYOND_MEASURING * doubt) return MORE_LEFT;
      known.push({ atS: entry.atS, grams: putInG - leftG, uPutInG: Math.sqrt(sinceVariance), uReadG });
      sinceVariance = 0;
    }
  }
  const stock = { putInG, uPutInG: Math.sqrt(variance) };
  if (known.length > 1) return { ...stock, known, leftUnread: false };
  if (stillLit(timeline) && !isSolid(locomotive.fuel)) return LEFT_OF_LIT;
  known.push({ atS: endS, grams: putInG, uPutInG: stock.uPutInG, uReadG: null });
  return { ...stock, known, leftUnread: true };
}
