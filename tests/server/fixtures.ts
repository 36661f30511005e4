import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import type { Service } from "../../src/logbook/service.ts";
import type { Steaming, SteamingHead } from "../../src/logbook/steaming.ts";

/** Invented: a small spirit-fired engine and one steaming of it. */

export const engine: Locomotive = {
  id: "engine-1",
  name: "Test engine",
  gaugeMm: 45,
  workingPressureBarG: 2.8,
  boiler: {
    shape: { kind: "horizontal", innerDiameterMm: 50, innerLengthMm: 120 },
    lowestLevelMm: 20,
    highestLevelMm: 40,
    metalMassG: 600,
    metal: "copper",
  },
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 25, densityGPerMl: 0.81 },
  fittings: [
    { id: "gland-left", name: "Left gland", kind: "gland" },
    { id: "clack", name: "Clack", kind: "clack" },
  ],
  instruments: { pressureReadingBar: 0.05, levelReadingMm: 0.5, feedRelative: 0.01, massReadingG: 1 },
};

export const head: SteamingHead = {
  id: "steaming-1",
  locomotiveId: "engine-1",
  title: "First trial",
  purpose: "trial",
  startedAt: "2026-03-14T10:00:00+01:00",
  conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1013.25 },
  track: { lapM: 20 },
};

export const entries: (Entry & { id: string })[] = [
  { id: "e01", atS: 0, kind: "fuel", action: "added", g: 40 },
  { id: "e02", atS: 0, kind: "level", mm: 38 },
  { id: "e03", atS: 10, kind: "fire", state: "lit" },
  { id: "e04", atS: 400, kind: "pressure", barG: 0.5 },
  { id: "e05", atS: 600, kind: "pressure", barG: 2.8 },
  { id: "e06", atS: 610, kind: "level", mm: 39 },
  { id: "e07", atS: 620, kind: "regulator", state: "open" },
  { id: "e08", atS: 700, kind: "lap", count: 3 },
  { id: "e09", atS: 800, kind: "lap", count: 3 },
  { id: "e10", atS: 805, kind: "pressure", barG: 2.6 },
  { id: "e11", atS: 810, kind: "level", mm: 35 },
  { id: "e12", atS: 900, kind: "lap", count: 3 },
  { id: "e13", atS: 905, kind: "drip", fitting: "gland-left", g: 1.2, overS: 60 },
  { id: "e14", atS: 1000, kind: "level", mm: 31 },
  { id: "e15", atS: 1010, kind: "pressure", barG: 2.5 },
  { id: "e16", atS: 1020, kind: "fire", state: "out" },
  { id: "e17", atS: 1030, kind: "fuel", action: "remaining", g: 12 },
];

export const steaming: Steaming = { ...head, entries };

export const service: Service = {
  id: "service-1",
  locomotiveId: "engine-1",
  fittingId: "gland-left",
  at: "2026-03-15T09:00:00+01:00",
  what: "repacked",
};

export const logbook: LogbookFile = {
  format: "lapwater-logbook",
  version: 1,
  locomotives: [engine],
  steamings: [steaming],
  services: [service],
};

export const without = <Whole extends object, Key extends keyof Whole>(
  whole: Whole,
  key: Key,
): Omit<Whole, Key> =>
  Object.fromEntries(Object.entries(whole).filter(([name]) => name !== key)) as Omit<Whole, Key>;
