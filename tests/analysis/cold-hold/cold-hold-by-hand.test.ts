import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { coldHoldOf } from "../../../src/analysis/cold-hold/cold-hold.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { coldAt, heldCold, steamFromS } from "../../../src/analysis/state/held-cold.ts";
import { holdParticulars } from "../../../src/analysis/words/particulars.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import type { Figure } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar, boilerAt, figure, stroke, up } from "./hold-log.ts";

const BAR = 0.02;
/** Of the pressure at which she is held as working pressure, where her leak stands as it leaks there. */
const engine: Locomotive = {
  ...smallEngine(),
  workingPressureBarG: 5.7,
  handPump: { mlPerStroke: 0.5, uMlPerStroke: 0.005 },
  instruments: { pressureReadingBar: BAR, pressureBiasBar: 0.03, feedRelative: 0.04 },
};
const holdOf = (entries: Entry[], locomotive = engine, purpose: "cold-hold" | "trial" = "cold-hold") =>
  coldHoldOf(
    sourcesOf(locomotive, {
      ...smallSteaming(),
      purpose,
      entries: [...entries].sort((a, b) => a.atS - b.atS),
    }),
  );
const partOf = (of: Figure | undefined, name: string) =>
  Math.hypot(
    ...figure(of)
      .parts.filter((part) => part.name === name)
      .map(({ u }) => u),
  );

/** 0.6 bar in ten minutes, 0.15 ml. */
const down = [bar(5.7, 330), bar(5.4, 630)];
const leakOf = (more: Entry[], list = [...up, ...down]) => figure(holdOf([...list, ...more])?.leak).value;

describe("when and at what she was held", () => {
  // leaking as the root of the pressure: 2.5, 2.4 and 2.3 squared
  test("is from the first reading at rest to the last, the root of its pressure along a straight line", () => {
    const near = (value: number) => expect.closeTo(value, 9);
    expect(holdOf([bar(6.25, 30), bar(5.76, 330), bar(5.29, 630)])?.held).toEqual({
      fromS: 30,
      toS: 630,
      meanBar: near((2.5 ** 2 + 2.5 * 2.3 + 2.3 ** 2) / 3),
      fromBar: near(6.25),
      toBar: near(5.29),
      waterC: null,
    });
    const straight = holdOf([...up, ...down])?.held;
    expect(straight?.fromBar).toBeCloseTo(6, 2);
    expect(straight?.meanBar).toBeCloseTo(5.7, 2);
    expect(straight?.toBar).toBeCloseTo(5.4, 2);
  });

  test("with the water's temperature at both ends, where it was read twice", () => {
    const waterC = (...more: Entry[]) => holdOf([...up, ...down, ...more])?.held?.waterC;
    expect(waterC(boilerAt(15, 30), boilerAt(16, 630))).toEqual({ from: 15, to: 16 });
    // on the line from 14 at -170 s to 18 at 830 s
    const wider = waterC(boilerAt(14, -170), boilerAt(18, 830));
    expect(wider?.from).toBeCloseTo(14.8, 9);
    expect(wider?.to).toBeCloseTo(17.2, 9);
    expect(waterC(boilerAt(15, 30))).toBeNull();
    expect(waterC(boilerAt(15, 30), boilerAt(15.2, 30))).toBeNull();
  });

  test("stands on the sheet beside the hole; of no hold there is nothing to tell", () => {
    const hold = holdOf([...up, ...down]);
    const told = holdParticulars(hold);
    expect(told).toMatchObject({ fromS: 30, toS: 630, waterC: null });
    expect(told?.equivalentHole.value).toBeCloseTo(figure(hold?.equivalentHole).value, 9);
    expect(holdParticulars(null)).toBeNull();
    expect(holdParticulars(holdOf([stroke(2, 0, 0)]))).toBeNull();
  });
});

