import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { unevenByPhase } from "../../../src/analysis/fuel/uneven.ts";
import type { Phase } from "../../../src/analysis/state/phases.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { interval, isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { phase } from "../water/water-log.ts";

/** 30 g in 600 s, evenly but for a fifth: 300 s of raising, 100 s of standing, 200 s of running. */
describe("what weighings owe to a fire that did not burn as thought, by hand", () => {
  const phases: Phase[] = [
    { name: "raising", fromS: 0, toS: 300, inferred: false },
    { name: "standing", fromS: 300, toS: 400, inferred: false },
    { name: "running", fromS: 400, toS: 600, inferred: false },
  ];
  const until = (toS: number) => {
    const between = { fromS: 0, toS: 600, grams: 30, share: toS / 600, all: 600 };
    const of = { name: "uneven", sourceOf: (what: string) => what };
    const how = { astray: 0.2, against: { raising: 1, standing: 1, running: 1, "shut-in": 1 } };
    const parts = unevenByPhase(phases, (a, b) => b - a, between, [[0, toS]], how, of);
    return Object.fromEntries(parts.map(({ source, u }) => [source, u]));
  };
  const each = 0.2 * Math.SQRT1_2 * 30;
  const atRest = Math.sqrt(1 / 12) * 30;

  test("running takes from the rest a third of the fuel times two thirds times its departure", () => {
    // until then 2/3 are burnt, none of it running: 30 g x 0.2 x (0 - 2/3 x 1/3)
    expect(until(400)).toEqual({ "while running": expect.closeTo((-30 * 0.2 * 2) / 9, 9) });
    expect(until(500)["while running"]).toBeCloseTo(30 * 0.2 * (1 / 6 - 5 / 18), 9);
  });

  test("raising and standing differ besides, and what one burnt more the other burnt less", () => {
    // until 300 s a half is burnt, of the two thirds that the rest burns: raising 1/2 - 1/2 x (1/2)/(2/3)
    const shares = until(300);
    expect(shares["from 0 s"]).toBeCloseTo(each * (1 / 8), 9);
    expect(shares["from 300 s"]).toBeCloseTo(atRest * (-1 / 8), 9);
    expect(until(150)["from 0 s"]).toBeCloseTo(each * (1 / 16), 9);
    expect(until(350)["from 0 s"]).toBeCloseTo(each * (1 / 16), 9);
  });

  test("of all of it nothing is in doubt", () => {
    expect(until(600)).toEqual({});
    expect(until(0)).toEqual({});
  });
});

/**
 * Gas that is not turned down at rest, weighed each ten seconds without an error: 0.05 g/s burnt raising, standing and running, 0.5
 * g/min of water while standing and 6 g/min while running. A burner is thought to burn three tenths harder raising, and as much less at rest.
 */
test("weighed as often as you like, the rate at rest is known no better than what the fire burnt there", () => {
  const [lit, stands, runs, out] = [60, 360, 660, 1260];
  const entries: Entry[] = [
    { kind: "fuel", action: "added", g: 100, atS: 0 },
    { kind: "fire", state: "lit", atS: lit },
    phase("raising", lit),
    { kind: "pressure", barG: 0, atS: lit },
    { kind: "pressure", barG: 3, atS: stands },
    phase("standing", stands),
    { kind: "pressure", barG: 3, atS: runs },
    phase("running", runs),
    { kind: "pressure", barG: 3, atS: out },
    { kind: "fire", state: "out", atS: out },
    { kind: "fuel", action: "remaining", g: 40, atS: out + 5 },
  ];
  const since = (fromS: number, atS: number, toS: number) => Math.max(0, Math.min(atS, toS) - fromS);
  const values = Array.from({ length: 127 }, (_, i) => {
    const atS = 10 * i;
    const drawn = (0.5 / 60) * since(stands, atS, runs) + (6 / 60) * since(runs, atS, out);
    return 2100 - 0.05 * since(lit, atS, out) - drawn;
  });
  const traces = [{ channel: "massG" as const, startS: 0, everyS: 10, values }];
  const { phases } = analyse(
    { ...smallEngine(), fuel: { kind: "butane" } },
    { ...smallSteaming(), entries, traces },
  );
  for (const [name, truth] of [
    ["standing", 0.5],
    ["running", 6],
  ] as const) {
    const rate = phases.find((one) => one.name === name)?.steamingRate;
    if (!rate || !isMeasured(rate)) throw new Error(`no rate ${name}`);
    const [low, high] = interval(rate);
    expect(low).toBeLessThan(truth);
    expect(high).toBeGreaterThan(truth);
    // and no further than the 3 g a minute of the fire itself
    expect(high - low).toBeLessThan(3);
  }
});
