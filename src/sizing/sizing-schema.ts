import { z } from "zod";
import { figure } from "../analysis/report-schema.ts";

const ml = z.number();
const probability = z.number().min(0).max(1).nullable();

const heldTank = z.strictObject({
  name: z.string(),
  kind: z.enum(["side-pair", "well", "bunker", "tender"]),
  count: z.int(),
  lengthMm: z.number().nullable(),
  heightMm: z.number().nullable(),
  widthMm: z.number().nullable().describe("outside, at its widest"),
  holds: figure.describe("all inside, of a pair both, ml"),
  usable: figure.describe("what can be drawn, ml"),
});

const fit = z.strictObject({
  waterMl: ml.describe("what the tanks must give, ml"),
  usableMl: ml,
  needed: z.boolean().describe("false where the run needs no tank at all"),
  drawable: z.boolean().describe("false where nothing can bring their water into the boiler in steam"),
  enough: z.boolean().describe("every tank can be made, can be drawn on, and together they hold it"),
  why: z
    .string()
    .nullable()
    .describe("what beside a want of room keeps them from serving, or why none is needed"),
  solved: z
    .strictObject({
      tank: z.string(),
      dimension: z.string(),
      mm: z.number().nullable(),
      needed: z.boolean().describe("false where the other tanks hold enough"),
      why: z.string().nullable(),
    })
    .nullable(),
  short: z
    .strictObject({
      ml,
      ofPlan: z
        .number()
        .nullable()
        .describe(
          "by how many whole laps, minutes or metres less it would do; null where even one is too much",
        ),
      unit: z.string(),
      closers: z.array(
        z.strictObject({
          tank: z.string().nullable().describe("null where it is of the space"),
          dimension: z.string(),
          change: z.enum(["more", "less"]),
          byMm: z.number(),
        }),
      ),
      words: z.string(),
    })
    .nullable(),
  sensitivity: z.array(z.strictObject({ dimension: z.string(), mlPerMm: z.number() })),
});

const lagging = z.strictObject({
  bareW: z.number().describe("the boiler without lagging or cleading"),
  bareWaterMl: ml.nullable(),
  laggedW: z.number(),
  range95: z
    .strictObject({ low: z.number(), high: z.number() })
    .nullable()
    .describe("95 % range of every loss and saving here, as parts of it, by the cooling measured"),
  halfMm: z.strictObject({
    watts: z.number(),
    mlPerMinute: z.number(),
    tankWidthMm: z.number(),
    tankMl: ml.nullable(),
  }),
  source: z.string(),
  points: z.array(
    z.strictObject({
      laggingMm: z.number(),
      lossW: z.number(),
      waterMl: ml.nullable(),
      tankMl: ml.nullable(),
    }),
  ),
});

export const cutPieceSchema = z.strictObject({
  name: z.string(),
  count: z.int(),
  lengthMm: z.number(),
  widthMm: z.number(),
  thicknessMm: z.number(),
  note: z.string().nullable(),
});

/** What a sizing answers; `name(unit)` of the contract are figures. */
export const sizingSchema = z.strictObject({
  demand: figure.describe("ml that the planned run is expected to draw, and where one run may lie"),
  bound: figure.describe("ml that suffice with the asked probability"),
  needed: figure.describe(
    "ml of tank: bound, allowance and reserve less the boiler's, over the usable fraction",
  ),
  probability: z.number(),
  runs: z.array(
    z.strictObject({
      steamingId: z.string(),
      title: z.string(),
      startedAt: z.string(),
      water: figure.describe("g for a lap, minute or metre"),
      amount: z.number().nullable(),
      trainMassKg: z.number().nullable(),
    }),
  ),
  byLoad: z.boolean().describe("whether the demand was read off a line through runs of several loads"),
  withMoreRuns: z.array(z.strictObject({ moreRuns: z.int(), boundMl: ml })),
  tanks: z.array(heldTank),
  fit: fit.nullable(),
  fuel: z.strictObject({
    demand: figure,
    bound: figure,
    liquidMl: figure,
    tankMl: figure,
    holdsMl: ml.nullable(),
    fillMl: ml.nullable(),
    shortMl: ml.nullable(),
    why: z.string().nullable().describe("why a planned fuel tank cannot be made"),
    spare: z.string(),
  }),
  feeding: z.strictObject({
    underPressure: z.boolean().describe("whether water of a tank can be put in while there is steam"),
    byBottle: z.boolean().describe("whether, without that, a bottle has fed her while she ran"),
    handPumpStrokes: z.strictObject({ emptyToHighest: figure, lowestToHighest: figure }),
    axlePump: z.strictObject({ delivers: figure, returned: figure }),
  }),
  endurance: z.strictObject({
    waterLasts: figure,
    fuelLasts: figure,
    fuelEndsFirst: probability,
    waterSuffices: probability,
    fuelSuffices: probability,
    why: z.string().nullable(),
  }),
  lagging: lagging.nullable(),
  cutting: z.array(cutPieceSchema),
  warnings: z.array(z.strictObject({ code: z.string(), text: z.string() })),
});
export type Sizing = z.infer<typeof sizingSchema>;
export type Warning = Sizing["warnings"][number];
/** All of it but what is said of it. */
export type Reckoned = Omit<Sizing, "warnings">;
export type CutPiece = z.infer<typeof cutPieceSchema>;
