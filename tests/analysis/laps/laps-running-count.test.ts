import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { interval } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Counts one by one, with nothing of the regulator. */
const logOf = (...times: number[]) => ({
  ...smallSteaming(),
  entries: times.map((atS, i): Entry => ({ kind: "lap", count: i + 1, atS, id: `at ${atS}` })),
});
const runOf = (...times: number[]) => sourcesOf(smallEngine(), logOf(...times)).laps;

describe("counts of 1, 2, 3 with no stop written", () => {
  test("at an even pace are the number reached, and nothing else", () => {
    const laps = runOf(60, 121, 180);
    expect(laps.runIn(-1, 1e6).value).toBe(3);
    expect(interval(laps.runIn(-1, 1e6))[1]).toBeLessThan(4);
    expect(laps.otherwiseIn(-1, 1e6)).toBeNull();
  });

  // 959 and 669 s between them: neither one lap each nor two and three go at one pace
  test("at no pace of either kind may as well be of the laps between: the range takes in both", () => {
    const laps = runOf(1371, 2330, 2999);
    expect(laps.wholeIn(-1, 1e6)).toBe(3);
    expect(laps.otherwiseIn(-1, 1e6)?.value).toBe(6);
    const [low, high] = interval(laps.runIn(-1, 1e6));
    expect(low).toBeGreaterThan(2.5);
    expect(high).toBeGreaterThan(5.9);
    expect(laps.otherwiseIn(-1, 1371)).toBeNull();
    expect(laps.missed).toEqual([]);
  });

  test("that is said, and not where their pace tells what they are", () => {
    const said = (...times: number[]) =>
      analyse(smallEngine(), logOf(...times)).warnings.find(({ code }) => code === "running-count")?.text;
    expect(said(1371, 2330, 2999)).toContain("takes in both");
    expect(said(60, 121, 180)).not.toContain("takes in both");
  });

  test("five of them are no chance", () => {
    expect(runOf(100, 300, 350, 600, 640).otherwiseIn(-1, 1e6)).toBeNull();
  });
});
