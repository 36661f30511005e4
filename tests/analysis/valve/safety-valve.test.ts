import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { safetyValveOf } from "../../../src/analysis/valve/safety-valve.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { interval, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine = () => ({
  ...smallEngine(),
  instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.1 },
});
const figures = (entries: Entry[], purpose: "trial" | "safety-valve" = "trial") =>
  safetyValveOf(sourcesOf(engine(), { ...smallSteaming(), purpose, entries }));
const at = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
const valve = (atS: number, state: "lifts" | "reseats"): Entry => ({ kind: "valve", atS, state });

/** Up at 0.01 bar/s to a lift at 3.1, down to a reseat at 2.7, and on down. */
const tried: Entry[] = [
  at(0, 2.5),
  at(30, 2.8),
  at(58, 3.08),
  valve(60, "lifts"),
  at(80, 2.9),
  at(98, 2.71),
  valve(100, "reseats"),
  at(102, 2.68),
  at(130, 2.4),
];

describe("a safety valve", () => {
  test("a last reading far too high, within three seconds of a right one, leaves figures", () => {
    const found = figures([at(0, 2.5), at(30, 2.8), valve(60, "lifts"), at(62, 3.05), at(64, 30.5)]);
    expect(found?.highest.value).toBeGreaterThan(0);
  });

  test("lift and reseat from the readings beside them, the dial's bias under its name", () => {
    const { lift, reseat } = figures(tried) ?? {};
    if (lift === undefined || reseat === undefined || !isMeasured(lift) || !isMeasured(reseat))
      throw new Error("no figures");
    expect(Math.abs(lift.value - 3.1)).toBeLessThan(0.04);
    expect(Math.abs(reseat.value - 2.7)).toBeLessThan(0.05);
    const bias = lift.parts.find((part) => part.source === "dial of small");
    expect(bias?.u).toBeGreaterThan(0.09);
    expect(bias?.u).toBeLessThanOrEqual(0.1);
    expect(standardUncertainty(lift)).toBeLessThan(0.13);
  });

  test("far readings make it less sure, none near leaves it open", () => {
    const near = figures(tried)?.lift;
    const sparse = figures([at(0, 2.5), valve(60, "lifts"), at(130, 2.4)])?.lift;
    if (near === undefined || sparse === undefined || !isMeasured(near) || !isMeasured(sparse))
      throw new Error("no figures");
    expect(standardUncertainty(sparse)).toBeGreaterThan(1.5 * standardUncertainty(near));
    const none = figures([at(0, 2.5), valve(1000, "lifts")])?.lift;
    expect(none).toEqual({ value: null, why: expect.stringContaining("near") });
  });

  test("rise is what the highest pressure stands above working pressure, as a part of it", () => {
    const { highest, rise } = figures(tried) ?? {};
    if (highest === undefined || rise === undefined || !isMeasured(highest) || !isMeasured(rise))
      throw new Error("no figures");
    expect(rise.value).toBeCloseTo((highest.value - 3) / 3, 12);
    expect(standardUncertainty(rise)).toBeCloseTo(standardUncertainty(highest) / 3, 9);
  });

  test("what holds level while it blows does not make the way up to a lift as sure", () => {
    // each rise goes on to 2.85 bar at 0.02 a second and slackens there, as the fire is turned down, to a lift at 3.1
    const lift = (atS: number): Entry[] => [
      at(atS - 60, 2),
      at(atS - 30, 2.8),
      valve(atS, "lifts"),
      ...[30, 70, 110, 150, 190, 230, 270, 310].map((s, i) => at(atS + s, i % 3 === 1 ? 2.9 : 2.85)),
      valve(atS + 340, "reseats"),
      at(atS + 350, 2.6),
    ];
    const found = figures([...lift(100), ...lift(700), ...lift(1300)])?.lift;
    if (found === undefined || !isMeasured(found)) throw new Error("no figure");
    expect(interval(found)[0]).toBeLessThan(3.1);
    const between = found.parts.find(({ name }) => name === "pressure between readings")?.u ?? 0;
    expect(between).toBeGreaterThan(0.03);
  });

  test("no rise is told of a valve not seen to lift where working pressure was not met; below it is told of one that lifted", () => {
    const cold = figures([at(0, 1.5), valve(20, "reseats")]);
    expect(cold?.highest.value).toBeCloseTo(1.5, 1);
    expect(cold?.rise).toEqual({ value: null, why: expect.stringContaining("not seen to lift") });
    const early = figures([at(0, 2.1), at(19, 2.2), valve(20, "lifts"), at(25, 2.15)]);
    expect(early?.rise.value).toBeLessThan(-0.2);
    expect(figures([at(0, 2.9), at(20, 3.2)], "safety-valve")?.rise.value).toBeCloseTo(0.2 / 3, 1);
  });

  test("the highest, and its rise, are told where a logger saw a valve blow every few seconds that nobody wrote down", () => {
    // up by a tenth of a bar a second for 5 s, down again in 3 s
    const values = Array.from(
      { length: 1500 },
      (_, i) => 3.1 - 0.1 * Math.max(5 - ((i / 5) % 8), (((i / 5) % 8) - 5) * (5 / 3)),
    );
    const trace: Trace = { channel: "pressureBarG", startS: 0, everyS: 0.2, values };
    const steaming = { ...smallSteaming(), purpose: "safety-valve" as const, entries: [], traces: [trace] };
    const sheet = safetyValveOf(sourcesOf(engine(), steaming));
    expect(Math.abs((sheet?.highest.value ?? 0) - 3.1)).toBeLessThan(0.02);
    expect(Math.abs((sheet?.rise.value ?? 0) - 0.1 / 3)).toBeLessThan(0.02 / 3);
  });

  test("a pressure that climbs well past the lift is the highest", () => {
    const climbing = [
      at(0, 2.9),
      at(19, 3.08),
      valve(20, "lifts"),
      at(60, 3.3),
      at(90, 3.5),
      at(100, 3.52),
      at(110, 3.5),
    ];
    const highest = figures(climbing, "safety-valve")?.highest;
    expect(Math.abs((highest?.value ?? 0) - 3.52)).toBeLessThan(0.05);
  });

  test("a logger's own pace up to the lift counts before the pace thought", () => {
    const values = Array.from({ length: 1200 }, (_, i) => Math.min(3.1, 2.5 + 0.001 * i));
    const trace: Trace = { channel: "pressureBarG", startS: 0, everyS: 0.1, values };
    const sheet = safetyValveOf(
      sourcesOf(engine(), { ...smallSteaming(), entries: [valve(60, "lifts")], traces: [trace] }),
    );
    expect(Math.abs((sheet?.lift.value ?? 0) - 3.1)).toBeLessThan(0.02);
    expect(Math.abs((sheet?.highest.value ?? 0) - 3.1)).toBeLessThan(0.02);
  });

  test("the highest of many noisy readings is not taken at its word", () => {
    const noise = [0.02, -0.03, 0.01, -0.02, 0.05, -0.04, 0.03, -0.01, -0.02, 0.02];
    const steady = noise.map((error, i) => at(10 * i, 3 + error));
    const highest = figures(steady, "safety-valve")?.highest;
    expect(highest?.value ?? 0).toBeLessThan(3.04);
    expect(highest?.value ?? 0).toBeGreaterThan(2.97);
  });

  test("what was not recorded is null with its reason; no section where nothing touches it", () => {
    const watched = figures([at(0, 3), at(10, 3.05)], "safety-valve");
    expect(watched?.lift).toEqual({ value: null, why: "the valve was not seen to lift" });
    expect(watched?.reseat.value).toBeNull();
    expect(figures([valve(60, "lifts")])?.highest).toEqual({ value: null, why: "no pressure was read" });
    expect(figures([at(0, 3)])).toBeNull();
  });

  test("that lifted while nobody read leaves the highest pressure untold", () => {
    const { lift, highest } =
      figures([at(0, 2.2), valve(400, "lifts"), valve(420, "reseats"), at(900, 2)]) ?? {};
    expect(lift?.value).toBeNull();
    expect(highest).toEqual({
      value: null,
      why: "the valve lifted while no pressure was read: the highest was not seen",
    });
  });

  test("shut by cold feed reseats where it stood before the feed, not where the pressure plunged to", () => {
    const fed: Entry = { kind: "feed", atS: 110, ml: 20, by: "bottle" };
    const plunged = [...tried.slice(0, 6), valve(100, "reseats"), fed, at(115, 1.6), at(140, 1.7)];
    const reseat = figures(plunged)?.reseat;
    if (reseat === undefined || !isMeasured(reseat)) throw new Error("no figure");
    expect(reseat.value).toBeGreaterThan(2.4);
    expect(Math.abs(reseat.value - 2.7)).toBeLessThan(2 * standardUncertainty(reseat));
  });
});

