import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { smallEngine } from "../support/small-logbook.ts";

/** An invented engine of which everything is known, and a run in which everything is written down. */
const engine: Locomotive = {
  ...smallEngine(),
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 24.6, densityGPerMl: 0.81 },
  cylinders: { count: 2, boreMm: 9, strokeMm: 16, cutoff: 0.8 },
  drivingWheelMm: 50,
  axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 },
};
const minutes = (count: number, entry: (minute: number) => Entry): Entry[] =>
  Array.from({ length: count }, (_, i) => entry(i));
const run: Steaming = {
  id: "run",
  locomotiveId: "small",
  purpose: "trial",
  startedAt: "2026-05-01T10:00:00+01:00",
  conditions: { ambientC: 15, feedC: 15 },
  track: { lapM: 20 },
  train: { massKg: 5, resistanceRatio: 0.02 },
  entries: [
    { kind: "fuel", action: "added", ml: 40, atS: 0 },
    { kind: "fire", state: "lit", atS: 0 },
    ...minutes(11, (i): Entry => ({ kind: "pressure", barG: Math.min(3, i / 2), atS: 60 * i })),
    ...minutes(11, (i): Entry => ({ kind: "level", mm: 22, atS: 60 * i + 1 })),
    { kind: "regulator", state: "open", atS: 660 },
    { kind: "bypass", state: "open", atS: 661 },
    ...minutes(20, (i): Entry => ({ kind: "lap", count: 2, atS: 720 + 60 * i })),
    ...minutes(20, (i): Entry => ({ kind: "pressure", barG: 3, atS: 720 + 60 * i })),
    ...minutes(20, (i): Entry => ({ kind: "level", mm: 21.5 - 0.5 * i, atS: 720 + 60 * i })),
    { kind: "bypass", state: "shut", atS: 1200 },
    { kind: "feed", by: "axle-pump", ml: 10, atS: 1860 },
    { kind: "bypass", state: "open", atS: 1860 },
    { kind: "regulator", state: "shut", atS: 1860 },
    { kind: "fire", state: "out", atS: 1920 },
    ...minutes(12, (i): Entry => ({ kind: "pressure", barG: 3 * 0.9 ** i, atS: 1920 + 60 * i })),
    ...minutes(12, (i): Entry => ({ kind: "level", mm: 12, atS: 1920 + 60 * i })),
    { kind: "fuel", action: "remaining", ml: 5, atS: 2700 },
  ].sort((a, b) => a.atS - b.atS) as Entry[],
};

interface Change {
  entries?: (entry: Entry) => boolean;
  more?: Entry[];
  engine?: Partial<Record<keyof Locomotive, unknown>>;
  steaming?: Partial<Record<keyof Steaming, unknown>>;
}

function reportWith({ entries = () => true, more = [], ...change }: Change) {
  const put = <T extends object>(whole: T, part: object = {}): T =>
    Object.fromEntries(Object.entries({ ...whole, ...part }).filter(([, value]) => value !== undefined)) as T;
  const kept = [...run.entries.filter(entries), ...more].sort((a, b) => a.atS - b.atS);
  return reportOf(analyse(put(engine, change.engine), put({ ...run, entries: kept }, change.steaming)));
}
const at = (thing: unknown, path: string): unknown =>
  path.split(".").reduce((inner, step) => (inner as Record<string, unknown> | null)?.[step], thing);
const without =
  (...kinds: Entry["kind"][]) =>
  (entry: Entry) =>
    !kinds.includes(entry.kind);
const only =
  (...kinds: Entry["kind"][]) =>
  (entry: Entry) =>
    kinds.includes(entry.kind);

const FIGURES = [
  "totals.waterDrawn",
  "totals.feed",
  "totals.fuelBurnt",
  "perLap.water",
  "perLap.fuel",
  "per100m.water",
  "perMinuteRunning.water",
  "raising.power",
  "heat.efficiency",
  "heat.evaporationRatio",
  "heat.factorOfEvaporation",
  "heat.equivalentEvaporation",
  "cooling.lossAtWorkingPressure",
  "pump.perRevolution",
  "pump.volumetricEfficiency",
  "engine.dryDemand",
  "engine.missingQuantity",
  "engine.overallEfficiency",
  "forecast.waterAboveLowest",
];

