import type { EntryRecord, RawTime } from "../../outbox/database.ts";
import type { Drip } from "./drips.ts";
import type { Thermometer } from "./pads.ts";

export type Plain =
  | "pressure"
  | "water"
  | "feed"
  | "fuel"
  | "strokes"
  | "states"
  | "fittings"
  | Thermometer
  | "note"
  | "particulars"
  | "more"
  | "list";

/** What lies open over the page, and the moment at which it was tapped. */
export type Opening =
  | { what: Plain; raw: RawTime }
  | { what: "drip"; raw: RawTime; drip: Drip }
  | { what: "change"; raw: RawTime; record: EntryRecord };
