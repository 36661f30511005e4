import { describe, expect, test } from "vitest";
import type { Entry } from "../../../src/logbook/entry.ts";
import { dial, laps, levels, warned } from "./logs.ts";

const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const out = (atS: number): Entry => ({ kind: "fire", atS, state: "out" });

describe("a reading of the dial far from its neighbours", () => {
  test("4.2 then 42 is named, and asked whether the point slipped", () => {
    const [warning, ...others] = warned("reading-outlying", dial([2.8, 2.9, 28, 2.9, 2.8]));
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["p3"]);
    expect(warning?.text).toContain("28 bar");
    expect(warning?.text).toContain("decimal point");
  });

  test("so is a tenth of its neighbours, and a last reading beyond any safety valve", () => {
    expect(warned("reading-outlying", dial([2.8, 2.9, 0.3, 2.9, 2.8]))[0]?.entries).toEqual(["p3"]);
    expect(warned("reading-outlying", dial([2.8, 2.9, 29]))[0]?.entries).toEqual(["p3"]);
  });

  test("a pressure that falls under load and comes back is not", () => {
    expect(warned("reading-outlying", dial([2.9, 2.4, 1.2, 2.2, 2.9]))).toEqual([]);
    expect(warned("reading-outlying", dial([0, 0.4, 1.4, 2.6, 3]))).toEqual([]);
  });

  test("nor a peak with ten minutes to either side", () => {
    expect(warned("reading-outlying", dial([0, 2.5, 0.2], 600))).toEqual([]);
  });

  // 0.155 is a tenth of the mean of 2.9 and 0.2, 2 of the mean of 0.1 and 40
  test("nor one that a neighbour bears out, or that lies between the two, for the point that slipped elsewhere", () => {
    expect(warned("reading-outlying", dial([2.8, 2.9, 0.155, 0.2, 0.2]))).toEqual([]);
    const ids = warned("reading-outlying", dial([0.1, 2, 40, 2.1, 2])).flatMap(({ entries }) => entries);
    expect(ids).toEqual(["p3"]);
  });

  test("nor a tenth that stood for ten minutes", () => {
    const named = (afterS: number) =>
      warned("reading-outlying", [...dial([2.9, 0.29], 60), ...dial([2.9], 60, 60 + afterS)]);
    expect(named(60)).toHaveLength(1);
    expect(named(600)).toEqual([]);
  });
});

describe("a dial that is stuck", () => {
  const stuck = dial([2.5, 2.5, 2.5, 2.5, 2.5, 2.5], 100, 500);

  test("is named when it shows the same all through a cooling", () => {
    const [warning] = warned("dial-stuck", [lit, ...dial([3, 2.8], 100, 200), out(480), ...stuck]);
    expect(warning?.entries).toEqual(["p1", "p2", "p3", "p4", "p5", "p6"]);
    expect(warning?.text).toContain("fire was out");
  });

  test("is not, where the same fire holds the same pressure, or it falls as it should", () => {
    expect(warned("dial-stuck", [lit, ...stuck])).toEqual([]);
    const falling = dial([2.5, 2.4, 2.2, 2.1, 2, 1.9], 100, 500);
    expect(warned("dial-stuck", [lit, out(480), ...falling])).toEqual([]);
  });

  test("a logger that repeats itself to the last digit is named", () => {
    const values = (vary: boolean) =>
      Array.from({ length: 200 }, (_, i) => (vary ? 2.5 + 0.01 * (i % 3) : 2.5));
    const trace = (vary: boolean) => ({
      steaming: {
        traces: [{ channel: "pressureBarG" as const, startS: 0, everyS: 5, values: values(vary) }],
      },
    });
    expect(warned("dial-stuck", [lit], trace(false))).toHaveLength(1);
    expect(warned("dial-stuck", [lit], trace(true))).toEqual([]);
  });
});

describe("a dial that stands still with good reason", () => {
  const same = (barG: number, times: number, everyS: number, fromS: number) =>
    dial(Array(times).fill(barG), everyS, fromS);

  test.each([
    ["at nothing, in a cold boiler", same(0, 8, 100, 500)],
    ["four times", same(2.5, 4, 150, 500)],
    ["for less than five minutes", same(2.5, 6, 50, 500)],
    ["while the fire still burnt for most of it", same(2.5, 6, 100, 200)],
  ])("is not named %s", (_, readings) => {
    expect(warned("dial-stuck", [lit, out(480), ...readings])).toEqual([]);
  });

  test("is named where it stood so before the fire was lit, and goes on", () => {
    const [warning] = warned(
      "dial-stuck",
      [...same(1.5, 8, 100, 0), { ...lit, atS: 250 }].sort((a, b) => a.atS - b.atS),
    );
    expect(warning?.entries).toHaveLength(8);
    expect(warning?.text).toContain("fire was lit");
  });

  test("a logger's two minutes alike, or with gaps between, are none", () => {
    const logged = (values: (number | null)[], everyS: number) =>
      warned("dial-stuck", [lit], {
        steaming: { traces: [{ channel: "pressureBarG" as const, startS: 0, everyS, values }] },
      });
    expect(logged(Array(200).fill(2.5), 1)).toEqual([]);
    expect(
      logged(
        Array.from({ length: 300 }, (_, i) => (i % 100 === 0 ? null : 2.5)),
        5,
      ),
    ).toEqual([]);
    expect(logged(Array(200).fill(0), 5)).toEqual([]);
    expect(logged(Array(302).fill(2.5), 1)).toHaveLength(1);
  });
});

