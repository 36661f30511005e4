import type { EntryKind } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { phaseNames } from "../words/names.ts";
import { choice, type FieldSpec, number, text } from "./field-spec.ts";

const same = (...words: string[]) => words.map((word) => [word, word] as const);
const needed = { needed: true } as const;

/** What is asked for an entry of this kind, beside its time and its note. */
export function entryFields(kind: EntryKind, engine: Locomotive): FieldSpec[] {
  const fitting = choice(
    "fitting",
    "Fitting",
    engine.fittings.map(({ id, name }) => [id, name] as const),
    engine.fittings.length > 0
      ? needed
      : { needed: true, hint: "This engine has no fittings yet: add them to the engine in the Shed." },
  );
  const state = (...words: string[]) => [choice("state", "State", same(...words), needed)];
  switch (kind) {
    case "pressure":
      return [number("barG", "Pressure by the gauge", "bar", needed)];
    case "level":
      return [number("mm", "Water in the glass", "mm", needed)];
    case "feed":
      return [
        number("ml", "Fed", "ml", needed),
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
      ];
    case "blowdown":
      return [number("ml", "Blown down", "ml", needed)];
    case "fill":
      return [number("ml", "Filled, cold", "ml", needed)];
    case "drained":
      return [number("ml", "Drained", "ml", needed)];
    case "fuel":
      return [
        choice("action", "What", same("added", "remaining"), needed),
        number("g", "By weight", "g", { hint: "By weight or by measure, one of the two." }),
        number("ml", "By measure", "ml"),
      ];
    case "fire":
      return state("lit", "out");
    case "regulator":
    case "bypass":
      return state("open", "shut");
    case "blower":
      return state("on", "off");
    case "valve":
      return state("lifts", "reseats");
    case "lap":
      return [
        number("count", "Laps since the last such entry", "", {
          needed: true,
          hint: "Or the running count, if you keep to it throughout.",
        }),
      ];
    case "revolutions":
      return [number("count", "Turns since the last such entry", "", needed)];
    case "drip":
      return [fitting, number("g", "Caught", "g", needed), number("overS", "Held for", "s", needed)];
    case "look":
      return [
        fitting,
        choice("grade", "Seen", same("dry", "damp", "weeping", "dripping", "blowing"), needed),
      ];
    case "temperature":
      return [
        choice("of", "Of", same("feed", "ambient", "boiler", "flue"), needed),
        number("celsius", "Temperature", "°C", needed),
      ];
    case "pull":
      return [number("newtons", "Pull", "N", needed)];
    case "weight":
      return [number("g", "Weight", "g", needed)];
    case "strokes":
      return [
        number("count", "Strokes of the pump", "", needed),
        number("barG", "Pressure reached", "bar", needed),
      ];
    case "phase":
      return [choice("name", "Phase that begins", Object.entries(phaseNames), needed)];
    case "note":
      return [text("text", "Note", { needed: true, input: { kind: "text", long: true } })];
  }
}

export const timeField: FieldSpec = {
  path: "atS",
  label: "At",
  hint: "Minutes and seconds since the start, such as 12:30.",
  needed: true,
  input: { kind: "time" },
};

export const noteField: FieldSpec = text("note", "Remark");
