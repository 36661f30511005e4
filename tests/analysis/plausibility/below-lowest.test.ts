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
      `stood at ${lowestMm - 2} mm at 1:00, below the lowest level of ${lowestMm} mm, with the fire lit`,
    );
    expect(warning?.text).toContain("let the fire out, and look at the glass");
  });

  test("below the glass's zero is written with the minus of all figures", () => {
    const [warning] = low([lit, ...levels([lowestMm + 5, -17.94]), out(300)]);
    expect(warning?.text).toContain("stood at −17.9 mm at ");
  });

  test("where no fire was written down it may have been lit, and is not said to have been", () => {
    const [warning] = low(levels([lowestMm + 5, lowestMm - 2]));
    expect(warning?.text).toContain("and no entry says that the fire was out. Where it stands so");
    expect(warning?.text).not.toContain("with the fire lit");
  });

  test("is not at the lowest level itself, nor once the fire is out", () => {
    expect(low([lit, ...levels([lowestMm + 5, lowestMm]), out(300)])).toEqual([]);
    expect(low([lit, ...levels([lowestMm + 5]), out(30), ...levels([lowestMm - 5], 60, 60)])).toEqual([]);
  });

  test("is so too where the water is out of sight below the glass, and not above it", () => {
    const unseen = (note: string): Entry => ({ id: "glass", kind: "level", atS: 60, mm: 0, note });
    expect(low([lit, unseen(glassWords.below), out(300)])[0]).toMatchObject({
      text: expect.stringContaining("out of sight below the glass at 1:00"),
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
    expect(warning?.text).toContain(`at ${lowestMm - 3} mm by the logger at 2:00`);
    expect(warning?.entries).toEqual([]);
  });

  describe("of glass and logger", () => {
    const logger = (values: number[], startS = 0, channel: "levelMm" | "massG" = "levelMm") => ({
      steaming: { traces: [{ channel, startS, everyS: 60, values }] },
    });
    const told = (entries: readonly Entry[], ...of: Parameters<typeof logger>) =>
      warned("water-below-lowest", entries, logger(...of)).map(({ text, entries: named }) => [
        text.split(",")[0]?.replace("The water stood ", ""),
        named,
      ]);
    const glass = (mm: number, atS: number): Entry => ({ id: "glass", kind: "level", mm, atS });

    test("it tells what came first, and names the readings of the glass", () => {
      const fallen = [lowestMm + 4, lowestMm + 1, lowestMm - 2];
      expect(told([lit, glass(lowestMm - 1, 119), out(300)], fallen)).toEqual([
        [`at ${lowestMm - 1} mm at 1:59`, ["glass"]],
      ]);
      expect(told([lit, glass(lowestMm - 1, 121), out(300)], fallen)).toEqual([
        [`at ${lowestMm - 2} mm by the logger at 2:00`, ["glass"]],
      ]);
    });

    test("samples at the lowest level, with the fire out, or of the weight tell nothing", () => {
      expect(told([lit, out(300)], [lowestMm + 2, lowestMm, lowestMm])).toEqual([]);
      expect(told([lit, out(100)], [lowestMm + 2, lowestMm + 1, lowestMm - 2])).toEqual([]);
      expect(told([lit, out(300)], [2, 1, 0], 0, "massG")).toEqual([]);
    });
  });

  test("counts from the second of lighting to that of putting it out", () => {
    const glass = (atS: number): Entry => ({ id: "glass", kind: "level", mm: lowestMm - 1, atS });
    const burnt = (reading: Entry) => low([{ ...lit, atS: 10 }, reading, out(300), ...levels([20], 60, 400)]);
    expect(burnt(glass(10))).toHaveLength(1);
    expect(burnt(glass(300))).toHaveLength(1);
    expect(burnt(glass(301))).toEqual([]);
    expect(low([glass(9), { ...lit, atS: 10 }, out(300)])).toEqual([]);
  });
});
