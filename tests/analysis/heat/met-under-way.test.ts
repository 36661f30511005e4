import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { isMeasured, type Measured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar, fire } from "../water/water-log.ts";

const engine = (pressureBiasBar = 0.05) => ({
  ...smallEngine(),
  instruments: { pressureReadingBar: 0.02, pressureBiasBar },
});
const valve = (atS: number): Entry => ({ kind: "valve", atS, state: "lifts" });
/** Raised to 1.7 bar of the 3 in ten minutes, then used. */
const setOff: Entry[] = [
  fire("lit", 0),
  ...[0, 280].map((atS) => bar(0, atS)),
  ...[0, 350, 700, 1000].map((atS): Entry => ({ kind: "level", atS, mm: 20 })),
  bar(0.4, 400),
  bar(1, 500),
  bar(1.7, 600),
  { kind: "regulator", atS: 601, state: "open" },
];
/** Under way 0.4 bar in a hundred seconds: 3 bar at 951 s. */
const underWay = [bar(2, 701), bar(2.4, 801), bar(2.8, 901), bar(3.2, 1001)];
const worked = (more: Entry[], of = engine(), start = setOff) => {
  const entries = [...start, ...more].sort((a, b) => a.atS - b.atS);
  const { raising, warnings } = analyse(of, { ...smallSteaming(), entries });
  const said = warnings.find(({ code }) => code === "raised-below-working-pressure")?.text;
  const power = raising?.power as Measured;
  const part = (name: string) =>
    power.parts.reduce((sum, one) => sum + (one.name.startsWith(name) ? one.u : 0), 0) / power.value;
  return { raising, said, power, part };
};

describe("working pressure met only under way", () => {
  test("ends the power where it ends the time, in doubt by the pace under way", () => {
    const { raising, said, power, part } = worked(underWay);
    expect(raising?.toWorkingPressureS).toBeCloseTo(951, 6);
    expect(raising?.window).toEqual([0, raising?.toWorkingPressureS]);
    expect(said).toBeUndefined();
    expect(isMeasured(power)).toBe(true);
    // 0.02 bar at 0.004 bar a second is 5 s, a seventh of the gap 15
    expect(part("moment") * 951).toBeCloseTo(Math.hypot(5, 15), 0);
    // a dial 0.05 bar high meets it 12.5 s early
    const before = worked(underWay, engine(0.01));
    expect(Math.abs(part("bias of the pressure")) * 951).toBeGreaterThan(11);
    expect(Math.abs(before.part("bias of the pressure")) * 951).toBeLessThan(4);
  });

  test.each([
    ["never met", [bar(2, 701), bar(2.4, 801)], "1.70 bar, in 10:00. "],
    [
      "a valve had lifted since, at no reading",
      [...underWay.slice(0, 3), valve(850), bar(3.2, 1001)],
      "1.70 bar",
    ],
    ["so slowly that nobody can tell when", [bar(2.98, 701), bar(2.99, 1301), bar(3.001, 1901)], "1.70 bar"],
  ])("%s: the power is that to the highest before, and the sheet says so", (_, more, words) => {
    const { raising, said } = worked(more as Entry[]);
    expect(raising?.window).toEqual([0, 600]);
    expect(said).toContain(words);
  });

  test("not told that it was not met before, by readings far apart: the sheet says both times", () => {
    const late = [...setOff.slice(0, -1), { kind: "regulator", atS: 790, state: "open" } as Entry];
    const { raising, said } = worked([bar(2.4, 860), bar(2.8, 960), bar(3.2, 1060)], engine(), late);
    expect(raising?.window).toEqual([0, 600]);
    expect(said).toContain("1.70 bar, in 10:00, and not to working pressure, shown 16:50 after lighting up");
  });
});

