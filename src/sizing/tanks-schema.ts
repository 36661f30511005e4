import { z } from "zod";
import { between, positive, shortWords, wholeCount } from "../logbook/bounds.ts";
import { isTooLong, LONGEST_WORDS, lengthMm, lengthWanted, SCALE_WORDS, scaleRatio } from "./typed-length.ts";

const lengthWithin = (holds: (mm: number) => boolean, words: string) =>
  z
    .union([z.number(), z.string().max(40)])
    .refine((typed) => lengthMm(typed, 1) !== null, {
      error: ({ input }) => lengthWanted(input) ?? undefined,
      abort: true,
    })
    .refine((typed) => {
      const mm = lengthMm(typed, 1);
      return mm !== null && !isTooLong(typed) && holds(mm);
    }, words);

/** A number is mm; a text bears its unit; feet are of the full size and reckoned at the scale. */
export const anyLength = lengthWithin(() => true, `a length of at most ${LONGEST_WORDS}`);
export const someLength = lengthWithin(
  (mm) => mm > 0,
  `a length of more than 0 and at most ${LONGEST_WORDS}`,
);
export const lengthOrNone = lengthWithin(
  (mm) => mm >= 0,
  `a length of 0 or more and at most ${LONGEST_WORDS}`,
);

export const spaceSchema = z
  .strictObject({
    boilerOuterDiameter: someLength.optional().describe("the engine's own if absent"),
    lagging: lengthOrNone.optional().describe("thickness, 1.2 mm if absent"),
    cleading: lengthOrNone.optional().describe("thickness of the sheet, 0.3 mm if absent"),
    band: lengthOrNone.optional().describe("thickness of the bands, 0.2 mm if absent"),
    clearance: lengthOrNone.optional().describe("from the bands to the tank, 1.2 mm if absent"),
    loadingGauge: someLength.optional().describe("whole width that the engine may have"),
    platework: lengthOrNone.optional().describe("what stands out beyond each tank, 0 if absent"),
    rivets: lengthOrNone.optional().describe("height of the rivet heads on the tank, 0 if absent"),
  })
  .describe("What the lagged boiler and the loading gauge leave");

const cutOutSchema = z.strictObject({
  along: lengthOrNone.describe("from the inside of the front end"),
  length: someLength,
  up: lengthOrNone.describe("from the inside of the floor"),
  height: someLength,
  width: someLength.optional().describe("in from the outer face; right through if absent"),
});

const everyTank = {
  name: shortWords.optional(),
  length: someLength.describe("outside"),
  height: someLength.describe("outside"),
  plate: someLength.optional().describe("0.7 mm if absent"),
  cornerRadius: lengthOrNone.optional().describe("inside, of the upright outer corners; 0 if absent"),
  freeboard: lengthOrNone
    .optional()
    .describe("space left above the water; with it or deadDepth given, usableFraction does not apply"),
  deadDepth: lengthOrNone.optional().describe("water under the suction that is never drawn"),
  cutOuts: z.array(cutOutSchema).max(20).optional(),
  pumpBodyMl: between(0, 1e6).optional().describe("what a pump inside takes up, in each of a pair"),
  pipes: z
    .array(z.strictObject({ diameter: someLength, length: someLength, count: wholeCount(100).optional() }))
    .max(20)
    .optional()
    .describe("pipes through the water, in each of a pair"),
};

const sideTanks = z.strictObject({
  kind: z.literal("side-pair"),
  ...everyTank,
  innerFace: z.enum(["flat", "curved"]).optional().describe("flat if absent; curved follows the cleading"),
  base: anyLength.describe(
    "height of the tanks' underside above the boiler's centre line; below is negative",
  ),
  nearest: lengthOrNone
    .optional()
    .describe(
      "how near the engine's centre line a curved tank may come; half the cleading's radius if absent",
    ),
  balancePipe: someLength
    .optional()
    .describe("bore of the pipe that joins the pair, straight from floor to floor"),
});
const box = <Kind extends string>(kind: Kind) =>
  z.strictObject({ kind: z.literal(kind), ...everyTank, width: someLength.describe("outside") });

const wellTank = box("well").extend({
  base: anyLength
    .optional()
    .describe(
      "height of its underside above the boiler's centre line (below is negative), across the engine's middle; with it given its room under the boiler is checked",
    ),
});

export const tankSchema = z.discriminatedUnion("kind", [sideTanks, wellTank, box("bunker"), box("tender")]);

export const solvedDimensions = ["length", "height", "width"] as const;

export const tanksSchema = z
  .strictObject({
    scale: z
      .string()
      .max(40)
      .refine((text) => scaleRatio(text) !== null, SCALE_WORDS)
      .optional()
      .describe("1:32 if absent"),
    space: spaceSchema.optional(),
    water: z.array(tankSchema).min(1).max(12),
    solve: z
      .strictObject({
        tank: wholeCount(11).describe("which of `water`, counted from 0"),
        dimension: z.enum(solvedDimensions),
        atMost: someLength.describe("how large it may become"),
      })
      .optional(),
    fuel: z
      .strictObject({
        box: z.strictObject({ length: someLength, width: someLength, height: someLength }).optional(),
        plate: someLength.optional(),
        holdsMl: positive(1e6).optional().describe("a tank that there is; the engine's own if absent"),
        expansionFraction: between(0.05, 0.1).optional().describe("spirit: 0.08 if absent"),
        liquidFraction: positive(0.8).optional().describe("gas: never above 0.8, which it is if absent"),
      })
      .optional(),
    lagging: z
      .strictObject({
        conductivityWPerMK: positive(5).optional().describe("through its thickness; 0.05 if absent"),
        cleadingSurface: z
          .enum(["painted", "dull", "bright"])
          .optional()
          .describe("of the cleading: painted if absent; dull or bright metal gives off less"),
        ambientC: between(-40, 60).optional(),
        measuredWith: lengthOrNone
          .optional()
          .describe("lagging that was on when the engine's cooling was measured; taken as none if absent"),
      })
      .optional(),
    bendFactor: between(0.2, 0.5)
      .optional()
      .describe("where in the thickness a bend keeps its length; 0.4 if absent"),
  })
  .refine(({ solve, water }) => solve === undefined || solve.tank < water.length, {
    error: "a tank that `water` holds, counted from 0",
    path: ["solve", "tank"],
  })
  .refine(({ solve, water }) => solve?.dimension !== "width" || water[solve.tank]?.kind !== "side-pair", {
    error: "length or height: the loading gauge sets the width of side tanks",
    path: ["solve", "dimension"],
  })
  .refine(
    ({ space, water }) =>
      space?.loadingGauge !== undefined || water.every(({ kind }) => kind !== "side-pair"),
    { error: "loadingGauge, as there are side tanks", path: ["space"] },
  );
export type Tanks = z.infer<typeof tanksSchema>;
export type Tank = z.infer<typeof tankSchema>;
