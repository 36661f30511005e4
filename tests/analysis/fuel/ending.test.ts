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
  const chance = (phases: Phase[], kind: "spirit" | "gas" = "gas", fire: [number, number][] = [[0, 900]]) =>
    endingOfBurner(phases, fire, kind);

  test("burnt dry where she ran on more than half a minute", () => {
    expect(chance([phase("running", 300, 931)])).toEqual({ dryChance: 0.97 });
    expect(chance([phase("running", 300, 930)])).toEqual({ dryChance: 0.4 });
  });

  test("not told so by a stand, by a run begun when it was out, or where no fire was written", () => {
    expect(chance([phase("standing", 300, 2000)], "spirit")).toEqual({ dryChance: 0.7 });
    expect(chance([phase("running", 900, 2000)])).toEqual({ dryChance: 0.4 });
    expect(chance([phase("running", 300, 2000)], "gas", [])).toEqual({ dryChance: 0.4 });
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
