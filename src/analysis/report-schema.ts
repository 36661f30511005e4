import { z } from "zod";

/** The report of one steaming, as the contract has it. Types are inferred from here; nothing is written twice. */

export const figure = z.union([
  z.strictObject({
    value: z.number(),
    u: z.number().min(0),
    lo95: z.number(),
    hi95: z.number(),
    unit: z.string(),
    parts: z.array(z.strictObject({ name: z.string(), u: z.number().min(0) })).optional(),
  }),
  z.strictObject({ value: z.null(), why: z.string() }),
]);

export const phaseNameSchema = z.enum(["raising", "standing", "running", "shut-in"]);
export type PhaseName = z.infer<typeof phaseNameSchema>;

const seconds = z.number();
const secondsOrNone = z.number().nullable();

export const reportSchema = z.strictObject({
  format: z.literal("lapwater-report"),
  version: z.literal(1),
  steamingId: z.string(),
  locomotiveId: z.string(),
  phases: z.array(
    z.strictObject({
      name: phaseNameSchema,
      fromS: seconds,
      toS: seconds,
      inferred: z.boolean(),
      steamingRate: figure,
      laps: z.number(),
      meanPressureBarG: z.number().nullable(),
    }),
  ),
  totals: z
    .strictObject({
      fromS: secondsOrNone,
      toS: secondsOrNone,
      waterDrawn: figure,
      feed: figure,
      fuelBurnt: figure,
      laps: z.number(),
      distanceM: z.number().nullable(),
      inSteamS: secondsOrNone,
      runningS: seconds,
    })
    .nullable(),
  perLap: z.strictObject({ water: figure, fuel: figure }).nullable(),
  per100m: z.strictObject({ water: figure }).nullable(),
  perMinuteRunning: z.strictObject({ water: figure }).nullable(),
  raising: z
    .strictObject({ toFirstSteamS: secondsOrNone, toWorkingPressureS: secondsOrNone, power: figure })
    .nullable(),
  heat: z
    .strictObject({
      efficiency: figure,
      evaporationRatio: figure,
      factorOfEvaporation: figure,
      equivalentEvaporation: figure,
    })
    .nullable(),
  cooling: z.strictObject({ lossAtWorkingPressure: figure, leak: figure }).nullable(),
  coldHold: z
    .strictObject({ compliance: figure, leak: figure, temperatureCouldExplain: z.boolean() })
    .nullable(),
  safetyValve: z.strictObject({ lift: figure, reseat: figure, highest: figure, rise: figure }).nullable(),
  pump: z
    .strictObject({ perRevolution: figure, volumetricEfficiency: figure, keepsUp: z.boolean().nullable() })
    .nullable(),
  engine: z
    .strictObject({ dryDemand: figure, missingQuantity: figure, overallEfficiency: figure })
    .nullable(),
  leaks: z
    .array(z.strictObject({ fitting: z.string(), atS: seconds, rate: figure, equivalentHole: figure }))
    .nullable(),
  forecast: z
    .strictObject({ atS: seconds, waterAboveLowest: figure, minutesToLowest: figure, lapsToLowest: figure })
    .nullable(),
  warnings: z.array(z.strictObject({ code: z.string(), text: z.string(), entries: z.array(z.string()) })),
});
export type Report = z.infer<typeof reportSchema>;
export type Warning = Report["warnings"][number];
