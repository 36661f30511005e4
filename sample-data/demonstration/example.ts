import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import { pennywort } from "../simulator/engines-gas-small.ts";
import type { SteamingPlan } from "../simulator/plan.ts";
import { simulate } from "../simulator/simulate.ts";
import { usualDriver, usualObserver } from "./season.ts";
import { instruments } from "./tansy.ts";

/** A short steaming of another invented engine, with few entries: what a file looks like. */
const plan: SteamingPlan = {
  id: "pennywort-2026-05-02",
  title: "Eight minutes of laps",
  purpose: "trial",
  startedAt: "2026-05-02T10:00:00+01:00",
  engine: pennywort,
  instruments,
  ambientC: 16,
  feedC: 15,
  atmosphereHPa: 1013,
  dryness: 1,
  track: { lapM: 18 },
  train: null,
  fillMl: 70,
  fuel: { by: "g", first: 10, portions: null },
  stages: [
    { kind: "raise", untilBarG: 2.5, atMostS: 900 },
    { kind: "run", forS: 480, stops: null },
    { kind: "shut-in", forS: 120 },
  ],
  driver: { ...usualDriver, lightsAtS: 60, feed: null, stopBelow: 0.2 },
  observer: {
    ...usualObserver,
    levelEveryS: null,
    pressureEveryS: 300,
    holdEveryS: null,
    missed: 0,
    marksPhases: false,
    writesFill: false,
    laps: "at-stops",
    writesValve: false,
    drips: [],
    looksAt: [],
  },
};

export function example(): LogbookFile {
  const { locomotive, steaming } = simulate(plan, 2);
  return {
    format: "lapwater-logbook",
    version: 1,
    locomotives: [locomotive],
    steamings: [steaming],
    services: [],
  };
}