describe("water that grows with nothing fed", () => {
  const steady = dial([3, 3, 3, 3, 3, 3]);

  test("is named with the readings that show it", () => {
    const [warning] = warned("level-rising", [...steady, ...levels([9, 9, 8, 20, 20, 19])]);
    expect(warning?.entries).toContain("l4");
    expect(warning?.entries).toContain("l3");
  });

  test("is named with two readings alone, unless a feed lies between", () => {
    const two = [...steady, ...levels([8, 20], 300)];
    expect(warned("level-rising", two)[0]?.entries).toEqual(["l1", "l2"]);
    expect(warned("level-rising", [...two, { kind: "feed", atS: 150, ml: 68, by: "bottle" }])).toEqual([]);
    expect(warned("level-rising", [...steady, ...levels([20, 8], 300)])).toEqual([]);
  });

  test("is not where a feed explains it, even one written a minute after the reading", () => {
    const feed = (atS: number): Entry => ({ kind: "feed", atS, ml: 68, by: "bottle" });
    for (const atS of [150, 175, 230]) {
      expect(warned("level-rising", [...steady, ...levels([9, 9, 8, 20, 20, 19]), feed(atS)])).toEqual([]);
    }
  });

  test("nor where the water only swells as it is heated", () => {
    const raising = dial([0, 0, 0, 0.5, 1.5, 3], 120);
    expect(warned("level-rising", [lit, ...raising, ...levels([16, 16, 16.5, 17, 17.5, 18], 120)])).toEqual(
      [],
    );
  });

  test("nor where the engine was weighed besides, for her weight is not that of her water", () => {
    const fuel = (action: "added" | "remaining", g: number, atS: number): Entry => ({
      kind: "fuel",
      action,
      g,
      atS,
    });
    const weighed = [100, 310].map((atS): Entry => ({ kind: "weight", g: 2000 - atS / 30, atS }));
    const burnt = [lit, fuel("added", 10, 0), fuel("remaining", 8, 300)];
    expect(
      warned("level-rising", [...burnt, ...steady, ...levels([12, 11, 10, 9, 8, 7]), ...weighed]),
    ).toEqual([]);
  });

  test("nor for one reading that is misread low", () => {
    expect(warned("level-rising", [...steady, ...levels([20, 20, 8, 19, 19, 19])])).toEqual([]);
  });
});

describe("a level that no glass on this boiler shows", () => {
  // 50 mm across, the glass's zero 15 mm up: from -15 to 35 mm
  test("is named above the top and below the bottom", () => {
    expect(warned("level-beyond-boiler", levels([20, 40, 19]))[0]?.entries).toEqual(["l2"]);
    expect(warned("level-beyond-boiler", levels([20, -19, 180]))[0]?.entries).toEqual(["l2", "l3"]);
  });

  test("is not within the errors of a reading of its ends", () => {
    expect(warned("level-beyond-boiler", levels([36, 20, -16]))).toEqual([]);
  });
});

describe("laps faster than possible", () => {
  test("a lap tapped twice is named", () => {
    const [warning] = warned("laps-too-fast", laps([30, 60, 91, 120, 122, 150, 180]));
    expect(warning?.entries).toEqual(["lap5"]);
    expect(warning?.text).toContain("at 2:02, 2 s after the one before");
  });

  test("a tap that came late and one in time after it are not", () => {
    expect(warned("laps-too-fast", laps([30, 60, 117, 121, 150, 180]))).toEqual([]);
  });

  // 46 and 7 s, in either order, are 1.77 laps of 30 s; 43 and 7 s are 1.67
  test("nor a short and a long one that together are two, for one tap came early or late", () => {
    const named = (...gaps: number[]) => {
      let atS = 30;
      const times = [30, ...[30, ...gaps, 30, 30, 30].map((gap) => (atS += gap))];
      return warned("laps-too-fast", laps(times)).length;
    };
    expect([named(46, 7), named(7, 46)]).toEqual([0, 0]);
    expect([named(43, 7), named(7, 43)]).toEqual([1, 1]);
  });

  test("nor one after a count of none", () => {
    const none: Entry = { kind: "lap", atS: 118, count: 0 };
    expect(warned("laps-too-fast", [...laps([30, 60, 90]), none, ...laps([120, 150, 180])])).toEqual([]);
  });

  test("the first laps are judged from the opening of the regulator", () => {
    const open: Entry = { kind: "regulator", atS: 0, state: "open" };
    const shut: Entry = { kind: "regulator", atS: 0, state: "shut" };
    const fifty: Entry = { id: "all", kind: "lap", atS: 60, count: 50 };
    expect(warned("laps-too-fast", [open, fifty])[0]?.entries).toEqual(["all"]);
    expect(warned("laps-too-fast", [open, { ...fifty, count: 5 }])).toEqual([]);
    expect(warned("laps-too-fast", [shut, { ...open, atS: 59 }, fifty])).toEqual([]);
  });

  test("a pace that no wheel turns is, of two laps as well", () => {
    // 20 m a lap in 3 s is 6.7 m/s; a 40 mm wheel would turn 53 times a second
    const [warning] = warned("laps-too-fast", laps([30, 33]), { engine: { drivingWheelMm: 40 } });
    expect(warning?.entries).toEqual(["lap2"]);
    // of two nobody can say what is usual
    expect(warning?.text).not.toContain("usual");
    expect(warned("laps-too-fast", laps([30, 40]), { engine: { drivingWheelMm: 40 } })).toEqual([]);
  });
});
