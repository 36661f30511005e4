import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { safetyValveOf } from "../../../src/analysis/valve/safety-valve.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { interval, isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

type Bar = readonly [atS: number, barG: number];

/** Of a test of the valve of which no lift was written, on an engine of 3 bar. */
const highest = (bars: readonly Bar[], others: readonly Entry[] = [], pressureReadingBar = 0.05) => {
  const read = bars.map(([atS, barG]): Entry => ({ kind: "pressure", atS, barG }));
  const entries = [...read, ...others].sort((a, b) => a.atS - b.atS);
  const locomotive = { ...smallEngine(), instruments: { pressureReadingBar, pressureBiasBar: 0.02 } };
  const steaming = { ...smallSteaming(), purpose: "safety-valve" as const, entries };
  const figure = safetyValveOf(sourcesOf(locomotive, steaming))?.highest;
  if (figure === undefined || !isMeasured(figure)) throw new Error("no figure");
  const [low, high] = interval(figure);
  return { value: figure.value, low, high };
};

const rise: Bar[] = [
  [0, 1.5],
  [30, 2],
  [60, 2.5],
];
const tenAt = (barG: number): Bar[] => Array.from({ length: 10 }, (_, i) => [90 + 30 * i, barG]);
const fall: Bar[] = [
  [390, 2.6],
  [420, 2.4],
];

describe("the highest pressure where no lift was written", () => {
  const endsAt = (endS: number, fallsPerS: number): Bar[] =>
    Array.from({ length: 6 }, (_, i) => {
      const atS = 30 * i;
      return [atS, 1.5 + 0.02 * Math.min(atS, endS) - fallsPerS * Math.max(0, atS - endS)];
    });

  test.each<[Entry, number]>([
    [{ kind: "fire", atS: 75, state: "out" }, 0.005],
    [{ kind: "regulator", atS: 75, state: "open" }, 0.01],
  ])("stood where the rise ended, between two readings: %j", (end, fallsPerS) => {
    const { value, low, high } = highest(endsAt(75, fallsPerS), [end], 0.02);
    expect(value).toBeGreaterThan(2.95);
    expect(value).toBeLessThan(3.05);
    expect(low).toBeLessThan(3);
    expect(high).toBeGreaterThan(3);
  });

  test("is never below what was read, however long after the top the fire was put out", () => {
    const late: Entry = { kind: "fire", atS: 170, state: "out" };
    const { value } = highest(
      [
        [0, 1.5],
        [30, 2.2],
        [60, 2.9],
        [200, 1],
        [230, 0.9],
      ],
      [late],
    );
    expect(value).toBeGreaterThan(2.88);
  });

  test("of ten readings at one level follows the error of none of them", () => {
    const right = highest([...rise, ...tenAt(3), ...fall]);
    const wrong = highest([...rise, ...tenAt(3).with(4, [210, 3.12]), ...fall]);
    expect(wrong.value - right.value).toBeGreaterThan(0);
    expect(wrong.value - right.value).toBeLessThan(0.04);
  });

  test("may have stood above the level at which a valve blew, by what usually lies between lift and that", () => {
    const blew = highest([...rise, ...tenAt(3), ...fall]);
    expect(blew.value).toBeGreaterThan(3.03);
    expect(blew.low).toBeLessThan(3);
    // 8.5 % of working pressure: as much again as is usual in this estimate
    expect(blew.high).toBeGreaterThan(3.255);
  });

  test("not where no rise to it was read, nor well below working pressure, where no valve blows", () => {
    expect(highest(tenAt(3)).value).toBeCloseTo(3, 2);
    const below = highest([[0, 0.9], [30, 1.3], [60, 1.7], ...tenAt(2.2), [390, 1.8]]);
    expect(below.value).toBeGreaterThan(2.17);
    expect(below.value).toBeLessThan(2.23);
  });
});