describe("what cannot be had says why", () => {
  test.each(FIGURES.map((path) => [path]))("%s is had where everything was written down", (path) => {
    expect(at(reportWith({}), path)).toMatchObject({ value: expect.any(Number) });
  });

  const cases: [what: string, Change, why: RegExp, paths: string[]][] = [
    [
      "no fuel",
      { entries: without("fuel") },
      /^no fuel was recorded$/,
      ["perLap.fuel", "heat.efficiency", "heat.evaporationRatio", "engine.overallEfficiency"],
    ],
    [
      "no fuel and no time that passed",
      { entries: (entry) => entry.atS === 1 },
      /^no fuel was recorded$/,
      ["totals.fuelBurnt"],
    ],
    [
      "fuel in ml of unknown density",
      { engine: { fuel: { kind: "other" } } },
      /density of this fuel is not known: give it/,
      ["totals.fuelBurnt", "perLap.fuel", "heat.efficiency"],
    ],
    [
      "fuel of unknown heating value",
      { engine: { fuel: { kind: "other", densityGPerMl: 0.8 } } },
      /heating value of this fuel is not known: give it/,
      ["heat.efficiency", "engine.overallEfficiency"],
    ],
    [
      "nothing of the fuel left, fire still lit",
      { entries: (entry) => entry.atS < 1900 },
      /still lit: measure what is left/,
      ["totals.fuelBurnt", "perLap.fuel", "heat.efficiency"],
    ],
    [
      "put out before anything else, and never lit",
      { entries: without("fire"), more: [{ kind: "fire", state: "out", atS: 0 }] },
      /fire was never recorded as lit/,
      ["totals.fuelBurnt", "heat.efficiency", "heat.factorOfEvaporation"],
    ],
    [
      "no pressure",
      { entries: without("pressure") },
      /^no pressure was read/,
      [
        "raising.power",
        "heat.efficiency",
        "heat.factorOfEvaporation",
        "engine.dryDemand",
        "engine.missingQuantity",
        "forecast.waterAboveLowest",
        "forecast.minutesToLowest",
        "forecast.lapsToLowest",
      ],
    ],
    [
      "no glass",
      { entries: without("level", "feed") },
      /nothing was read that tells the water/,
      [
        "totals.waterDrawn",
        "perLap.water",
        "per100m.water",
        "perMinuteRunning.water",
        "engine.missingQuantity",
      ],
    ],
    [
      "one glass",
      { entries: (entry) => without("level")(entry) || entry.atS === 1 },
      /read once only: read it again/,
      ["totals.waterDrawn", "perLap.water", "heat.efficiency"],
    ],
    [
      "filled at the start and drained at the end",
      {
        entries: without("level", "feed", "bypass"),
        more: [
          { kind: "fill", ml: 170, atS: 0 },
          { kind: "drained", ml: 90, atS: 3000 },
        ],
      },
      /filling and the draining.*no rate/,
      ["cooling.leak"],
    ],
    [
      "no length of a lap",
      { steaming: { track: undefined } },
      /length of a lap was not recorded/,
      ["per100m.water", "engine.missingQuantity", "engine.overallEfficiency", "pump.perRevolution"],
    ],
    [
      "no wheel",
      { engine: { drivingWheelMm: undefined } },
      /wheel's diameter was not recorded/,
      ["engine.missingQuantity", "pump.perRevolution"],
    ],
    [
      "no laps",
      { entries: without("lap") },
      /neither laps nor turns/,
      ["engine.missingQuantity", "engine.overallEfficiency", "pump.perRevolution"],
    ],
    [
      "no cylinders",
      { engine: { cylinders: undefined } },
      /cylinders' sizes/,
      ["engine.dryDemand", "engine.missingQuantity"],
    ],
    [
      "no pressure under way",
      { entries: (entry) => without("pressure")(entry) || entry.atS === 0 },
      /no pressure was read while she ran/,
      ["engine.dryDemand"],
    ],
    [
      "no train",
      { steaming: { train: undefined } },
      /no train and no pull were recorded/,
      ["engine.overallEfficiency"],
    ],
    [
      "a train of nothing",
      { steaming: { train: { massKg: 0, resistanceRatio: 0.02 } } },
      /no train and no pull were recorded/,
      ["engine.overallEfficiency"],
    ],
    [
      "a train that rolls nobody knows how",
      { steaming: { train: { massKg: 5 } } },
      /ratio of resistance to weight/,
      ["engine.overallEfficiency"],
    ],
    [
      "no by-pass",
      { entries: without("bypass") },
      /by-pass was not recorded/,
      ["pump.perRevolution", "pump.volumetricEfficiency"],
    ],
    [
      "a by-pass never shut",
      { entries: (entry) => entry.kind !== "bypass" || entry.state === "open" },
      /by-pass was never shut while she ran/,
      ["pump.perRevolution"],
    ],
    [
      "a by-pass never shut, and nothing that tells when she ran",
      {
        entries: (entry) =>
          without("lap", "regulator")(entry) && (entry.kind !== "bypass" || entry.state === "open"),
      },
      /not known when she ran/,
      ["pump.perRevolution", "pump.volumetricEfficiency"],
    ],
    [
      "nothing that tells when she ran",
      { entries: only("bypass", "feed") },
      /not known when she ran/,
      ["pump.perRevolution"],
    ],
    [
      "feed measured before the by-pass was shut only",
      { entries: without("feed"), more: [{ kind: "feed", by: "axle-pump", ml: 5, atS: 1000 }] },
      /no feed of the axle pump falls in the time/,
      ["pump.perRevolution", "pump.volumetricEfficiency"],
    ],
    [
      "the valve blowing nearly all the time",
      {
        more: [
          { kind: "valve", state: "lifts", atS: 700 },
          { kind: "valve", state: "reseats", atS: 1850 },
        ],
      },
      /took steam nearly all the time she ran/,
      ["engine.missingQuantity"],
    ],
    [
      "the fire out",
      {},
      /^the fire is out, and she does not run$/,
      ["forecast.minutesToLowest", "forecast.lapsToLowest"],
    ],
    [
      "water below the lowest level",
      {
        more: [
          { kind: "level", mm: -10, atS: 2690 },
          { kind: "level", mm: -10, atS: 2695 },
        ],
      },
      /at the lowest level, or below it/,
      ["forecast.minutesToLowest", "forecast.lapsToLowest"],
    ],
  ];
  test.each(cases)("%s", (_, change, why, paths) => {
    const report = reportWith(change);
    for (const path of paths)
      expect(at(report, path), path).toEqual({ value: null, why: expect.stringMatching(why) });
  });

  test.each([
    ["lap", "perLap"],
    ["lap", "per100m"],
    ["fire", "raising"],
    ["bypass", "coldHold"],
    ["fuel", "safetyValve"],
    ["fuel", "leaks"],
  ] as const)("without %s there is no section %s", (kind, section) => {
    expect(at(reportWith({ entries: without(kind) }), section)).toBeNull();
  });

  test("laps counted at the end, with nothing that tells when they were run, give no figure and say so", () => {
    const report = reportWith({
      entries: without("lap", "regulator", "feed", "bypass"),
      more: [{ kind: "lap", count: 40, atS: 1900 }],
    });
    const unknown = { value: null, why: expect.stringMatching(/not known when she ran: write down when/) };
    for (const path of [
      "perLap.water",
      "perLap.fuel",
      "per100m.water",
      "perMinuteRunning.water",
      "engine.dryDemand",
      "engine.missingQuantity",
      "engine.overallEfficiency",
    ])
      expect(at(report, path), path).toEqual(unknown);
    expect(report.totals?.laps).toBe(40);
    const idle = reportWith({ entries: without("lap", "regulator", "feed", "bypass") });
    expect([idle.perLap, idle.per100m, idle.perMinuteRunning, idle.engine]).toEqual([null, null, null, null]);
  });

  test("an engine without an axle pump, or with one of which nothing was written, has no section of it", () => {
    expect(reportWith({ engine: { axlePump: undefined } }).pump).toBeNull();
    expect(reportWith({ entries: without("bypass", "feed") }).pump).toBeNull();
    expect(reportWith({ entries: without("bypass") }).pump).not.toBeNull();
    expect(reportWith({ entries: without("feed") }).pump).not.toBeNull();
  });
});
