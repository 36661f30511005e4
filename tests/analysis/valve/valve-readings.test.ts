import { describe, expect, test } from "vitest";
import { readingsNear } from "../../../src/analysis/valve/valve-readings.ts";

const reads = (...atS: number[]) => atS.map((s) => ({ atS: s, barG: 1 + s / 1000 }));
const near = (moments: number[], all: { atS: number; barG: number }[]) =>
  readingsNear(
    moments.map((atS) => ({ atS })),
    all,
  );
const timesOf = (found: { atS: number }[]) => found.map(({ atS }) => atS);

describe("readings about the moments of a valve", () => {
  test("are those within two and a half minutes, in order of time", () => {
    expect(timesOf(near([200], reads(49, 50, 100, 200, 300, 350, 351)))).toEqual([50, 100, 200, 300, 350]);
    expect(timesOf(near([900, 100], reads(90, 110, 890, 910)))).toEqual([90, 110, 890, 910]);
    expect(near([900], reads(100))).toEqual([]);
  });

  test("are the eight nearest on either side, the moment's own on the side before", () => {
    const dense = reads(...Array.from({ length: 21 }, (_, i) => 100 + 10 * i));
    expect(timesOf(near([200], dense))).toEqual([
      ...Array.from({ length: 8 }, (_, i) => 130 + 10 * i),
      ...Array.from({ length: 8 }, (_, i) => 210 + 10 * i),
    ]);
  });

  test("closer than three seconds count as one at their mean", () => {
    expect(near([100], reads(90, 92, 93, 110, 113))).toEqual([
      // outwards from the moment: 93 and 92 together, 90 is three from 93
      { atS: 90, barG: 1.09 },
      { atS: 92.5, barG: expect.closeTo(1.0925, 12) },
      { atS: 110, barG: 1.11 },
      { atS: 113, barG: 1.113 },
    ]);
    expect(timesOf(near([100], reads(110, 111, 112.9)))[0]).toBeCloseTo((110 + 111 + 112.9) / 3, 12);
  });

  test("of many moments the nearest eighty are kept, each by its nearest moment", () => {
    const moments = Array.from({ length: 6 }, (_, i) => 1000 * i);
    // sixteen about each moment but the last, 4 s apart; about the last ten only, further off
    const about = moments.flatMap((m, k) =>
      k < 5
        ? Array.from({ length: 16 }, (_, i) => m + (i < 8 ? -4 * (8 - i) : 4 * (i - 7)))
        : [m - 100, m - 80, m - 60, m + 60, m + 80],
    );
    const found = timesOf(near(moments, reads(...about)));
    expect(found).toHaveLength(80);
    expect(found.every((atS) => atS < 4500)).toBe(true);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    // one that is far from the first moment and beside the second is kept
    const shared = timesOf(near([0, 100, ...moments.slice(1)], reads(...about, 99)));
    expect(shared).toContain(99);
  });
});