describe("the hole of a hold's leak", () => {
  // area = volume x density / root(2 x density x pressure); water of 80 °C has 971.8 kg/m3, of 15 °C 999.1 (IAPWS-95)
  test.each([
    [15, 999.1],
    [80, 971.8],
  ])("is that of water as warm as the feed, at %d °C", (feedC, density) => {
    // 2.4 squared at the middle of the time
    const leaking = [bar(5.76, 330), bar((2 * 2.4 - Math.sqrt(6)) ** 2, 630)];
    const conditions = { ambientC: feedC, feedC };
    const hold = coldHoldOf(
      sourcesOf(
        { ...engine, workingPressureBarG: 5.76 },
        { ...smallSteaming(), purpose: "cold-hold", conditions, entries: [...up, ...leaking] },
      ),
    );
    const m3PerS = (figure(hold?.leak).value * 1e-6) / 60;
    const areaM2 = m3PerS * Math.sqrt(density / (2 * 5.76e5));
    expect(figure(hold?.equivalentHole).value / (1000 * Math.sqrt((4 * areaM2) / Math.PI))).toBeCloseTo(1, 4);
  });
});

/** Evenly from none to 1 - exp(-600/1500) of air that may be 1.25 K warmer or colder about her than is known. */
const UNREAD_K = (1.25 * (1 - Math.exp(-600 / 1500))) / Math.sqrt(3);

describe("a hold without the water's temperature", () => {
  // of the 3 K that air and feed may differ by, as much as the water comes near to the air in ten minutes: 1 - exp(-600/1500)
  test("is in more doubt where air and feed were not recorded either", () => {
    const share = 1 - Math.exp(-600 / 1500);
    const { conditions, ...unrecorded } = smallSteaming();
    const leakWith = (head: Partial<Steaming>) =>
      coldHoldOf(
        sourcesOf(engine, { ...unrecorded, ...head, purpose: "cold-hold", entries: [...up, ...down] }),
      )?.leak;
    const recorded = { ambientC: 15, feedC: 15 };
    const drift = "temperature of the water";
    const known = partOf(leakWith({ conditions: recorded }), drift);
    // with air as warm as the feed, and as it is taken where it is not recorded, only the 1.25 K are left, which both share
    const ofUnread = known / UNREAD_K;
    expect(partOf(leakWith({}), drift) / (ofUnread * Math.hypot(UNREAD_K, 3 * share))).toBeCloseTo(1, 1);
  });
});

describe("cold water under pressure", () => {
  const timeline = (entries: Entry[]) => timelineOf({ ...smallSteaming(), entries });
  const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
  const [pumped, plain] = [[stroke(1, 2, 10)], [bar(2, 10)]];
  const purposes = ["cold-hold", "other", "trial"] as const;

  test("is a hydraulic hold, or one of no purpose with strokes, in which no fire was lit", () => {
    const held = (entries: Entry[]) => purposes.map((purpose) => heldCold({ purpose }, timeline(entries)));
    expect(held(pumped)).toEqual([true, true, false]);
    expect(held(plain)).toEqual([true, false, false]);
    expect(held([...pumped, fire("lit", 400)])).toEqual([false, false, false]);
    expect(held([...pumped, fire("out", 400)])).toEqual([true, true, false]);
  });

  test("is at a moment what strokes under any purpose pumped up before the fire was lit", () => {
    const cold = (entries: Entry[], atS = 100) =>
      purposes.map((purpose) => coldAt({ steaming: { purpose }, timeline: timeline(entries) }, atS));
    expect(cold(pumped)).toEqual([true, true, true]);
    expect(cold(plain)).toEqual([true, false, false]);
    const later = [...pumped, fire("lit", 100), fire("out", 300)];
    expect(cold(later, 99)).toEqual([true, true, true]);
    expect(cold(later, 100)).toEqual([false, false, false]);
    expect(cold(later, 400)).toEqual([false, false, false]);
    expect(cold([...pumped, fire("out", 50)])).toEqual([true, true, true]);
  });

  test("becomes steam when the fire is lit, not when an earlier one was put out", () => {
    const steamS = (entries: Entry[]) =>
      steamFromS({ steaming: { purpose: "trial" }, timeline: timeline(entries) }, 10);
    expect(steamS([...pumped, fire("out", 50), fire("lit", 100)])).toBe(100);
    expect(steamS([...pumped, fire("out", 50)])).toBe(10);
    expect(steamS([...plain, fire("lit", 100)])).toBe(10);
    expect(steamS([...pumped, fire("lit", 5)])).toBe(10);
  });
});

