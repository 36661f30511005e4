import { z } from "zod";
import {
  between,
  celsius,
  gaugePressureBar,
  grams,
  identifier,
  millilitres,
  millimetres,
  notNegative,
  positive,
  secondsSinceStart,
  wholeCount,
  words,
} from "./bounds.ts";

const head = { id: identifier.optional(), atS: secondsSinceStart, note: words.optional() };
const entryOf = <Kind extends string, Shape extends z.ZodRawShape>(kind: Kind, shape: Shape) =>
  z.strictObject({ ...head, kind: z.literal(kind), ...shape });

/** One thing seen or done during a steaming, `atS` seconds after it started. */
export const entrySchema = z.discriminatedUnion("kind", [
  entryOf("pressure", { barG: gaugePressureBar }),
  entryOf("level", { mm: millimetres }),
  entryOf("feed", {
    ml: millilitres,
    by: z.enum(["bottle", "hand-pump", "axle-pump", "injector"]),
    strokes: wholeCount(1_000_000).optional(),
  }),
  entryOf("blowdown", { ml: millilitres }),
  entryOf("fill", { ml: millilitres }),
  entryOf("drained", { ml: millilitres }),
  entryOf("fuel", {
    action: z.enum(["added", "remaining"]),
    g: grams.optional(),
    ml: millilitres.optional(),
  }).refine((fuel) => (fuel.g === undefined) !== (fuel.ml === undefined), "either g or ml"),
  entryOf("fire", { state: z.enum(["lit", "out"]) }),
  entryOf("regulator", { state: z.enum(["open", "shut"]) }),
  entryOf("bypass", { state: z.enum(["open", "shut"]) }),
  entryOf("blower", { state: z.enum(["on", "off"]) }),
  entryOf("valve", { state: z.enum(["lifts", "reseats"]) }),
  entryOf("lap", { count: wholeCount(100_000) }),
  entryOf("revolutions", { count: notNegative(1e9) }),
  entryOf("drip", { fitting: identifier, g: grams, overS: positive(86_400) }),
  entryOf("look", {
    fitting: identifier,
    grade: z.enum(["dry", "damp", "weeping", "dripping", "blowing"]),
  }),
  entryOf("temperature", { of: z.enum(["feed", "ambient", "boiler", "flue"]), celsius }).refine(
    (entry) => entry.of === "flue" || entry.celsius <= 350,
    { error: "at most 350 °C, where the steam tables end", path: ["celsius"] },
  ),
  entryOf("pull", { newtons: between(-1e6, 1e6) }),
  entryOf("weight", { g: grams }),
  entryOf("strokes", { count: notNegative(100_000), barG: gaugePressureBar }),
  entryOf("phase", { name: z.enum(["raising", "standing", "running", "shut-in"]) }),
  entryOf("note", { text: words }),
]);
export type Entry = z.infer<typeof entrySchema>;
export type EntryKind = Entry["kind"];
export type EntryOf<Kind extends EntryKind> = Extract<Entry, { kind: Kind }>;
