import { describe, expect, test } from "vitest";
import type { Entry } from "../../../src/logbook/entry.ts";
import { glassWords } from "../../../src/logbook/glass-reading.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { levels, warned } from "./logs.ts";

const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const out = (atS: number): Entry => ({ kind: "fire", atS, state: "out" });
const lowestMm = smallEngine().boiler.lowestLevelMm;
const low = (entries: readonly Entry[]) => warned("water-below-lowest", entries);

describe("water below the lowest level with the fire lit", () => {
  test("is warned of once, naming every such reading", () => {
    const [warning, ...others] = low([lit, ...levels([lowestMm + 5, lowestMm - 2, lowestMm - 6]), out(300)]);
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["l2", "l3"]);
    expect(warning?.text).toContain(
      `stood at ${lowestMm - 2} mm at 60 s, below the lowest level of ${lowestMm} mm, with the fire lit`,
    );
    expect(warning?.text).toContain("let the fire out, and look at the glass");
  });

  test("is not at the lowest level itself, nor once the fire is out", () => {
    expect(low([lit, ...levels([lowestMm + 5, lowestMm]), out(300)])).toEqual([]);
    expect(low([lit, ...levels([lowestMm + 5]), out(30), ...levels([lowestMm - 5], 60, 60)])).toEqual([]);
  });

  test("is so too where the water is out of sight below the glass, and not above it", () => {
    const unseen = (note: string): Entry => ({ id: "glass", kind: "level", atS: 60, mm: 0, note });
    expect(low([lit, unseen(glassWords.below), out(300)])[0]).toMatchObject({
      text: expect.stringContaining("out of sight below the glass at 60 s"),
      entries: ["glass"],
    });
    expect(low([lit, unseen(glassWords.above), out(300)])).toEqual([]);
  });

  test("is told by a logger of the level that nobody looked at", () => {
    const traces = [
      {
        channel: "levelMm" as const,
        startS: 0,
        everyS: 60,
        values: [lowestMm + 4, lowestMm + 1, lowestMm - 3],
      },
    ];
    const [warning] = warned("water-below-lowest", [lit, out(300)], { steaming: { traces } });
    expect(warning?.text).toContain(`at ${lowestMm - 3} mm by the logger at 120 s`);
    expect(warning?.entries).toEqual([]);
  });
});
