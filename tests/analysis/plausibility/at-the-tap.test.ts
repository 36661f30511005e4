import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { questionsAtTap } from "../../../src/analysis/plausibility/at-the-tap.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { dial, laps, levels } from "./logs.ts";

const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const out: Entry = { kind: "fire", atS: 480, state: "out" };
const boiler = (celsius: number): Entry => ({ id: "t", kind: "temperature", of: "boiler", atS: 60, celsius });
const { traces: _, ...byHand } = smallSteaming();
const atTap = (kind: Entry["kind"], entries: Entry[]) =>
  questionsAtTap(smallEngine(), { ...byHand, entries }, kind);
const onSheet = (codes: string[], entries: Entry[]) =>
  analyse(smallEngine(), { ...smallSteaming(), entries }).warnings.filter(({ code }) => codes.includes(code));

const LOGS: [string, Entry["kind"], string[], Entry[]][] = [
  ["a lap tapped twice", "lap", ["laps-too-fast"], laps([0, 40, 80, 120, 123, 160])],
  ["a slipped point", "pressure", ["reading-outlying"], [lit, ...dial([2.8, 2.9, 29])]],
  ["a stuck dial", "pressure", ["dial-stuck"], [lit, out, ...dial(Array(6).fill(2.5), 100, 500)]],
  [
    "a pressure against the thermometer",
    "pressure",
    ["pressure-and-temperature"],
    [...dial([2, 2, 2]), boiler(170)],
  ],
  [
    "the thermometer against a pressure",
    "temperature",
    ["pressure-and-temperature"],
    [...dial([2, 2, 2]), boiler(170)],
  ],
  [
    "a level above the boiler",
    "level",
    ["level-beyond-boiler"],
    [...dial([2, 2, 2]), ...levels([18, 60, 17])],
  ],
  ["water that grew", "level", ["level-rising"], [...dial([3, 3, 3]), ...levels([9, 9, 20])]],
];

describe("what is asked at the tap is what the sheet says", () => {
  test.each(LOGS)("of %s", (_, kind, codes, entries) => {
    const said = onSheet(codes, entries);
    expect(said).toHaveLength(1);
    expect(atTap(kind, entries)).toMatchObject(said.map(({ code, entries }) => ({ code, entries })));
  });

  test.each(LOGS)("and of %s nothing where another kind is tapped", (_, kind, __, entries) => {
    for (const other of ["note", "feed", "fuel", "valve"] as const) expect(atTap(other, entries)).toEqual([]);
    if (kind !== "lap") expect(atTap("lap", entries)).toEqual([]);
  });

  test("no thermometer of the boiler, no question of saturation", () => {
    const flue: Entry = { ...boiler(170), of: "flue" } as Entry;
    expect(atTap("pressure", [...dial([2, 2, 2]), flue])).toEqual([]);
    expect(atTap("temperature", [...dial([2, 2, 2]), flue])).toEqual([]);
    expect(atTap("temperature", [...dial([2, 2, 2]), flue, boiler(170)])).toHaveLength(1);
  });
});
