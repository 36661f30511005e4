import type { Entry, EntryOf } from "../../src/logbook/entry.ts";
import { glassReading } from "../../src/logbook/glass-reading.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { showing, toShown } from "../preferences/shown.ts";
import { entryKindNames, phaseNames } from "./names.ts";
import { asTaken } from "./number.ts";

/** A reading in the reader's unit: as it was taken, or rounded where it had to be converted. */
export function reading(value: number, unit: string): string {
  const as = showing(unit);
  if (as.factor === 1 && as.offset === 0) return `${asTaken(value)} ${unit}`;
  const shown = toShown(value, as);
  return `${asTaken(Number(shown.toFixed(Math.abs(shown) >= 10 ? 1 : 2)))} ${as.unit}`;
}

const feedMeans = {
  bottle: "from a bottle",
  "hand-pump": "by hand pump",
  "axle-pump": "by axle pump",
  injector: "by injector",
};

/** A level as it was read: millimetres, about so many where it was put to a quarter, or out of sight. */
export function levelWords(entry: EntryOf<"level">): string {
  const read = glassReading(entry);
  if (read === "below" || read === "above") return `out of sight, ${read}`;
  return `${read === "quarters" ? "about " : ""}${reading(entry.mm, "mm")}`;
}

export const fittingName = (id: string, { fittings }: Locomotive): string =>
  fittings.find((fitting) => fitting.id === id)?.name ?? id;

/** What an entry says beside its kind: "3.6 bar", "12 ml by hand pump", "open". */
export function entryValue(entry: Entry, engine: Locomotive): string {
  switch (entry.kind) {
    case "pressure":
      return reading(entry.barG, "bar");
    case "level":
      return levelWords(entry);
    case "feed":
      return `${reading(entry.ml, "ml")} ${feedMeans[entry.by]}${
        entry.strokes === undefined ? "" : `, ${entry.strokes} strokes`
      }`;
    case "blowdown":
    case "fill":
    case "drained":
      return reading(entry.ml, "ml");
    case "fuel": {
      const amount = entry.g === undefined ? reading(entry.ml ?? 0, "ml") : reading(entry.g, "g");
      return entry.action === "added" ? `${amount} added` : `${amount} remaining`;
    }
    case "fire":
    case "regulator":
    case "bypass":
    case "blower":
    case "valve":
      return entry.state;
    case "lap":
      return String(entry.count);
    case "revolutions":
      return asTaken(entry.count);
    case "drip":
      return `${reading(entry.g, "g")} in ${asTaken(entry.overS)} s, ${fittingName(entry.fitting, engine)}`;
    case "look":
      return `${entry.grade}, ${fittingName(entry.fitting, engine)}`;
    case "temperature":
      return `${reading(entry.celsius, "°C")}, ${entry.of}`;
    case "pull":
      return reading(entry.newtons, "N");
    case "weight":
      return reading(entry.g, "g");
    case "strokes":
      return `${asTaken(entry.count)} ${entry.count === 1 ? "stroke" : "strokes"} to ${reading(entry.barG, "bar")}`;
    case "phase":
      return `${phaseNames[entry.name]} begins`;
    case "note":
      return entry.text;
  }
}

export const entryInWords = (entry: Entry, engine: Locomotive): string =>
  `${entryKindNames[entry.kind]} ${entryValue(entry, engine)}`;