describe("steam used just after the last reading", () => {
  test("was met by the pace of all that was read of the rise, though the last two readings are nearly alike", () => {
    const coarse = { ...engine(), instruments: { pressureReadingBar: 0.2, pressureBiasBar: 0.05 } };
    const rise = [bar(0.5, 400), bar(1, 460), bar(1.6, 520), bar(2.4, 580), bar(2.45, 600)];
    const open: Entry = { kind: "regulator", atS: 622, state: "open" };
    const { raising } = worked([bar(3.1, 800)], coarse, [...setOff.slice(0, 6), ...rise, open]);
    expect(raising?.window?.[1]).toBeGreaterThanOrEqual(600);
    expect(raising?.window?.[1]).toBeLessThanOrEqual(622);
  });
});

describe("times in whole minutes", () => {
  /** 3 bar at 660 s */
  const minutes = (shiftS: number): Entry[] => [
    fire("lit", 0),
    ...[0, 300].map((atS) => bar(0, atS)),
    ...[0, 360, 720].map((atS): Entry => ({ kind: "level", atS, mm: 20 })),
    bar(0.4, 420),
    bar(1, 480),
    bar(1.7, 540 + shiftS),
    bar(2.4, 600),
    bar(3, 660),
    bar(3.2, 720),
  ];
  test("either end of the power is anywhere within the minute", () => {
    const { part, raising } = worked([], engine(), minutes(0));
    const seconds = raising?.window?.[1] ?? Number.NaN;
    expect(part("clock") * seconds).toBeCloseTo(Math.hypot(60, 60) / Math.sqrt(12), 6);
    expect(worked([], engine(), minutes(1)).part("clock")).toBe(0);
  });

  // 1 bar, 120 °C, in two minutes from boiling: 33 K more by 601 s would be 153 °C, 4.2 bar, though a bar each two minutes is not 3
  test("last read so long before that by the pace of her warmth she may have met it: that read before ends the power", () => {
    const seldom = [
      ...setOff.slice(0, 6),
      bar(1, 400),
      { kind: "regulator", atS: 601, state: "open" } as const,
    ];
    const { raising, said } = worked(underWay, engine(), seldom);
    expect(raising?.window).toEqual([0, 400]);
    expect(said).toContain("1.00 bar");
  });

  test("a valve that lifts long after she set off does not tell that a dial nearly at the mark had met it", () => {
    const nearly = [
      ...setOff.slice(0, -2),
      bar(2.8, 600),
      { kind: "regulator", atS: 601, state: "open" } as const,
    ];
    const low = [bar(2.4, 701), bar(2.6, 801)];
    // a dial of 0.1 bar may stand at 2.8 where there are 3
    const { raising, said } = worked([...low, valve(900)], engine(0.1), nearly);
    expect(raising?.toWorkingPressureS).toBeNull();
    expect(said).toMatch(/No reading shows working pressure before steam was used/);
    // one that lifts before steam is used does
    expect(worked([...low, valve(602)], engine(0.1), nearly).raising?.toWorkingPressureS).toBeGreaterThan(
      500,
    );
  });

  test("having stood as high as can be told for minutes, she had been raised when she first came there", () => {
    const stood = [
      ...setOff.slice(0, -1),
      bar(1.71, 700),
      bar(1.72, 950),
      { kind: "regulator", atS: 951, state: "open" } as const,
    ];
    expect(worked([], engine(), stood).raising?.window).toEqual([0, 600]);
    // a rise that can be told, or one of less than five minutes, ends where it is highest
    const rose = stood.map((entry) =>
      entry.kind === "pressure" && entry.atS === 950 ? bar(1.9, 950) : entry,
    );
    expect(worked([], engine(), rose).raising?.window).toEqual([0, 950]);
    const soon = stood.map((entry) => (entry.atS >= 950 ? { ...entry, atS: entry.atS - 60 } : entry));
    expect(worked([], engine(), soon).raising?.window).toEqual([0, 890]);
  });

  test("with the blower turned on after the last reading but one nothing tells that she was below it when steam was used", () => {
    const blown = [...setOff, { kind: "blower", atS: 550, state: "on" } as const];
    expect(worked(underWay, engine(), blown).raising?.window).toEqual([0, 600]);
    const early = [...setOff, { kind: "blower", atS: 450, state: "on" } as const];
    expect(worked(underWay, engine(), early).raising?.window?.[1]).toBeCloseTo(951, 6);
  });
});
