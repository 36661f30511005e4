import { absent, type Figure, type Measured } from "../../src/quantity/measured.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";

export const exactly = (value: number, unit = "g"): Measured => ({ value, unit, parts: [] });
const none: Figure = absent("not of this test");
const nothing = { water: none, fuel: none, amount: null };

/** A run by its figures a lap, without errors of its own unless they are given. */
export const madeRun = (
  place: number,
  water: Figure,
  fuel: Figure = none,
  more: Partial<RunFigures> = {},
): RunFigures => ({
  steamingId: `run-${place}`,
  title: `Run ${place}`,
  startedAt: "2026-05-01T10:00:00Z",
  trainMassKg: null,
  per: { laps: { water, fuel, amount: 30 }, minutes: nothing, distanceM: nothing },
  otherFuel: none,
  metresPerMinute: null,
  pumpPerRevolution: { value: null, why: "not of this test" },
  coolingLoss: { value: null, why: "not of this test" },
  ...more,
});
