import { describe, expect, test } from "vitest";
import { turnsTooFew } from "../../../src/analysis/laps/way-counted.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Laps of 20 m, and a wheel of which one turn is 0.4 m: 50 turns a lap. */
const engine: Locomotive = { ...smallEngine(), drivingWheelMm: 400 / Math.PI };
const fourLaps = [40, 80, 120, 160].map((atS): Entry => ({ kind: "lap", count: 1, atS }));
const turns = (count: number, atS: number): Entry => ({ kind: "revolutions", count, atS });
const logOf = (more: readonly Entry[]): Steaming => ({
  ...smallSteaming(),
  entries: [{ kind: "regulator", state: "open", atS: 0 } as Entry, ...fourLaps, ...more].sort(
    (a, b) => a.atS - b.atS,
  ),
});
const fewIn = (more: readonly Entry[], locomotive = engine, head: Partial<Steaming> = {}) => {
  const steaming = { ...logOf(more), ...head };
  return turnsTooFew(timelineOf(steaming), steaming, locomotive);
};

describe("turns of the wheel beside laps", () => {
  test("are too few where fewer than half of 50 a lap were counted", () => {
    const few = fewIn([turns(99, 161)]);
    expect(few?.counted).toBe(99);
    expect(few?.taken).toBeCloseTo(200, 9);
    expect(fewIn([turns(101, 161)])).toBeNull();
    // several counts are one
    expect(fewIn([turns(50, 81), turns(51, 161)])).toBeNull();
    expect(fewIn([turns(50, 81), turns(40, 161)])?.counted).toBe(90);
  });

  test("are held against the laps run until the last count, and not those after it", () => {
    expect(fewIn([turns(99, 81)])).toBeNull();
    // the lap in the same second is one of them
    expect(fewIn([turns(49, 80)])?.taken).toBeCloseTo(100, 9);
    expect(fewIn([])).toBeNull();
  });

  test("tell nothing of a wheel or a lap that is not known", () => {
    const { drivingWheelMm: _, ...noWheel } = engine;
    expect(fewIn([turns(9, 161)], noWheel)).toBeNull();
    expect(fewIn([turns(9, 161)], engine, { track: undefined })).toBeNull();
  });

  test("leave the way to the laps, and say that they are too few where turns are asked for", () => {
    const wayWith = (count: number) => sourcesOf(engine, logOf([turns(count, 161)])).way;
    expect(wayWith(60).turnsIn([[0, 160]])).toEqual({
      value: null,
      why: expect.stringContaining("fewer turns of the wheel were counted than half"),
    });
    const metres = wayWith(60).metresIn([[0, 160]]);
    expect(isMeasured(metres) && metres.value / 80).toBeCloseTo(1, 1);
    expect(wayWith(200).turnsIn([[0, 161]]).value).toBeCloseTo(200, 9);
  });
});
