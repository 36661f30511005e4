import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";

const base = smallSteaming().entries.filter((entry) => entry.kind !== "lap");
const lapsAt = (...times: number[]): Entry[] => times.map((atS): Entry => ({ kind: "lap", count: 1, atS }));

function analysisWith(laps: Entry[]) {
  const entries = [...base, ...laps].sort((a, b) => a.atS - b.atS);
  return analyse(smallEngine(), { ...smallSteaming(), entries });
}

describe("laps", () => {
  const regular = [100, 140, 180, 220, 260, 300, 340, 380, 420, 460];

  test("a gap of two usual laps in a regular run counts as one run and not recorded", () => {
    const { warnings, totals } = analysisWith(lapsAt(...regular.filter((atS) => atS !== 260)));
    expect(totals?.laps).toBe(9);
    expect(totals?.distanceM).toBeCloseTo(200, 9);
    expect(warnings.filter((warning) => warning.code === "lap-perhaps-missed")).toHaveLength(1);
  });

  test("a gap with a feed by hand in it is a stop, not a lap forgotten", () => {
    const feed: Entry = { kind: "feed", ml: 10, by: "bottle", atS: 250 };
    const { warnings } = analysisWith([...lapsAt(...regular.filter((atS) => atS !== 260)), feed]);
    expect(warnings.map((warning) => warning.code)).not.toContain("lap-perhaps-missed");
  });

  test("laps that are not regular give no gap away", () => {
    const { warnings } = analysisWith(lapsAt(100, 130, 190, 225, 300, 330, 400, 440, 460));
    expect(warnings.map((warning) => warning.code)).not.toContain("lap-perhaps-missed");
  });
});
