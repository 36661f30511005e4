import { describe, expect, test } from "vitest";
import { endingOfBurner, endingOfGrate, leftAsFound } from "../../../src/analysis/fuel/ending.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Phase } from "../../../src/analysis/state/phases.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const phase = (name: Phase["name"], fromS: number, toS: number): Phase => ({
  name,
  fromS,
  toS,
  inferred: false,
});
const timelineOf = (entries: Entry[]) => sourcesOf(smallEngine(), { ...smallSteaming(), entries }).timeline;

describe("a burner whose fire is out at 900 s", () => {
  const shut = (atS: number): Entry => ({ kind: "regulator", state: "shut", atS });
  const written: Entry[] = [
    { kind: "fire", state: "out", atS: 900 },
    { kind: "pressure", barG: 1, atS: 2003 },
  ];
  const chance = (
    phases: Phase[],
    { kind = "gas", more = [] }: { kind?: "spirit" | "gas"; more?: Entry[] } = {},
    fire: [number, number][] = [[0, 900]],
  ) => {
    const ending = endingOfBurner(timelineOf([...written, ...more]), phases, fire, kind);
    return "dryChance" in ending ? ending.dryChance : Number.NaN;
  };
  const run = (toS: number) => [phase("running", 300, toS)];
  // seven of ten with spirit, four with gas, by how often so of those that burnt dry and of those put out
  const told = (before: number, dry: number, putOut: number) =>
    (before * dry) / (before * dry + (1 - before) * putOut);

  test("burnt dry where she ran on, for nobody puts it out under way", () => {
    expect(chance(run(911))).toBeCloseTo(told(0.4, 0.35, 0.01), 9);
    expect(chance(run(911))).toBeGreaterThan(0.95);
    expect(chance(run(911), { kind: "spirit" })).toBeGreaterThan(0.98);
  });

  test("was more likely put out where she was stopped with it", () => {
    const withIt = told(0.4, 0.25, 0.7);
    for (const toS of [890, 900, 910]) expect(chance(run(toS))).toBeCloseTo(withIt, 9);
    expect(chance([], { more: [shut(891)] })).toBeCloseTo(withIt, 9);
    expect(chance([], { more: [{ kind: "phase", name: "shut-in", atS: 908 }] })).toBeCloseTo(withIt, 9);
    expect(chance(run(905), { kind: "spirit" })).toBeCloseTo(told(0.7, 0.25, 0.7), 9);
  });

  test("is little told of by a stand, a run ended before or begun after, or one that ends with the log", () => {
    const untold = told(0.4, 0.4, 0.29);
    for (const phases of [
      [phase("standing", 300, 2000)],
      run(880),
      [phase("running", 900, 2000)],
      [phase("standing", 300, 2003)],
    ])
      expect(chance(phases)).toBeCloseTo(untold, 9);
    expect(chance([], { more: [shut(880)] })).toBeCloseTo(untold, 9);
    expect(chance([], { more: [{ kind: "regulator", state: "open", atS: 900 }] })).toBeCloseTo(untold, 9);
    expect(chance(run(2000), {}, [])).toBeCloseTo(untold, 9);
    const ends = timelineOf([{ kind: "fire", state: "out", atS: 900 }]);
    expect(endingOfBurner(ends, run(900), [[0, 900]], "gas")).toEqual({
      dryChance: expect.closeTo(untold, 9),
    });
  });

  test("by a clock read to the minute the same minute is at once", () => {
    const minutes = [0, 60, 180, 240, 300, 420].map((atS): Entry => ({ kind: "pressure", barG: 1, atS }));
    const ending = (phases: Phase[]) =>
      endingOfBurner(timelineOf([...minutes, ...written.slice(0, 1)]), phases, [[0, 900]], "gas");
    expect(ending(run(960))).toEqual({ dryChance: expect.closeTo(told(0.4, 0.25, 0.7), 9) });
    expect(ending(run(1020))).toEqual({ dryChance: expect.closeTo(told(0.4, 0.35, 0.01), 9) });
  });
});

describe("a grate", () => {
  const stock = { known: [{ atS: 0 }] as never, leftUnread: true, putInG: 90, uPutInG: 1 };
  const added = (g: number, atS: number): Entry => ({ kind: "fuel", action: "added", g, atS });
  const untilOut = (fromS: number, toS: number) => Math.min(toS, 900) - fromS;
  const ending = (more: Entry[], burning = untilOut, fired = added(30, 600)) =>
    endingOfGrate(timelineOf([added(60, 0), fired, ...more]), stock, burning, 0);

  // 30 g in 600 s: 15 g in the 300 s since; three in twenty of 60 and a fifth of 15
  test("keeps what it was laid with, less what burnt since it was last fired", () => {
    const kept = {
      bedPart: expect.closeTo(45 / 90, 9),
      uBedPart: expect.closeTo(Math.hypot(9, 3) / 90, 9),
    };
    expect(ending([])).toEqual(kept);
    // what was looked at is no firing, nor is nothing
    expect(ending([{ kind: "fuel", action: "remaining", g: 5, atS: 700 }])).toEqual(kept);
    expect(ending([added(0, 800)])).toEqual(kept);
  });

  test("that did not burn till it was fired is as it was laid", () => {
    expect(ending([], () => 0)).toMatchObject({ bedPart: expect.closeTo(60 / 90, 9) });
  });

  test("of which all was fired later tells nothing, nor one never fired again", () => {
    expect(ending([], untilOut, added(90, 600))).toEqual({ laidPart: 1 });
    expect(ending([], untilOut, added(30, 300))).toEqual({ laidPart: 1 });
  });

  test("found in steam is left as found, unless she runs still", () => {
    const inSteam = timelineOf([{ kind: "pressure", barG: 2, atS: 0 }]);
    const left = (phases: Phase[]) => leftAsFound(inSteam, phases, 10, 3);
    expect(left([phase("raising", 0, 10), phase("standing", 10, 20), phase("running", 20, 30)])).toBe(false);
    expect(left([phase("raising", 0, 10), phase("running", 10, 20), phase("standing", 20, 30)])).toBe(true);
    expect(left([])).toBe(true);
  });
});
