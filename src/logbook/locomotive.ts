import { z } from "zod";
import {
  between,
  identifier,
  lengthMm,
  millilitres,
  millimetres,
  notNegative,
  positive,
  shortWords,
  wholeCount,
} from "./bounds.ts";

const horizontalShape = z.strictObject({
  kind: z.literal("horizontal"),
  innerDiameterMm: lengthMm,
  innerLengthMm: lengthMm,
  tubes: z
    .array(
      z.strictObject({
        outerDiameterMm: lengthMm,
        count: wholeCount(1000),
        centreHeightMm: millimetres.describe(
          "height of the tube's centre above the lowest inside point of the shell",
        ),
      }),
    )
    .max(50)
    .optional(),
});

const horizontalBoiler = horizontalShape
  .refine(
    ({ innerDiameterMm, tubes = [] }) =>
      tubes.every(
        (tube) =>
          Math.abs(tube.centreHeightMm - innerDiameterMm / 2) + tube.outerDiameterMm / 2 <=
          innerDiameterMm / 2,
      ),
    {
      error: "tubes that lie inside the shell (centreHeightMm is from its lowest inside point)",
      path: ["tubes"],
    },
  )
  .refine(leavesRoom, { error: "tubes that leave room for water", path: ["tubes"] });

const verticalShape = z.strictObject({
  kind: z.literal("vertical"),
  innerDiameterMm: lengthMm,
  innerHeightMm: lengthMm,
  tubes: z
    .array(z.strictObject({ outerDiameterMm: lengthMm, count: wholeCount(1000) }))
    .max(50)
    .optional(),
});

const tableShape = z
  .strictObject({
    kind: z.literal("table"),
    points: z
      .array(z.strictObject({ levelMm: millimetres, waterMl: millilitres }))
      .min(1)
      .max(1000)
      .refine(
        (points) =>
          points.every((point, i) => {
            const before = points[i - 1];
            return (
              before === undefined || (point.levelMm > before.levelMm && point.waterMl >= before.waterMl)
            );
          }),
        "points with rising levelMm and no fall of waterMl",
      ),
    totalMl: positive(1e9),
  })
  .refine((table) => table.points.every((point) => point.waterMl <= table.totalMl), {
    error: "waterMl no greater than totalMl",
    path: ["points"],
  });

const verticalBoiler = verticalShape.refine(leavesRoom, {
  error: "tubes that leave room for water",
  path: ["tubes"],
});

/** Tubes take less than the whole of the shell. */
function leavesRoom(shell: {
  innerDiameterMm: number;
  tubes?: readonly { outerDiameterMm: number; count: number }[] | undefined;
}): boolean {
  const taken = (shell.tubes ?? []).reduce((sum, tube) => sum + tube.count * tube.outerDiameterMm ** 2, 0);
  return taken < shell.innerDiameterMm ** 2;
}

export const boilerShapeSchema = z.discriminatedUnion("kind", [horizontalBoiler, verticalBoiler, tableShape]);
export type BoilerShape = z.infer<typeof boilerShapeSchema>;

export const boilerSchema = z
  .strictObject({
    shape: boilerShapeSchema,
    glassZeroMm: millimetres
      .optional()
      .describe("height of the glass's zero above the lowest inside point; 0 if absent"),
    lowestLevelMm: millimetres.describe("lowest level to work at, read on the glass"),
    highestLevelMm: millimetres,
    outerDiameterMm: lengthMm.optional(),
    metalMassG: notNegative(1e9),
    metal: z.enum(["copper", "brass", "steel"]),
    glassWaterC: between(0, 200)
      .optional()
      .describe("temperature of the water standing in the glass, where it is known to be cooler"),
  })
  .refine((boiler) => boiler.highestLevelMm >= boiler.lowestLevelMm, {
    error: "highestLevelMm not below lowestLevelMm",
    path: ["highestLevelMm"],
  });
export type Boiler = z.infer<typeof boilerSchema>;

export const fuelKinds = [
  "spirit",
  "butane",
  "propane",
  "butane-propane-70-30",
  "coal",
  "charcoal",
  "other",
] as const;
export const fuelSchema = z.strictObject({
  kind: z.enum(fuelKinds),
  lowerHeatingValueMJPerKg: positive(150).optional(),
  densityGPerMl: positive(25).optional(),
  tankMl: positive(1e9).optional(),
});
export type Fuel = z.infer<typeof fuelSchema>;

export const fittingKinds = [
  "gland",
  "clack",
  "regulator",
  "safety-valve",
  "joint",
  "gauge-glass",
  "pump",
  "lubricator",
  "burner",
  "other",
] as const;
export const fittingSchema = z.strictObject({
  id: identifier,
  name: shortWords,
  kind: z.enum(fittingKinds),
  packing: shortWords.optional(),
  limitGPerMin: positive(1e6).optional(),
  access: z.array(shortWords).max(50).optional().describe("what must come off to reach it"),
});
export type Fitting = z.infer<typeof fittingSchema>;

export const instrumentsSchema = z.strictObject({
  pressureReadingBar: positive(100).optional().describe("standard uncertainty of one reading of the dial"),
  pressureBiasBar: notNegative(100)
    .optional()
    .describe("standard uncertainty of what all readings of the dial share"),
  levelReadingMm: positive(1000).optional().describe("standard uncertainty of one reading of the glass"),
  feedRelative: notNegative(1)
    .optional()
    .describe("relative standard uncertainty of the scale of the feed measure"),
  massReadingG: positive(1e6).optional().describe("standard uncertainty of one weighing"),
  volumeReadingMl: positive(1e6)
    .optional()
    .describe("standard uncertainty of one reading of a measure or tank"),
});
export type Instruments = z.infer<typeof instrumentsSchema>;

export const locomotiveSchema = z.strictObject({
  id: identifier,
  name: shortWords,
  gaugeMm: lengthMm.optional(),
  workingPressureBarG: positive(150),
  boiler: boilerSchema,
  fuel: fuelSchema,
  cylinders: z
    .strictObject({
      count: z.int().min(1).max(12),
      boreMm: lengthMm,
      strokeMm: lengthMm,
      rodMm: lengthMm.optional(),
      cutoff: positive(1).describe("cut-off as a fraction of the stroke"),
      clearance: notNegative(1).optional().describe("clearance volume as a fraction of the swept volume"),
      doubleActing: z.boolean().optional(),
    })
    .optional(),
  drivingWheelMm: lengthMm.optional(),
  axlePump: z.strictObject({ ramMm: lengthMm, strokeMm: lengthMm, strokesPerRev: positive(100) }).optional(),
  handPump: z
    .strictObject({ mlPerStroke: positive(1e6), uMlPerStroke: notNegative(1e6).optional() })
    .optional(),
  waterTankMl: positive(1e9).optional(),
  fittings: z.array(fittingSchema).max(200),
  instruments: instrumentsSchema.optional(),
});
export type Locomotive = z.infer<typeof locomotiveSchema>;