describe("what the temperature did in a cold hold", () => {
  test("is read straight between the thermometer's readings", () => {
    const atEnds = leakOf([boilerAt(15, 30), boilerAt(16, 630)]);
    // 15 at 30 s and 16 at 630 s lie on the line from 14.5 at -270 to 17 at 1230
    expect(leakOf([boilerAt(14.9, -30), boilerAt(17, 1230)])).toBeCloseTo(atEnds, 9);
    expect(leakOf([boilerAt(14.9, -30), boilerAt(15.5, 330), boilerAt(16.5, 930)])).toBeCloseTo(atEnds, 9);
    expect(leakOf([boilerAt(15, 30), boilerAt(19, 300), boilerAt(16, 630)])).toBeCloseTo(atEnds, 9);
  });

  test("outside of them is as at the nearest", () => {
    const rose = leakOf([boilerAt(15, 30), boilerAt(16, 630)]);
    expect(leakOf([boilerAt(15, 100), boilerAt(16, 400)])).toBeCloseTo(rose, 9);
  });

  // water of 15 and 16 °C: 999.10 and 998.94 g/l (handbooks), copper 49.5e-6 /K: 235.6 ml x (160e-6 - 50e-6) = 0.0259 ml
  test("adds what warming drove out, by handbook densities", () => {
    const still = leakOf([boilerAt(15, 30), boilerAt(15, 630)]);
    const volumeMl = ((Math.PI / 4) * 50 ** 2 * 120) / 1000;
    const drovenMl = volumeMl * (999.1 / 998.943 - 1 - 49.5e-6);
    expect(leakOf([boilerAt(15, 30), boilerAt(16, 630)]) - still).toBeCloseTo(drovenMl / 10, 4);
  });

  test("is not told by other thermometers, nor by one of a boiler that was hot or frozen", () => {
    const without = leakOf([]);
    const doubt = partOf(holdOf([...up, ...down])?.leak, "temperature of the water");
    const others: Entry[][] = [
      [
        { kind: "temperature", of: "ambient", celsius: 15, atS: 30 },
        { kind: "temperature", of: "flue", celsius: 25, atS: 630 },
      ],
      [boilerAt(90, 30), boilerAt(95, 630)],
      [boilerAt(0, 30), boilerAt(-2, 630)],
      [boilerAt(15, 30)],
      [boilerAt(15, 30), boilerAt(15, 30)],
    ];
    for (const more of others) {
      const hold = holdOf([...up, ...down, ...more]);
      expect(figure(hold?.leak).value).toBeCloseTo(without, 6);
      expect(partOf(hold?.leak, "temperature of the water") / doubt).toBeGreaterThan(0.95);
    }
    // a tenth at either end where it was read
    const read = holdOf([...up, ...down, boilerAt(15, 30), boilerAt(15, 630)]);
    expect(partOf(read?.leak, "temperature of the water") / doubt).toBeCloseTo(
      (0.1 * Math.SQRT2) / UNREAD_K,
      2,
    );
  });

  test("unread for a short time it cannot have drifted far", () => {
    const drift = (list: Entry[]) => partOf(holdOf([...up, ...list])?.leak, "temperature of the water");
    const [short, long] = [drift([bar(5.7, 90)]), drift([bar(5.7, 1830)])];
    // by the minute: (1 - exp(-60/1500))/1 against (1 - exp(-1800/1500))/30, and the air that gives at like pressure
    const wanted = -Math.expm1(-60 / 1500) / (-Math.expm1(-1800 / 1500) / 30);
    expect(short / long / wanted).toBeCloseTo(1, 2);
  });

  // in 600 s 1 - exp(-600/1500) = 0.3297 of 10 K at the most; half of it +/- 3.297/sqrt(12) = 0.952 K, and 0.238 K
  test("unread, lies between nothing and as far towards the air as a small bare boiler comes", () => {
    const inAir = (celsius: number, more: Entry[] = []) =>
      holdOf([...up, ...down, { kind: "temperature", of: "ambient", celsius, atS: 0 }, ...more]);
    const unlike = inAir(25);
    const half = leakOf([boilerAt(15, 30), boilerAt(16.648, 630)]);
    expect(figure(unlike?.leak).value).toBeCloseTo(half, 5);
    const of = (hold: typeof unlike) => partOf(hold?.leak, "temperature of the water");
    // water at 17.1 °C swells by 124e-6 more than copper, at 15.5 by 106e-6 (handbooks)
    expect(of(unlike) / of(inAir(15)) / ((Math.hypot(0.952, UNREAD_K) / UNREAD_K) * (124 / 106))).toBeCloseTo(
      1,
      1,
    );
    expect(figure(inAir(5)?.leak).value).toBeLessThan(leakOf([]));
    // read once, it is the temperature from which she goes
    expect(figure(inAir(25, [boilerAt(25, 30)])?.leak).value).toBeCloseTo(leakOf([]), 6);
  });

  test("unread, is asked for in words", () => {
    const asked = (more: Entry[], list = [...up, ...down]) =>
      analyse(engine, {
        ...smallSteaming(),
        purpose: "cold-hold",
        entries: [...list, ...more],
      }).warnings.some(({ code }) => code === "water-temperature-not-read");
    expect(asked([])).toBe(true);
    expect(asked([boilerAt(15, 30)])).toBe(true);
    expect(asked([boilerAt(15, 30), boilerAt(16, 630)])).toBe(false);
    // nothing was held yet
    expect(asked([], up)).toBe(false);
  });

  test("has the expansion of water and metal in doubt by three parts in a hundred", () => {
    const rose = holdOf([...up, ...down, boilerAt(15, 30), boilerAt(18, 630)]);
    const drift = figure(rose?.leak).value - leakOf([boilerAt(15, 30), boilerAt(15, 630)]);
    expect(partOf(rose?.leak, "expansion of water and metal")).toBeCloseTo(0.03 * drift, 7);
  });

  // 0.15 ml with 0.014 of its readings; 5.67 K colder draws in 0.135, with 0.003: short of it by less than the readings' doubt
  test("explains a fall that it falls short of by no more than the readings err", () => {
    const coarse = { ...engine, instruments: { pressureReadingBar: 0.06, pressureBiasBar: 0 } };
    const explained = (celsius: number) =>
      holdOf([...up, ...down, boilerAt(18, 30), boilerAt(celsius, 630)], coarse)?.temperatureCouldExplain;
    expect(explained(12.33)).toBe(true);
    expect(explained(15)).toBe(false);
  });
});

