import { fuelProperties } from "../../../src/analysis/fuel-table.ts";
import type { Sources } from "../../../src/analysis/sources.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { overlapS } from "../../../src/logbook/timeline.ts";
import type { LogEntry } from "../../outbox/database.ts";

/** A figure and where it lies, 9 times in 10. */
export interface Likely {
  value: number;
  low: number;
  high: number;
}

/** Minutes until what was put in is burnt, or why there are none. */
export type FuelEnd = { minutes: Likely; why: null } | { minutes: null; why: string };

type FuelEntry = Extract<LogEntry, { kind: "fuel" }>;

/**
 * Relative doubt of how a fire goes on burning against how it burnt so far: a guess (our estimate, tried on nothing),
 * and shown as one.
 */
const BURNS_ON = 0.3;
/** Normal quantile of a range that holds 9 in 10. */
const FACTOR_90 = 1.645;

/**
 * What was put in, less what was burnt by the last reading of what was left, over the rate at which it went until
 * then. Without such a reading nothing is said: how hard a fire burns is not known from its lighting alone.
 */
export function fuelEnd(
  engine: Locomotive,
  entries: readonly LogEntry[],
  {
    fuel: { fire },
    timeline: { lastS },
  }: Pick<Sources, "timeline"> & { fuel: Pick<Sources["fuel"], "fire"> },
): FuelEnd {
  const none = (why: string): FuelEnd => ({ minutes: null, why });
  const lit = entries.findLast((each) => each.kind === "fire");
  if (lit?.kind !== "fire") return none("the fire was not noted as lit");
  if (lit.state === "out" || lastS === null) return none("the fire is out");
  const burning = (fromS: number, toS: number) => overlapS(fire, fromS, toS);
  const firstS = fire[0]?.[0] ?? lit.atS;
  const fuel = entries.filter((each): each is FuelEntry => each.kind === "fuel");
  const looked = fuel.findLast((each) => each.action === "remaining" && each.atS > firstS);
  if (looked === undefined) return none("no fuel left was read since lighting");
  const density = fuelProperties(engine.fuel)?.densityGPerMl ?? engine.fuel.densityGPerMl;
  const grams = ({ g, ml }: FuelEntry) => g ?? (ml ?? 0) * (density ?? Number.NaN);
  const added = (list: readonly FuelEntry[]) =>
    list.filter((each) => each.action === "added").reduce((sum, each) => sum + grams(each), 0);
  const left = grams(looked);
  const burnt = added(fuel.filter((each) => each.atS <= looked.atS)) - left;
  if (Number.isNaN(burnt))
    return none("fuel is noted by weight and by measure, and its density is not known");
  if (burnt <= 0) return none("what is left is no less than what was put in");
  const sinceG = added(fuel.filter((each) => each.atS > looked.atS));
  const perMinute = burnt / (burning(firstS, looked.atS) / 60);
  const minutes = (left + sinceG) / perMinute - burning(looked.atS, lastS) / 60;
  if (minutes <= 0) return none("by how it burnt, the fuel should be gone: look at it");
  const factor = Math.exp(FACTOR_90 * BURNS_ON);
  return { minutes: { value: minutes, low: minutes / factor, high: minutes * factor }, why: null };
}
