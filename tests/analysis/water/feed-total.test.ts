import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Water at 15 °C, g/ml (handbooks). */
const COLD = 0.9991;

function fedOf(entries: Entry[], engine: Partial<Locomotive> = {}) {
  const { totals } = analyse({ ...smallEngine(), ...engine }, { ...smallSteaming(), entries });
  const feed = totals?.feed;
  if (feed === undefined || !isMeasured(feed)) throw new Error("no feed");
  return feed;
}
const partOf = ({ parts }: ReturnType<typeof fedOf>, name: string) =>
  Math.hypot(...parts.filter((part) => part.name === name).map(({ u }) => u));

const level = (atS: number): Entry => ({ kind: "level", mm: 20, atS });
const bottle = (ml: number, atS: number): Entry => ({ kind: "feed", by: "bottle", ml, atS });
const run: Entry[] = [
  { kind: "pressure", barG: 2, atS: 0 },
  { kind: "phase", name: "running", atS: 0 },
  { kind: "bypass", state: "shut", atS: 0 },
];
const pump = { axlePump: { ramMm: 5, strokeMm: 8, strokesPerRev: 1 } };
const pumped = (ml: number, atS: number): Entry => ({ kind: "feed", by: "axle-pump", ml, atS });

describe("what was fed between the first and the last reading of the water", () => {
  test("of bottles, those that stand in the log between the two, with the scale's error once and each measure's own", () => {
    const fed = fedOf([
      bottle(30, 0),
      level(0),
      bottle(50, 100),
      bottle(20, 200),
      level(200),
      bottle(40, 240),
    ]);
    expect(fed.value).toBeCloseTo(70 * COLD, 2);
    expect(partOf(fed, "scale of the feed measure")).toBeCloseTo(0.02 * 70 * COLD, 3);
    expect(partOf(fed, "each measure of feed")).toBeCloseTo(Math.SQRT2 * COLD, 3);
    expect(fed.parts).toHaveLength(2);
  });

  // 40 ml in the same second or a few later: 20 more or less of 20
  test("of a bottle written down just after the last reading, half, give or take half", () => {
    for (const atS of [200, 205]) {
      const fed = fedOf([level(0), bottle(50, 100), level(200), bottle(40, atS)]);
      expect(fed.value).toBeCloseTo(70 * COLD, 2);
      expect(partOf(fed, "whether the water was read before the feed or after")).toBeCloseTo(20 * COLD, 2);
    }
    expect(fedOf([level(0), bottle(50, 100), level(200), bottle(40, 206)]).value).toBeCloseTo(50 * COLD, 2);
  });

  test("what an axle pump gave before the last reading counts, though its tank was looked at only after it", () => {
    const fed = fedOf([level(0), ...run, pumped(40, 300), level(600), pumped(30, 600)], pump);
    expect(fed.value).toBeCloseTo(70 * COLD, 2);
  });

  // read at 450 s, half way from one look at the tank to the next
  test("of a pump's feed that was under way when the water was read last, the part that had flowed", () => {
    const fed = fedOf([level(0), ...run, pumped(40, 300), level(450), pumped(30, 600)], pump);
    expect(fed.value).toBeCloseTo(55 * COLD, 2);
    expect(partOf(fed, "when the pump fed")).toBe(0);
  });

  // no by-pass: half way through a quarter of it may have flowed early or late
  test("without a by-pass in the log the time of its flowing is in doubt", () => {
    const unsaid = run.filter(({ kind }) => kind !== "bypass");
    const fed = fedOf([level(0), ...unsaid, level(300), pumped(40, 600)], pump);
    expect(fed.value).toBeCloseTo(20 * COLD, 2);
    expect(partOf(fed, "when the pump fed")).toBeCloseTo(0.25 * 40 * COLD, 2);
  });

  test("where the water was read once or not at all, everything that was fed; where nothing was, none, without a doubt", () => {
    expect(fedOf([bottle(30, 0), level(50), bottle(50, 100)]).value).toBeCloseTo(80 * COLD, 2);
    expect(fedOf([level(0), level(100)])).toEqual({ value: 0, unit: "g", parts: [] });
  });
});