describe("the hold itself", () => {
  test("is the longest time with the pump at rest", () => {
    const again = [stroke(1, 8, 700), bar(7.9, 1300), bar(7.8, 1900)];
    const alone = figure(holdOf([...up, stroke(1, 8, 700), ...again.slice(1)])?.leak).value;
    // 0.2 bar in 20 minutes
    expect(alone).toBeCloseTo((0.25 * 0.2) / 20, 3);
    expect(leakOf([stroke(1, 8, 700), bar(7.9, 1000)])).toBeCloseTo(0.015, 3);
    // of two as long the first
    expect(leakOf([stroke(1, 8, 700), bar(7.9, 1000), bar(7.8, 1300)])).toBeCloseTo(0.015, 3);
  });

  test.each<[string, Entry]>([
    ["a safety valve", { kind: "valve", state: "lifts", atS: 400 }],
    ["a blow-down", { kind: "blowdown", ml: 1, atS: 400 }],
    ["letting out", { kind: "drained", ml: 1, atS: 400 }],
    ["a feed", { kind: "feed", ml: 1, by: "bottle", atS: 400 }],
  ])("is ended by %s", (_, end) => {
    // 0.3 bar in five minutes before it; 2 bar more after it, which are no leak
    expect(leakOf([end], [...up, bar(5.7, 330), bar(3.7, 630)])).toBeCloseTo(0.015, 3);
  });

  test.each<[string, Entry]>([
    ["letting out", { kind: "drained", ml: 1, atS: 100 }],
    ["a feed", { kind: "feed", ml: 1, by: "bottle", atS: 100 }],
  ])("is over after %s", (_, end) => {
    const ends = holdOf([...up, end, ...down]);
    expect(ends?.leak).toEqual({ value: null, why: expect.stringContaining("at rest") });
    expect(ends?.equivalentHole.value).toBeNull();
  });

  // 6 bar was reached, and let off to 5.7: 0.3 bar in five minutes after it
  test.each<[string, Entry[]]>([
    ["a blow-down", [{ kind: "blowdown", ml: 1, atS: 100 }]],
    ["a safety valve that was not seen to reseat", [{ kind: "valve", state: "lifts", atS: 100 }]],
    [
      "a safety valve that reseated",
      [
        { kind: "valve", state: "lifts", atS: 100 },
        bar(5.9, 200),
        { kind: "valve", state: "reseats", atS: 250 },
      ],
    ],
  ])("begins again after %s", (_, letOff) => {
    const again = holdOf([...up, ...letOff, ...down]);
    expect(again?.held).toMatchObject({ fromS: 330, toS: 630 });
    expect(figure(again?.leak).value).toBeCloseTo(0.015, 3);
  });

  test("does not begin with what was read in the second in which some was let off", () => {
    const again = holdOf([...up, bar(6, 100), { kind: "blowdown", ml: 1, atS: 100 }, ...down]);
    expect(again?.held).toMatchObject({ fromS: 330, toS: 630 });
  });

  test("leaves out readings of no pressure, and those before the last stroke", () => {
    expect(leakOf([bar(0, 900)])).toBeCloseTo(leakOf([]), 12);
    expect(leakOf([bar(3, 15)])).toBeCloseTo(leakOf([]), 12);
  });

  test("is told without a stroke, but not its leak", () => {
    const hold = holdOf([bar(6, 30), ...down]);
    expect(hold?.leak).toEqual({ value: null, why: expect.stringContaining("strokes of the hand pump") });
    // without its springiness any cooling could have made the fall; water that warmed could not, nor where nothing fell
    expect(hold?.temperatureCouldExplain).toBe(true);
    expect(holdOf([bar(6, 30), ...down, boilerAt(18, 30), boilerAt(20, 630)])?.temperatureCouldExplain).toBe(
      false,
    );
    expect(holdOf([bar(6, 30), bar(6.2, 630)])?.temperatureCouldExplain).toBe(false);
    expect(holdOf([bar(6, 30), ...down], engine, "trial")).toBeNull();
    expect(holdOf([...up, ...down], engine, "trial")).not.toBeNull();
  });

  test("a pressure that rose is no leak that temperature explains", () => {
    const rose = holdOf([...up, bar(6.1, 330), bar(6.2, 630)]);
    expect(rose?.leak).toEqual({ value: null, why: expect.stringContaining("read the water's temperature") });
    expect(rose?.equivalentHole).toEqual(rose?.leak);
    expect(rose?.temperatureCouldExplain).toBe(false);
    // by 0.005 bar, which the readings leave open
    const hardly = holdOf([...up, bar(6, 330), bar(6.005, 630)]);
    expect(figure(hardly?.leak).value).toBeLessThan(0);
    expect(figure(hardly?.equivalentHole)).toMatchObject({ value: 0, unit: "mm" });
    expect(holdOf([...up, bar(6, 330), bar(6, 630)])?.temperatureCouldExplain).toBe(false);
  });
});

