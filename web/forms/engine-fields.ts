import { fittingKindNames } from "../words/fitting-names.ts";
import { fuelNames } from "../words/names.ts";
import { choice, type FieldSpec, number, text } from "./field-spec.ts";
import { yesNo } from "./yes-no-control.tsx";

const needed = { needed: true } as const;

export const engineFields: readonly FieldSpec[] = [
  text("name", "Name", needed),
  number("workingPressureBarG", "Working pressure", "bar", needed),
  choice("fuel.kind", "Fuel", Object.entries(fuelNames), needed),
];

export const boilerFields: readonly FieldSpec[] = [
  number("boiler.lowestLevelMm", "Lowest level in the glass", "mm", {
    needed: true,
    hint: "The lowest you work at, as the glass reads.",
  }),
  number("boiler.highestLevelMm", "Highest level in the glass", "mm", needed),
  number("boiler.metalMassG", "Weight of the boiler's metal", "g", needed),
  choice(
    "boiler.metal",
    "Metal",
    [
      ["copper", "copper"],
      ["brass", "brass"],
      ["steel", "steel"],
    ],
    needed,
  ),
];

export const shapeKinds: readonly (readonly [string, string])[] = [
  ["horizontal", "a horizontal shell"],
  ["vertical", "a vertical shell"],
  ["table", "measured by syringe: level and water"],
];

export const shapeFields: Record<string, readonly FieldSpec[]> = {
  horizontal: [
    number("boiler.shape.innerDiameterMm", "Inner diameter of the shell", "mm", needed),
    number("boiler.shape.innerLengthMm", "Inner length", "mm", needed),
  ],
  vertical: [
    number("boiler.shape.innerDiameterMm", "Inner diameter of the shell", "mm", needed),
    number("boiler.shape.innerHeightMm", "Inner height", "mm", needed),
  ],
  table: [number("boiler.shape.totalMl", "The whole boiler holds", "ml", needed)],
};

export const engineFurtherSections: readonly { title: string; fields: readonly FieldSpec[] }[] = [
  {
    title: "More of the boiler and the fuel",
    fields: [
      number("gaugeMm", "Track gauge", "mm"),
      number("boiler.glassZeroMm", "Zero of the glass", "mm", { hint: "Above the lowest inside point." }),
      number("boiler.outerDiameterMm", "Outer diameter", "mm"),
      number("boiler.glassWaterC", "Water in the glass", "°C", { hint: "Where it stands cooler." }),
      number("fuel.lowerHeatingValueMJPerKg", "Heating value", "MJ/kg", { hint: "The lower one." }),
      number("fuel.densityGPerMl", "Density of the fuel", "g/ml"),
      number("fuel.tankMl", "Fuel tank holds", "ml"),
      number("waterTankMl", "Water tank holds", "ml"),
    ],
  },
  {
    title: "Cylinders and wheels",
    fields: [
      number("cylinders.count", "Cylinders", ""),
      number("cylinders.boreMm", "Bore", "mm"),
      number("cylinders.strokeMm", "Stroke", "mm"),
      number("cylinders.rodMm", "Piston rod", "mm"),
      number("cylinders.cutoff", "Cut-off", "", { hint: "Of the stroke, such as 0.75." }),
      number("cylinders.clearance", "Clearance", "", { hint: "Of the volume swept, such as 0.1." }),
      { path: "cylinders.doubleActing", label: "Double acting", input: yesNo },
      number("drivingWheelMm", "Driving wheel", "mm"),
    ],
  },
  {
    title: "Pumps",
    fields: [
      number("axlePump.ramMm", "Axle pump: ram", "mm"),
      number("axlePump.strokeMm", "Axle pump: stroke", "mm"),
      number("axlePump.strokesPerRev", "Axle pump: strokes a turn", ""),
      number("handPump.mlPerStroke", "Hand pump: a stroke gives", "ml"),
      number("handPump.uMlPerStroke", "Hand pump: give or take", "ml"),
    ],
  },
  {
    title: "How well your instruments read",
    fields: [
      number("instruments.pressureReadingBar", "One reading of the dial, give or take", "bar"),
      number("instruments.pressureBiasBar", "The dial as a whole, give or take", "bar"),
      number("instruments.levelReadingMm", "One reading of the glass, give or take", "mm"),
      number("instruments.feedRelative", "Scale of the feed measure, give or take", "", {
        hint: "As a part of one, such as 0.02.",
      }),
      number("instruments.massReadingG", "One weighing, give or take", "g"),
      number("instruments.volumeReadingMl", "One reading of a measure, give or take", "ml"),
    ],
  },
];

/** Rows that a form can hold any number of. */
export const tubeFields = (horizontal: boolean): readonly FieldSpec[] => [
  number("outerDiameterMm", "Outer diameter", "mm", needed),
  number("count", "How many", "", needed),
  ...(horizontal
    ? [
        number("centreHeightMm", "Height of the centre", "mm", {
          needed: true,
          hint: "Above the lowest inside point.",
        }),
      ]
    : []),
];

export const pointFields: readonly FieldSpec[] = [
  number("levelMm", "Glass reads", "mm", needed),
  number("waterMl", "Water in the boiler", "ml", needed),
];

export const fittingFields: readonly FieldSpec[] = [
  text("name", "Name", needed),
  choice("kind", "Kind", Object.entries(fittingKindNames), needed),
  text("packing", "Packing"),
  number("limitGPerMin", "Your limit", "g/min"),
];
