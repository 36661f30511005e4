import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { peakUnread } from "../../../src/analysis/valve/peak-unread.ts";
import { safetyValveOf } from "../../../src/analysis/valve/safety-valve.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { interval, isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

type Bar = readonly [atS: number, barG: number];
const read = ([atS, barG]: Bar): Entry => ({ kind: "pressure", atS, barG });
const out = (atS: number): Entry => ({ kind: "fire", atS, state: "out" });

/** Up at 0.02 bar a second to the reading at 60 s, and down at 0.01 from the one at 90 s. */
const up: Bar[] = [
  [0, 1.8],
  [30, 2.4],
  [60, 3],
];
const down: Bar[] = [
  [90, 3],
  [120, 2.7],
  [150, 2.4],
];

const unread = (bars: readonly Bar[], others: readonly Entry[] = []) => {
  const reads = bars.map(([atS, barG]) => ({ atS, barG }));
  const top = reads.reduce((a, b) => (b.barG > a.barG ? b : a));
  const entries = [...bars.map(read), ...others].sort((a, b) => a.atS - b.atS);
  return peakUnread(timelineOf({ ...smallSteaming(), entries }), reads, top);
};

describe("how high the pressure may have stood between two readings", () => {
  test("up at the pace before and down at the pace after, to where the two meet", () => {
    // 0.02 x = 0.01 (30 - x) at 10 s
    expect(unread([...up, ...down])).toBeCloseTo(0.2, 9);
    // the highest is the reading after it: from 2.94 at 60 s to 3 at 90 s, 0.02 x = 0.06 + 0.01 (30 - x) at 12 s
    expect(unread([[0, 1.74], [30, 2.34], [60, 2.94], ...down])).toBeCloseTo(0.24 - 0.06, 9);
  });

  test("no longer than until the fire was put out", () => {
    expect(unread([...up, ...down], [out(64)])).toBeCloseTo(0.08, 9);
    expect(unread([...up, ...down], [out(75)])).toBeCloseTo(0.2, 9);
    expect(unread([...up, ...down], [out(59)])).toBeCloseTo(0.2, 9);
  });

  test("what the regulator or cold feed brought down tells no pace: she may have gone on up until then", () => {
    const open: Entry = { kind: "regulator", atS: 80, state: "open" };
    expect(unread([...up, ...down], [open])).toBeCloseTo(0.4, 9);
    const fed: Entry = { kind: "feed", atS: 76, ml: 5, by: "hand-pump" };
    expect(unread([...up, ...down], [open, fed])).toBeCloseTo(0.32, 9);
  });

  test("after the last reading until the last entry, or the fire is out", () => {
    expect(unread(up)).toBe(0);
    expect(unread(up, [{ kind: "note", atS: 70, text: "" }])).toBeCloseTo(0.2, 9);
    expect(unread(up, [out(65), { kind: "note", atS: 70, text: "" }])).toBeCloseTo(0.1, 9);
  });

  test("none where she came up no further to the highest, or no pace was seen", () => {
    expect(unread([[0, 2.9], ...down])).toBe(0);
    expect(unread([[51, 2.8], [60, 3], ...down])).toBe(0);
    expect(unread([[50, 2.8], [60, 3], ...down])).toBeCloseTo(0.2, 9);
  });

  test("the highest goes up by so much in its range, and the rise with it; neither goes down", () => {
    const of = (others: readonly Entry[]) => {
      const entries = [...[...up, ...down].map(read), ...others].sort((a, b) => a.atS - b.atS);
      const locomotive = {
        ...smallEngine(),
        instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.02 },
      };
      const found = safetyValveOf(
        sourcesOf(locomotive, { ...smallSteaming(), purpose: "safety-valve", entries }),
      );
      if (found === null || !isMeasured(found.highest) || !isMeasured(found.rise))
        throw new Error("no figures");
      return {
        highest: found.highest,
        low: interval(found.highest)[0],
        high: interval(found.highest)[1],
        rise: interval(found.rise),
      };
    };
    const [long, short] = [of([]), of([out(60)])];
    expect(long.highest.value).toBeCloseTo(short.highest.value, 9);
    expect(long.low).toBeCloseTo(short.low, 9);
    expect(long.high - short.high).toBeCloseTo(0.2, 9);
    expect(long.rise[1] - short.rise[1]).toBeCloseTo(0.2 / 3, 9);
    expect(long.high).toBeGreaterThan(3.2);
  });
});