/** A dial read to 0.1 bar on an engine of 4 bar; the valve lifts at about 4.07, and what is read later is `later`. */
describe("the highest pressure beside a lift that is poorly known", () => {
  const poorly = {
    ...smallEngine(),
    workingPressureBarG: 4,
    instruments: { pressureReadingBar: 0.1, pressureBiasBar: 0.05 },
  };
  const of = (entries: Entry[]) => {
    const sheet = safetyValveOf(sourcesOf(poorly, { ...smallSteaming(), entries }));
    const { lift, highest } = sheet ?? {};
    if (lift === undefined || highest === undefined || !isMeasured(lift) || !isMeasured(highest))
      throw new Error("no figures");
    return { lift, highest };
  };
  const soon = (later: number) => [
    at(0, 3.5),
    at(55, 4.05),
    valve(60, "lifts"),
    at(100, later - 0.02),
    at(130, later),
    at(160, later),
  ];
  const lateOn = (later: number) => [
    at(0, 3.2),
    at(60, 4.07),
    valve(60, "lifts"),
    at(400, later - 0.02),
    at(430, later),
    at(460, later),
  ];

  test.each([
    ["soon after it", soon],
    ["long after it", lateOn],
  ])("is not below what three readings showed %s", (_, log) => {
    const { lift, highest } = of(log(4.3));
    expect(lift.value).toBeLessThan(4.25);
    // three readings of 0.1 bar: 0.06 at the best
    expect(Math.abs(highest.value - 4.3)).toBeLessThan(0.06);
    expect(standardUncertainty(highest)).toBeLessThan(standardUncertainty(lift));
    expect(standardUncertainty(highest)).toBeGreaterThan(Math.hypot(0.1 / Math.sqrt(3), 0.05) - 0.01);
  });

  test.each([
    ["soon after it", soon],
    ["long after it", lateOn],
  ])(
    "comes up with the readings %s bit by bit: the lift where they stand below it, they where they stand above",
    (_, log) => {
      const highests = Array.from({ length: 18 }, (__, i) => of(log(3.7 + 0.05 * i)));
      highests.forEach(({ highest, lift }, i) => {
        expect(highest.value).toBeGreaterThanOrEqual(lift.value);
        const step = highest.value - (highests[i - 1]?.highest.value ?? highest.value);
        // they tell how the pressure strays, too, which moves the lift by less than a hundredth of its error
        expect(step).toBeGreaterThan(-0.001);
        // no step is more than the readings' own and a third of a reading's error
        expect(step).toBeLessThan(0.05 + 0.033);
      });
      const [first, last] = [highests[0], highests.at(-1)];
      if (first === undefined || last === undefined) throw new Error("nothing tried");
      expect(first.highest.value - first.lift.value).toBeLessThan(0.03);
      expect(Math.abs(last.highest.value - 4.55)).toBeLessThan(0.03);
    },
  );

  /** what one reading's error after another moves it by, in quadrature, bar */
  const movedBy = (entries: Entry[]) => {
    const { highest } = of(entries);
    const squares = entries.map((entry, place) => {
      if (entry.kind !== "pressure") return 0;
      const wrong = of(entries.with(place, { ...entry, barG: entry.barG + 0.001 }));
      return ((wrong.highest.value - highest.value) / 0.001) ** 2;
    });
    const part = (name: string) => highest.parts.find((one) => one.name === name)?.u ?? Number.NaN;
    return {
      moved: 0.1 * Math.sqrt(squares.reduce((a, b) => a + b, 0)),
      readings: part("pressure readings"),
      between: part("pressure between readings"),
    };
  };

  test.each([4.15, 4.3, 4.45])(
    "of readings of %d bar moves with their errors by its part of the uncertainty",
    (later) => {
      const near = movedBy(soon(later));
      expect(near.moved / near.readings).toBeGreaterThan(0.85);
      expect(near.moved / near.readings).toBeLessThan(1.15);
      // apart from the valve, how the pressure strays is told by these readings alone, and each error moves that too
      const apart = movedBy(lateOn(later));
      expect(apart.moved).toBeLessThan(Math.hypot(apart.readings, apart.between));
      expect(apart.moved).toBeGreaterThan(0.6 * apart.readings);
    },
  );

  test("is the lift itself where all readings lead up to it", () => {
    const { lift, highest } = of([at(0, 3.5), at(30, 3.8), at(55, 4.05), valve(60, "lifts")]);
    expect(highest).toEqual(lift);
  });
});
