import { purposeNames } from "../words/names.ts";
import { choice, type FieldSpec, number, text } from "./field-spec.ts";

/** What is known of a steaming before the fire is lit; beside the track its start is the tap that begins it. */
export const beginFields: readonly FieldSpec[] = [
  text("title", "Title", { hint: "Such as: trial with four wagons." }),
  choice("purpose", "Purpose", Object.entries(purposeNames), { needed: true }),
];

export const steamingFurtherFields: readonly FieldSpec[] = [
  number("conditions.ambientC", "Air", "°C", { hint: "Air and feed together, or neither." }),
  number("conditions.feedC", "Feed water", "°C"),
  number("conditions.atmosphereHPa", "Barometer", "hPa"),
  number("conditions.dryness", "Dryness of the steam", "", {
    hint: "1 is dry; 1 is taken where none is given.",
  }),
  number("track.lapM", "Length of a lap", "m"),
  text("track.place", "Place"),
  number("train.massKg", "Train", "kg"),
  number("train.resistanceRatio", "Rolling resistance", "", { hint: "Pull over weight, such as 0.012." }),
  text("notes", "Notes", { input: { kind: "text", long: true } }),
];
