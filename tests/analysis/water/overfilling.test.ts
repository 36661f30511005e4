import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { boilerGeometry } from "../../../src/boiler/geometry.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const geometry = boilerGeometry(smallEngine().boiler);
const holdsMl = 1e6 * geometry.totalM3;
const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS, id: `glass ${atS}` });
const fill = (ml: number, atS: number): Entry => ({ kind: "fill", ml, atS, id: "filling" });
const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const lap = (atS: number): Entry => ({ kind: "lap", count: 1, atS });

/** Lit, raised to 3 bar, and 12 laps of a minute over which the glass falls by 9.6 mm. */
const run = [
  { kind: "fire", state: "lit", atS: 60 } as const,
  bar(0, 60),
  bar(3, 400),
  level(16.6, 420),
  { kind: "regulator", state: "open", atS: 420 } as const,
  ...Array.from({ length: 12 }, (_, i) => [lap(480 + 60 * i), level(15.8 - 0.8 * i, 482 + 60 * i)]).flat(),
  bar(3, 1145),
];
const sheetOf = (begun: readonly Entry[]) =>
  analyse(smallEngine(), { ...smallSteaming(), entries: [...begun, ...run] });
const figuresOf = (begun: readonly Entry[]) => {
  const { totals, forecast } = sheetOf(begun);
  return [totals?.waterDrawn, forecast?.minutesToLowest, forecast?.waterAboveLowest].map((figure) => {
    if (!figure || !isMeasured(figure)) throw new Error("no figure");
    return figure.value;
  });
};
const said = (begun: readonly Entry[]) =>
  sheetOf(begun).warnings.find(({ code }) => code === "filled-beyond-boiler");

describe("a filling that cannot go in on top of the water that the glass showed", () => {
  test.each([0, 30])("%d s after the reading is left out, and said", (atS) => {
    const begun = [level(16.6, 0), fill(0.75 * holdsMl, atS)];
    expect(figuresOf(begun)).toEqual(figuresOf([level(16.6, 0)]));
    expect(said(begun)?.entries).toEqual(["glass 0", "filling"]);
  });

  test("one that can go in counts, and so does one long after the reading", () => {
    const room = holdsMl - 1e6 * geometry.waterM3AtLevelMm(10);
    const drawnWith = (ml: number, atS: number) => figuresOf([level(10, atS), fill(ml, 40)])[0] ?? 0;
    expect(said([level(10, 0), fill(0.9 * room, 40)])).toBeUndefined();
    expect(drawnWith(0.9 * room, 0) - drawnWith(0.5 * room, 0)).toBeGreaterThan(0.3 * room);
    expect(said([level(16.6, -200), fill(0.75 * holdsMl, 0)])).toBeUndefined();
  });
});

describe("a filling of hot water", () => {
  // 10 mm of water at 15 °C, 0.9991 g/ml, weigh what the boiler has not left for 0.9653 g/ml at 90 °C (IAPWS-95)
  const roomG = 1.05 * holdsMl - 0.9991e6 * geometry.waterM3AtLevelMm(10);
  const saidOf = (ml: number) =>
    analyse(smallEngine(), {
      ...smallSteaming(),
      conditions: { ambientC: 15, feedC: 90 },
      entries: [
        { kind: "temperature", of: "boiler", celsius: 15, atS: 0 },
        level(10, 0),
        fill(ml, 40),
        ...run,
      ],
    }).warnings.find(({ code }) => code === "filled-beyond-boiler");

  test("goes in by its weight", () => {
    expect(saidOf((0.98 * roomG) / 0.9653)).toBeUndefined();
    expect(saidOf((1.02 * roomG) / 0.9653)?.entries).toEqual(["glass 0", "filling"]);
  });
});

describe("a filling on top of what a logger of the level showed", () => {
  const logged = (entries: Entry[]) =>
    analyse(smallEngine(), {
      ...smallSteaming(),
      entries: [...entries, fill(0.75 * holdsMl, 90), bar(3, 400)],
      traces: [{ channel: "levelMm", startS: 0, everyS: 30, values: [16.6, 16.6, 16.6] }],
    }).warnings.find(({ code }) => code === "filled-beyond-boiler")?.entries;

  test("names the filling alone, whatever entry stands before the sample", () => {
    expect(logged([])).toEqual(["filling"]);
    expect(logged([level(16.6, 0)])).toEqual(["filling"]);
    expect(logged([bar(3, 60)])).toEqual(["filling"]);
  });
});

describe("a first filling of more than the boiler holds", () => {
  const begun = [fill(1.21 * holdsMl, 0)];

  test("leaves the falling glass its forecast", () => {
    expect(figuresOf(begun)).toEqual(figuresOf([]));
    expect(said(begun)?.entries).toEqual(["filling"]);
  });

  test("stays beside a draining alone, for these ask nothing of the boiler's measures", () => {
    const entries = [...begun, bar(3, 400), { kind: "drained", ml: 20, atS: 900 } as const];
    const drawn = analyse(smallEngine(), { ...smallSteaming(), entries }).totals?.waterDrawn;
    expect(drawn?.value).toBeGreaterThan(1.1 * holdsMl);
  });
});
