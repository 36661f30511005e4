import type { PhaseName } from "../../src/analysis/report-schema.ts";
import type { EntryKind } from "../../src/logbook/entry.ts";
import type { Fuel } from "../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";

/** The schema's words as a person says them. */

export const purposeNames: Record<SteamingHead["purpose"], string> = {
  trial: "trial",
  standing: "standing",
  "hot-hold": "hot shut-in",
  "cold-hold": "hydraulic test, cold",
  "safety-valve": "safety valve test",
  other: "other",
};

export const phaseNames: Record<PhaseName, string> = {
  raising: "raising",
  standing: "standing",
  running: "running",
  "shut-in": "shut in",
};

export const fuelNames: Record<Fuel["kind"], string> = {
  spirit: "spirit",
  butane: "butane",
  propane: "propane",
  "butane-propane-70-30": "butane and propane, 70 to 30",
  coal: "coal",
  charcoal: "charcoal",
  other: "another fuel",
};

export const entryKindNames: Record<EntryKind, string> = {
  pressure: "pressure",
  level: "water in the glass",
  feed: "feed",
  lap: "lap",
  fuel: "fuel",
  fire: "fire",
  regulator: "regulator",
  bypass: "by-pass",
  blower: "blower",
  valve: "safety valve",
  phase: "phase",
  fill: "fill, cold",
  drained: "drained",
  blowdown: "blow-down",
  temperature: "temperature",
  drip: "drip caught",
  look: "look at a fitting",
  revolutions: "turns of the wheel",
  pull: "pull",
  weight: "weight of the engine",
  strokes: "pump strokes, cold",
  note: "note",
};
