import type { Draining } from "../forecast/time-until-none.ts";
import type { Sources } from "../sources.ts";
import { burningClock, burningOf } from "./fuel-burning.ts";
import { fuelProperties } from "./fuel-table.ts";

/** The fuel as it goes, g and g a minute as of the last entry; or why it cannot be told when it ends. */
export type FuelLeft = { draining: Draining; why: null } | { draining: null; why: string };

/** A fire flickers: what it burns in m minutes strays by this part of a minute's fuel times root m. */
const FLICKER = 0.12;

/**
 * What was put in, less what was burnt by the last reading of what was left, and the rate at which it went until
 * then. Without such a reading nothing is said: how hard a fire burns is not known from its lighting alone.
 */
export function fuelLeft({ fuel: { fire }, timeline, phases, locomotive, errors }: Sources): FuelLeft {
  const none = (why: string): FuelLeft => ({ draining: null, why });
  const lit = timeline.of("fire").at(-1);
  const { lastS } = timeline;
  const firstS = fire[0]?.[0];
  if (lit === undefined || lastS === null || firstS === undefined)
    return none("the fire was not noted as lit");
  if (lit.state === "out") return none("the fire is out");
  const entries = timeline.of("fuel");
  const looked = entries.findLast((each) => each.action === "remaining" && each.atS > firstS);
  if (looked === undefined) return none("no fuel left was read since lighting");
  const density = fuelProperties(locomotive.fuel)?.densityGPerMl ?? locomotive.fuel.densityGPerMl;
  const perMl = density ?? Number.NaN;
  let [putInG, putInVariance, sinceG] = [0, 0, 0];
  for (const entry of entries) {
    const { action, g, ml, atS } = entry;
    const grams = g ?? (ml ?? 0) * perMl;
    const u2 = (g === undefined ? errors.volumeReadingMl * perMl : errors.massReadingG) ** 2;
    if (action === "remaining" && atS <= firstS) [putInG, putInVariance] = [grams, u2];
    if (action !== "added") continue;
    if (atS <= looked.atS) [putInG, putInVariance] = [putInG + grams, putInVariance + u2];
    else sinceG += grams;
  }
  const readG = looked.g ?? (looked.ml ?? 0) * perMl;
  const readVariance = (looked.g === undefined ? errors.volumeReadingMl * perMl : errors.massReadingG) ** 2;
  const burntG = putInG - readG;
  if (putInG === 0) return none("nobody noted how much fuel was put in");
  if (Number.isNaN(burntG))
    return none("fuel is noted by weight and by measure, and its density is not known");
  if (burntG <= 0) return none("what is left is no less than what was put in");
  const how = burningOf(locomotive.fuel);
  const burning = burningClock(fire, phases, how);
  const minutes = burning(firstS, looked.atS) / 60;
  const sinceMin = burning(looked.atS, lastS) / 60;
  const rate = burntG / minutes;
  const left = readG + sinceG - rate * sinceMin;
  if (left <= 0) return none("by how it burnt, the fuel should be gone: look at it");
  // a reading too high is more left, and less burnt until then
  const ofRate = (putInVariance + readVariance) / minutes ** 2;
  const flicker = (FLICKER * rate) ** 2;
  const another = (how.goesOn * rate) ** 2 + flicker / minutes;
  return {
    draining: {
      left,
      rate,
      leftVariance:
        readVariance +
        sinceMin ** 2 * (ofRate + another) +
        (2 * sinceMin * readVariance) / minutes +
        flicker * sinceMin,
      rateVariance: ofRate + another,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      covariance: -readVariance / minutes - sinceMin * (ofRate + another) - flicker / 2,
    },
    why: null,
  };
}
