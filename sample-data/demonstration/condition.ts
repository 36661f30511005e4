import type { Service } from "../../src/logbook/service.ts";
import type { Condition } from "./tansy.ts";

/**
 * How the fittings wear with hours in steam, and what was done to them. Right gland and glass nut grow until
 * repacked and nipped up, the clack until re-seated; the others stay much as they are.
 */
const growth: Readonly<Record<string, { fresh: number; perHour: number; power: number }>> = {
  "right-gland": { fresh: 0.1, perHour: 0.42, power: 1.3 },
  "left-gland": { fresh: 0.1, perHour: 0.05, power: 1 },
  "regulator-gland": { fresh: 0.02, perHour: 0, power: 1 },
  regulator: { fresh: 0.03, perHour: 0.004, power: 1 },
  "feed-clack": { fresh: 0.04, perHour: 0.08, power: 1.2 },
  "safety-valve": { fresh: 0.05, perHour: 0.006, power: 1 },
  "glass-top": { fresh: 0.01, perHour: 0.025, power: 1 },
  turret: { fresh: 0.01, perHour: 0, power: 1 },
};

/** Worn glands and rings waste steam: excess of the cylinders fresh, and its growth an hour since the repacking. */
const EXCESS_FRESH = 1.15;
const EXCESS_PER_HOUR = 0.085;

export const services: readonly Service[] = [
  {
    id: "tansy-service-1",
    locomotiveId: "tansy",
    fittingId: "glass-top",
    at: "2026-05-28T19:30:00+01:00",
    what: "replaced",
    note: "New glass and rings; the old one broke on the bench.",
  },
  {
    id: "tansy-service-2",
    locomotiveId: "tansy",
    fittingId: "right-gland",
    at: "2026-06-24T20:00:00+01:00",
    what: "repacked",
    note: "Old yarn was hard. Rod has a light score, polished.",
  },
  {
    id: "tansy-service-3",
    locomotiveId: "tansy",
    fittingId: "left-gland",
    at: "2026-06-24T20:40:00+01:00",
    what: "repacked",
  },
  {
    id: "tansy-service-4",
    locomotiveId: "tansy",
    fittingId: "feed-clack",
    at: "2026-08-01T18:00:00+01:00",
    what: "re-seated",
    note: "Ball seat trued with a cutter, new ball.",
  },
];

/** Condition at a day, from hours in steam since the season began and the hours at which each was serviced. */
export function conditionAt(hours: number, servicedAtHours: Readonly<Record<string, number>>): Condition {
  const leaks: Record<string, number> = {};
  for (const [fitting, { fresh, perHour, power }] of Object.entries(growth)) {
    const since = hours - (servicedAtHours[fitting] ?? 0);
    leaks[fitting] = fresh + perHour * since ** power;
  }
  const sinceRepacked = hours - (servicedAtHours["right-gland"] ?? 0);
  return { leaks, excess: EXCESS_FRESH + EXCESS_PER_HOUR * sinceRepacked };
}
