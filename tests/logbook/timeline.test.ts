import { describe, expect, test } from "vitest";
import type { Entry } from "../../src/logbook/entry.ts";
import { timelineOf } from "../../src/logbook/timeline.ts";
import { smallSteaming } from "../support/small-logbook.ts";

function lapsOf(counts: readonly number[], times: readonly number[]): { counts: number[]; running: boolean } {
  const laps = counts.map((count, i): Entry => ({ kind: "lap", count, atS: times[i] ?? 0 }));
  const timeline = timelineOf({
    ...smallSteaming(),
    entries: [{ kind: "regulator", state: "open", atS: 0 }, ...laps],
  });
  return {
    counts: timeline.of("lap").map((lap) => lap.count),
    running: timeline.runningCounts.includes("lap"),
  };
}

describe("counts of laps", () => {
  test("are of the laps since the entry before", () => {
    expect(lapsOf([1, 1, 1], [60, 120, 180])).toEqual({ counts: [1, 1, 1], running: false });
  });

  test("that grow in step with the time between them stay as they are", () => {
    expect(lapsOf([1, 2, 3], [60, 180, 360])).toEqual({ counts: [1, 2, 3], running: false });
    expect(lapsOf([2, 3, 5, 8], [120, 300, 600, 1080])).toEqual({ counts: [2, 3, 5, 8], running: false });
    expect(lapsOf([1, 2], [60, 180])).toEqual({ counts: [1, 2], running: false });
  });

  test("that go up one by one at an even pace are a running count, and become steps", () => {
    expect(lapsOf([1, 2, 3, 4], [60, 120, 180, 240])).toEqual({ counts: [1, 1, 1, 1], running: true });
    expect(lapsOf([10, 20, 30], [600, 1200, 1800])).toEqual({ counts: [10, 10, 10], running: true });
  });

  // whole laps: 1 is up to two laps in 290 s, and 2 as little as one in 210 s
  test("of a lap or two stay as they are where a lap begun and not counted makes their pace even", () => {
    expect(lapsOf([1, 2], [290, 500])).toEqual({ counts: [1, 2], running: false });
    expect(lapsOf([4, 9], [250, 500])).toEqual({ counts: [4, 5], running: true });
  });

  test("that always rise though stops upset the pace are a running count", () => {
    expect(lapsOf([1, 2, 4, 5, 6], [60, 120, 500, 560, 900]).counts).toEqual([1, 1, 2, 1, 1]);
  });

  const atStops = (stops: readonly (readonly [openS: number, shutS: number, count: number])[]) => {
    const entries = stops.flatMap(([openS, shutS, count]): Entry[] => [
      { kind: "regulator", state: "open", atS: openS },
      { kind: "regulator", state: "shut", atS: shutS },
      { kind: "lap", count, atS: shutS + 4 },
    ]);
    const timeline = timelineOf({ ...smallSteaming(), entries });
    return timeline.of("lap").map(({ count }) => count);
  };

  // 50 s a lap under way, a stop of 400 s before the last three
  test("that grow in step with the time under way stay as they are, however long she stopped", () => {
    expect(
      atStops([
        [100, 155, 1],
        [175, 278, 2],
        [678, 830, 3],
      ]),
    ).toEqual([1, 2, 3]);
  });

  // 111, 92 and 156 s under way: whole laps of 56 to 78 s, the last of each begun and not counted
  test("that go up one by one at stops stay as they are where whole laps of one pace fit them", () => {
    expect(
      atStops([
        [1252, 1363, 1],
        [1526, 1618, 2],
        [1638, 1794, 3],
      ]),
    ).toEqual([1, 2, 3]);
  });

  test("that go up one by one at stops are a running count where the time under way is the same each time", () => {
    expect(
      atStops([
        [0, 60, 1],
        [100, 160, 2],
        [600, 660, 3],
      ]),
    ).toEqual([1, 1, 1]);
  });
});

describe("a timeline", () => {
  test("puts entries in order, says which stood after later ones, and keeps the order of the log within one second", () => {
    const timeline = timelineOf({
      ...smallSteaming(),
      entries: [
        { id: "b", kind: "level", mm: 10, atS: 20 },
        { id: "a", kind: "level", mm: 11, atS: 10 },
        { id: "c", kind: "level", mm: 12, atS: 20 },
      ],
    });
    expect(timeline.entries.map((entry) => entry.id)).toEqual(["a", "b", "c"]);
    expect(timeline.outOfOrder).toEqual(["a"]);
  });

  test("until a moment ends traces with it", () => {
    const steaming = {
      ...smallSteaming(),
      entries: [],
      traces: [{ channel: "pressureBarG" as const, startS: 5, everyS: 2, values: [1, 2, 3, 4] }],
    };
    expect(timelineOf(steaming, 9).traces[0]?.values).toEqual([1, 2, 3]);
    expect(timelineOf(steaming, 4).traces).toEqual([]);
  });
});
