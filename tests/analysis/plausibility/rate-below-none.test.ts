import { describe, expect, test } from "vitest";
import type { Entry } from "../../../src/logbook/entry.ts";
import { phase } from "../water/water-log.ts";
import { dial, levels, warned } from "./logs.ts";

const engine = { instruments: { levelReadingMm: 0.2, massReadingG: 0.2 } };
const below = (...entries: Entry[]) =>
  warned(
    "rate-below-none",
    entries.sort((a, b) => a.atS - b.atS),
    { engine },
  );

describe("less than none drawn in one part of the time, though not in all", () => {
  const log = (mms: number[]): Entry[] => [
    ...dial([3, 3, 3, 3, 3], 300),
    phase("running", 0),
    phase("standing", 600),
    ...levels(mms, 100),
  ];
  const running = [25, 23, 21, 19, 17, 15];

  test("is named with the part, its rate and its readings", () => {
    // half a millimetre more each time, which no two readings tell
    const [warning, ...others] = below(...log([...running, 13, 13.4, 13.8, 14.2, 14.6, 15, 15.4]));
    expect(others).toEqual([]);
    expect(warning?.text).toContain("while she stood from 10:00 to 20:00");
    expect(warning?.text).not.toContain("the fire burnt less");
    expect(warning?.entries).toEqual(["l7", "l13"]);
  });

  test("is not where the errors of reading may have done it, nor where none at all was drawn", () => {
    expect(below(...log([...running, 13, 13, 13.1, 13, 13.1, 13, 13.1]))).toEqual([]);
    expect(below(...log([...running, 13, 13, 12.9, 12.9, 12.8, 12.7, 12.7]))).toEqual([]);
  });
});

/**
 * Weighed: 20 g of fuel in 1200 s as an even fire burns it, but all of it was burnt while she ran, and she stood with the fire
 * nearly out: what is thought to have burnt then would have come in as water.
 */
test("of weighings it is said that the fire may have burnt less", () => {
  const weight = (atS: number, g: number): Entry => ({ id: `w${atS}`, kind: "weight", atS, g });
  const [warning] = below(
    { kind: "fuel", action: "added", g: 120, atS: 0 },
    { kind: "fire", state: "lit", atS: 0 },
    ...dial([3, 3, 3], 600),
    phase("running", 0),
    phase("standing", 600),
    ...[0, 150, 300, 450, 600].map((atS) => weight(atS, 3000 - atS / 3)),
    ...[750, 900, 1050, 1200].map((atS) => weight(atS, 2800)),
    { kind: "fire", state: "out", atS: 1200 },
    { kind: "fuel", action: "remaining", g: 0, atS: 1201 },
  );
  expect(warning?.text).toContain("the fire burnt less then than is thought");
});
