import type { EntryKind } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { phaseNames } from "../words/names.ts";
import { choice, type FieldSpec, number, text } from "./field-spec.ts";

const same = (...words: string[]) => words.map((word) => [word, word] as const);
const needed = { needed: true } as const;

const state = (...words: string[]) => [choice("state", "State", same(...words), needed)];
const openOrShut = state("open", "shut");
const amount = (label: string) => number("ml", label, "ml", needed);
const barG = (label: string) => number("barG", label, "bar", needed);
const count = (label: string) => number("count", label, "", needed);

/** What is asked for an entry of each kind, beside its time and its note. */
const fieldsOf: Record<EntryKind, readonly FieldSpec[]> = {
  pressure: [barG("Pressure by the gauge")],
  level: [number("mm", "Water in the glass", "mm", needed)],
  feed: [
    amount("Fed"),
    choice(
      "by",
      "By",
      [
        ["bottle", "bottle"],
        ["hand-pump", "hand pump"],
        ["axle-pump", "axle pump"],
        ["injector", "injector"],
      ],
      needed,
    ),
    number("strokes", "Strokes", ""),
  ],
  blowdown: [amount("Blown down")],
  fill: [amount("Filled, cold")],
  drained: [amount("Drained")],
  fuel: [
    choice("action", "What", same("added", "remaining"), needed),
    number("g", "By weight", "g", { hint: "By weight or by measure, one of the two." }),
    number("ml", "By measure", "ml"),
  ],
  fire: state("lit", "out"),
  regulator: openOrShut,
  bypass: openOrShut,
  blower: state("on", "off"),
  valve: state("lifts", "reseats"),
  lap: [
    {
      ...count("Laps since the last such entry"),
      hint: "Or the running count, if you keep to it throughout.",
    },
  ],
  revolutions: [count("Turns since the last such entry")],
  drip: [number("g", "Caught", "g", needed), number("overS", "Held for", "s", needed)],
  look: [choice("grade", "Seen", same("dry", "damp", "weeping", "dripping", "blowing"), needed)],
  temperature: [
    choice("of", "Of", same("feed", "ambient", "boiler", "flue"), needed),
    number("celsius", "Temperature", "°C", needed),
  ],
  pull: [number("newtons", "Pull", "N", needed)],
  weight: [number("g", "Weight", "g", needed)],
  strokes: [count("Strokes of the pump"), barG("Pressure reached")],
  phase: [choice("name", "Phase that begins", Object.entries(phaseNames), needed)],
  note: [text("text", "Note", { needed: true, input: { kind: "text", long: true } })],
};

/** The same for an entry of this engine; a drip and a look are of one of its fittings. */
export const entryFields = (kind: EntryKind, { fittings }: Locomotive): readonly FieldSpec[] =>
  kind === "drip" || kind === "look" ? [whichOf(fittings), ...fieldsOf[kind]] : fieldsOf[kind];

const whichOf = (fittings: Locomotive["fittings"]): FieldSpec =>
  choice(
    "fitting",
    "Fitting",
    fittings.map(({ id, name }) => [id, name] as const),
    fittings.length > 0
      ? needed
      : { needed: true, hint: "This engine has no fittings yet: add them to the engine in the Shed." },
  );

export const timeField: FieldSpec = {
  path: "atS",
  label: "At",
  hint: "Minutes and seconds since the start, such as 12:30.",
  needed: true,
  input: { kind: "time" },
};

export const noteField: FieldSpec = text("note", "Remark");