describe("water pumped in", () => {
  test("to one pressure from 0 bar: its parts by size and sign", () => {
    const once = [bar(0, 0), stroke(3, 6, 30), ...down];
    const compliance = figure(holdOf(once)?.compliance);
    expect(partOf(compliance, "pressure readings")).toBeCloseTo((compliance.value * Math.SQRT2 * BAR) / 6, 9);
    const dial = compliance.parts.find(({ source }) => source === "dial of small")?.u ?? Number.NaN;
    expect(dial).toBeCloseTo((-compliance.value * 0.03) / 6, 9);
    expect(partOf(compliance, "hand pump's ml a stroke")).toBeCloseTo(0.01 * compliance.value, 9);
    // with no hold it is told for the pressure pumped to: 1.753 x 1.01325/7.01325^2 = 0.0361 and 0.25, 0.1431 between
    expect(figure(holdOf([bar(0, 0), stroke(3, 6, 30)])?.compliance).value).toBeCloseTo(0.1431, 3);
    const twice: Entry[] = [stroke(1, 0, 0), stroke(1, 0, 5), stroke(3, 6, 30)];
    expect(figure(holdOf(twice)?.compliance).value).toBeCloseTo(0.1431, 3);
  });

  test("to one pressure, though it was topped up after, or fed before it without a reading between", () => {
    const told = (list: Entry[]) => figure(holdOf(list)?.compliance).value;
    const once = told([bar(0, 0), stroke(3, 6, 30)]);
    expect(told([bar(0, 0), stroke(3, 6, 30), stroke(0.2, 5.9, 400)])).toBeCloseTo(once, 9);
    const feed = (ml: number, atS: number): Entry => ({ kind: "feed", by: "hand-pump", ml, atS });
    expect(told([bar(0, 0), feed(0.5, 10), feed(1, 20), bar(6, 25)])).toBeCloseTo(once, 9);
    expect(holdOf([bar(1, 0), stroke(3, 6, 30)])?.compliance).toEqual({
      value: null,
      why: expect.stringContaining("0 bar when she is full"),
    });
  });

  test("with a pump whose scale nobody tried: three parts in a hundred", () => {
    const pump = { ...engine, handPump: { mlPerStroke: 0.5 } };
    const compliance = holdOf([...up, ...down], pump)?.compliance;
    expect(partOf(compliance, "hand pump's ml a stroke")).toBeCloseTo(0.03 * figure(compliance).value, 9);
  });

  test("twice the millilitres a stroke, twice the compliance and the leak", () => {
    const twice = { ...engine, handPump: { mlPerStroke: 1, uMlPerStroke: 0.01 } };
    const [once, doubled] = [engine, twice].map((one) => holdOf([...up, ...down], one));
    expect(figure(doubled?.compliance).value / figure(once?.compliance).value).toBeCloseTo(2, 1);
  });

  // 4 ml of air: C at 5.7 bar is 0.1 + 4 x 1.01325/6.71325^2 = 0.190 ml/bar
  test("with air that is told apart: at the pressure of the hold, not of the strokes", () => {
    const ml = (barG: number) => 0.1 * barG + 4 * (1 - 1.01325 / (1.01325 + barG));
    const fine: Locomotive = {
      ...engine,
      instruments: { pressureReadingBar: 0.001, pressureBiasBar: 0.001 },
    };
    const list = [0, 1, 2, 3, 4, 5, 6].map((barG, i) =>
      stroke((ml(barG) - ml(Math.max(0, barG - 1))) / 0.5, barG, 5 * i),
    );
    const held = figure(holdOf([...list, ...down], fine)?.compliance);
    expect(held.value).toBeCloseTo(0.1 + (4 * 1.01325) / 6.71325 ** 2, 3);
    expect(figure(holdOf(list, fine)?.compliance).value).toBeCloseTo(0.1 + (4 * 1.01325) / 7.01325 ** 2, 3);
    expect(partOf(held, "air in the boiler")).toBeLessThan(0.002);
  });

  test("that makes no sense is said: the pressure higher for water let out", () => {
    const list = [stroke(4, 2, 5), stroke(-3, 4, 10), stroke(-3, 6, 15)];
    expect(holdOf(list)?.compliance).toEqual({
      value: null,
      why: expect.stringContaining("do not make sense"),
    });
  });

  test("as feed counts to the pressure read next, and not to one read after the next feed", () => {
    const feed = (ml: number, atS: number): Entry => ({ kind: "feed", by: "hand-pump", ml, atS });
    const told = holdOf([
      bar(0, 0),
      feed(0.5, 10),
      bar(2, 10),
      feed(0.5, 20),
      feed(0.5, 25),
      bar(6, 32),
      ...down,
    ]);
    const strokes = holdOf([bar(0, 0), stroke(1, 2, 10), stroke(2, 6, 30), ...down]);
    expect(figure(told?.compliance).value).toBeCloseTo(figure(strokes?.compliance).value, 4);
    // fed in another order than written: by time
    const { entries } = { entries: [feed(0.5, 20), stroke(1, 2, 10), bar(4, 22), stroke(1, 6, 30), ...down] };
    const inOrder = holdOf([stroke(1, 2, 10), stroke(1, 4, 20), stroke(1, 6, 30), ...down]);
    expect(figure(holdOf(entries)?.compliance).value).toBeCloseTo(figure(inOrder?.compliance).value, 9);
    // in a boiler under fire it is feed and nothing else
    const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
    expect(holdOf([lit, feed(0.5, 10), bar(2, 12), feed(0.5, 20), bar(4, 22)])?.compliance.value).toBeNull();
  });
});
