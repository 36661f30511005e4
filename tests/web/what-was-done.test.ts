import { describe, expect, test } from "vitest";
import type { Entry } from "../../src/logbook/entry.ts";
import { doneRows, doneSentence } from "../../web/charts/what-was-done.ts";

describe("what was done, in a sentence", () => {
  test("of a run: laps, how often she was set off, feeds, drips, looks and readings", () => {
    const entries: Entry[] = [
      { kind: "regulator", state: "open", atS: 0 },
      { kind: "lap", count: 12, atS: 300 },
      { kind: "feed", ml: 20, by: "bottle", atS: 310 },
      { kind: "regulator", state: "shut", atS: 320 },
      { kind: "regulator", state: "open", atS: 400 },
      { kind: "regulator", state: "shut", atS: 500 },
      { kind: "drip", fitting: "gland", g: 1, overS: 60, atS: 510 },
      { kind: "look", fitting: "gland", grade: "damp", atS: 510 },
      { kind: "pressure", barG: 2, atS: 510 },
      { kind: "level", mm: 9, atS: 510 },
    ];
    expect(doneSentence(entries, 12)).toBe(
      "What was done: 12 laps, 2 openings of the regulator, 1 feed, 1 drip caught, 1 look at a fitting, 2 readings.",
    );
  });

  test("a regulator that was only shut, for a hold, is nothing done with the engine", () => {
    const entries: Entry[] = [
      { kind: "regulator", state: "shut", atS: 0 },
      { kind: "pressure", barG: 3, atS: 10 },
    ];
    expect(doneSentence(entries, 0)).toBe("What was done: 1 reading.");
  });

  test("of a cold hold the strokes pumped, of a test of the safety valve its lifts", () => {
    const pumped = [10, 2.5].map((count, i): Entry => ({ kind: "strokes", count, barG: 3 * i, atS: i }));
    expect(doneSentence(pumped, 0)).toBe("What was done: 12.5 strokes of the pump.");
    const lifted = (["lifts", "reseats", "lifts"] as const).map(
      (state, i): Entry => ({ kind: "valve", state, atS: i }),
    );
    expect(doneSentence(lifted, 0)).toBe("What was done: 2 lifts of the safety valve.");
  });

  test("of filling and draining alone these, how long the fire was lit, and that the fuel was measured", () => {
    const entries: Entry[] = [
      { kind: "fill", ml: 300, atS: 0 },
      { kind: "fuel", action: "added", g: 40, atS: 0 },
      { kind: "fire", state: "lit", atS: 60 },
      { kind: "fire", state: "out", atS: 900 },
      { kind: "fuel", action: "remaining", g: 4, atS: 910 },
      { kind: "drained", ml: 210, atS: 3000 },
    ];
    expect(doneSentence(entries, 0)).toBe(
      "What was done: 1 filling, fire lit for 14 min, 1 draining, 2 measures of the fuel.",
    );
  });

  test("of a logger how many samples of what, over what time and how often", () => {
    const logged = (samples: number, toS: number, everyS: number | null) => [
      { channel: "pressureBarG" as const, samples, fromS: 0, toS, everyS },
    ];
    const said = (samples: number, toS: number, everyS: number | null) =>
      doneSentence([], 0, logged(samples, toS, everyS));
    expect(said(7500, 1500, 0.2)).toBe(
      "What was done: 7500 samples of pressure by a logger over 25 min (5 a second).",
    );
    expect(said(601, 600, 1)).toContain("601 samples of pressure by a logger over 10 min (one a second)");
    expect(said(12_001, 24_000, 2)).toContain(
      "12,001 samples of pressure by a logger over 6 h 40 min (one each 2 s)",
    );
    expect(said(1, 0, null)).toBe("What was done: 1 sample of pressure by a logger.");
  });

  test("and says so where nothing was", () => {
    expect(doneSentence([], 0)).toBe("What was done: nothing written down.");
  });
});

test("in the strip what was filled is not what was fed, and a hold's strokes have a row of their own", () => {
  const entries: Entry[] = [
    { kind: "fill", ml: 170, atS: 0 },
    { kind: "strokes", count: 3, barG: 2, atS: 30 },
    { kind: "feed", ml: 20, by: "bottle", atS: 310 },
    { kind: "note", text: "damp", atS: 400 },
  ];
  expect(doneRows(entries, 500).map(({ name, ticks }) => [name, ticks])).toEqual([
    ["filled", [0]],
    ["feed", [310]],
    ["strokes", [30]],
    ["noted", [400]],
  ]);
});
