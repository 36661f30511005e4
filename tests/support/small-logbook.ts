import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";

/** A small invented engine and run for tests of how things hang together; no evidence of anything. */
export const smallEngine = (): Locomotive => ({
  id: "small",
  name: "Small",
  workingPressureBarG: 3,
  boiler: {
    shape: { kind: "horizontal", innerDiameterMm: 50, innerLengthMm: 120 },
    glassZeroMm: 15,
    lowestLevelMm: 3,
    highestLevelMm: 25,
    metalMassG: 450,
    metal: "copper",
  },
  fuel: { kind: "spirit" },
  fittings: [{ id: "left-gland", name: "Left piston-rod gland", kind: "gland" }],
});

/** 5 ml for each millimetre of the glass, from 0 ml at 0 mm: at a steady pressure grams go as millimetres. */
export const evenBoiler: Locomotive["boiler"] = {
  shape: {
    kind: "table",
    totalMl: 400,
    points: [
      { levelMm: 0, waterMl: 0 },
      { levelMm: 60, waterMl: 300 },
    ],
  },
  lowestLevelMm: 5,
  highestLevelMm: 55,
  metalMassG: 500,
  metal: "copper",
};

/** The sections of a report that no entry touched. */
export const untouched = {
  phases: [],
  totals: null,
  perLap: null,
  per100m: null,
  perMinuteRunning: null,
  raising: null,
  heat: null,
  cooling: null,
  coldHold: null,
  safetyValve: null,
  pump: null,
  engine: null,
  leaks: null,
  forecast: null,
  warnings: [],
};

export const smallSteaming = (): Steaming => ({
  id: "small-run",
  locomotiveId: "small",
  purpose: "trial",
  startedAt: "2026-05-01T10:00:00+01:00",
  conditions: { ambientC: 15, feedC: 15 },
  track: { lapM: 20 },
  entries: [
    { kind: "fire", state: "lit", atS: 0 },
    { kind: "pressure", barG: 3, atS: 0 },
    { kind: "level", mm: 20, atS: 0 },
    { kind: "regulator", state: "open", atS: 60 },
    { kind: "lap", count: 10, atS: 500 },
    { kind: "regulator", state: "shut", atS: 500 },
    { kind: "pressure", barG: 2.8, atS: 500 },
    { kind: "level", mm: 10, atS: 500 },
  ],
});

export const smallLogbook = (): LogbookFile => ({
  format: "lapwater-logbook",
  version: 1,
  locomotives: [smallEngine()],
  steamings: [smallSteaming()],
  services: [],
});
