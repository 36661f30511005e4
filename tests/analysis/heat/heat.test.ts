import { describe, expect, test } from "vitest";
import { heatOf } from "../../../src/analysis/heat/heat.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Water } from "../../../src/analysis/water/water.ts";
import { waterBalance } from "../../../src/analysis/water/water-balance.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { exact, type Figure, isMeasured, type Measured } from "../../../src/quantity/measured.ts";
import { saturatedSteam, saturatedWater } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { balanceInput, move, rateWithin, reading, STEADY } from "../water/balance-by-hand.ts";
import { bar, fire, phase } from "../water/water-log.ts";

/** Water and steam at a gauge pressure under 1013.25 hPa, J/kg, by the steam tables that tests/published holds. */
const water = (barG: number) => saturatedWater(barG * 1e5 + 101_325);
const steam = (barG: number) => saturatedSteam(barG * 1e5 + 101_325);
const hg = (barG: number) => steam(barG).enthalpyJPerKg;
/** Feed at 15 °C: 4.1986 kJ/kgK x 15 K, and 0.2 of its pressure. */
const FEED = 63_170;
/** Heat of evaporation at 100 °C (published rows: 2256.5 kJ/kg). */
const FROM_AND_AT = 2_256_470;

const engine: Locomotive = {
  ...smallEngine(),
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 25 },
  instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.03 },
};
/** Ten minutes standing at 1 bar, ten running at 3. */
const twoPhases: Entry[] = [
  fire("lit", 0),
  phase("standing", 0),
  bar(1, 0),
  bar(1, 599.9),
  bar(3, 600),
  phase("running", 600),
  bar(3, 1200),
  fire("out", 1200),
];

/** Water of which the readings, as good as free of error, say that so much was drawn in each ten minutes. */
function drawn(first: number, second: number, moves: ReturnType<typeof move>[] = []): Water {
  const fed = (atS: number) => moves.reduce((sum, one) => sum + (one.atS <= atS ? one.grams : 0), 0);
  const left = [
    [0, 0],
    [300, first / 2],
    [600, first],
    [900, first + second / 2],
    [1200, first + second],
  ] as const;
  const readings = left.map(([atS, gone]) => reading(atS, 2000 - gone + fed(atS), { uGrams: 1e-3 }));
  const input = balanceInput(readings, { moves, effects: [rateWithin(0, 600), rateWithin(600, 1200)] });
  return { input, balance: waterBalance(input, STEADY), why: "" };
}
const unread: Water = { input: balanceInput([reading(0, 2000)]), balance: null, why: "read once" };
const heat = (water: Water, entries: Entry[] = twoPhases, head: Partial<Steaming> = {}, of = engine) => {
  const found = heatOf(sourcesOf(of, { ...smallSteaming(), ...head, entries }), water);
  if (found === null) throw new Error("no section");
  return found;
};
const had = (figure: Figure): Measured => {
  if (!isMeasured(figure)) throw new Error(figure.why);
  return figure;
};
/** By how much the factor goes with the pressure, a bar. */
const slopeAt = (barG: number) => (hg(barG + 0.1) - hg(barG)) / 0.1 / FROM_AND_AT;
const factor = (jPerKg: number) => (jPerKg - FEED) / FROM_AND_AT;

describe("the factor of evaporation", () => {
  // feed at 15 °C that nobody recorded may be at 10 or 20: 4.19 kJ/kgK x 5 K
  test("is in doubt by the feed's temperature where nobody recorded it", () => {
    const unrecorded = heat(drawn(100, 300), twoPhases, { conditions: undefined } as unknown as Steaming);
    const part = had(unrecorded.factorOfEvaporation).parts.find(({ name }) => name.includes("feed"));
    expect(part?.u).toBeCloseTo((4190 * 5) / FROM_AND_AT, 4);
    const useful = had(unrecorded.useful).parts.find(({ name }) => name.includes("feed, not"));
    // 400 g drawn, and all of it gone from the boiler: none was fed
    expect(useful?.u ?? 0).toBeLessThan(1);
    const recorded = had(heat(drawn(100, 300)).factorOfEvaporation).parts;
    expect(recorded.some(({ name }) => name.includes("feed"))).toBe(false);
  });

  test("is weighed by what was drawn at each pressure", () => {
    const byDrawn = (a: number, b: number) => factor((a * hg(1) + b * hg(3)) / (a + b));
    // the two differ by 0.0144, so that the third and fourth digits tells the weights
    expect(had(heat(drawn(100, 0)).factorOfEvaporation).value).toBeCloseTo(byDrawn(1, 0), 4);
    expect(had(heat(drawn(0, 100)).factorOfEvaporation).value).toBeCloseTo(byDrawn(0, 1), 4);
    expect(had(heat(drawn(100, 300)).factorOfEvaporation).value).toBeCloseTo(byDrawn(1, 3), 4);
    // what the readings say was taken back was nothing
    expect(had(heat(drawn(-100, 300)).factorOfEvaporation).value).toBeCloseTo(byDrawn(0, 1), 4);
  });

  /** Weighed to `uGrams` at the start, between the two and at the end. */
  const weighed = (first: number, second: number, uGrams: number): Water => {
    const at = (atS: number, gone: number) => reading(atS, 1000 - gone, { uGrams });
    const readings = [at(0, 0), at(600, first), at(1200, first + second)];
    const input = balanceInput(readings, { effects: [rateWithin(0, 600), rateWithin(600, 1200)] });
    return { input, balance: waterBalance(input, STEADY), why: "" };
  };
  const ofWeights = (figure: Figure) =>
    had(figure).parts.find(({ name }) => name === "what was drawn at which pressure")?.u ?? 0;
  const apart = (hg(3) - hg(1)) / FROM_AND_AT;

  // half of each: the mean is (hg1 a + hg3 b)/(a + b), and the two readings' differences a and b share the middle one
  test("is in doubt by the readings that tell what was drawn at which pressure", () => {
    const figure = heat(weighed(100, 100, 2)).factorOfEvaporation;
    expect(had(figure).value).toBeCloseTo(factor((hg(1) + hg(3)) / 2), 4);
    expect(ofWeights(figure) / (((apart / 2) * 2 * Math.sqrt(6)) / 200)).toBeCloseTo(1, 2);
    expect(ofWeights(heat(drawn(100, 100)).factorOfEvaporation)).toBeLessThan(1e-6);
  });

  /** What leaks at rest, as a part of what leaves under way: four hundredths at 3 bar, in proportion to the absolute pressure. */
  const leaks = (barG: number) => (0.04 * (barG + 1.01325)) / 4.01325;
  /** Of a spirit engine 18 in 100 go by the valve where she is near working pressure. */
  const AT_VALVE = 1 / 0.82;

  test("what seems drawn while steam was raised counts as far as it stands out of its doubt, and else what leaks usually draw", () => {
    const raising = [fire("lit", 0), phase("raising", 0), ...twoPhases.slice(2)];
    const of = (grams: number, uGrams: number, entries = raising) =>
      heat(weighed(grams, 100, uGrams / Math.SQRT2), entries).factorOfEvaporation;
    const byDrawn = (a: number) => factor((a * hg(1) + 100 * hg(3)) / (a + 100));
    expect(had(of(6, 1e-3)).value).toBeCloseTo(byDrawn(6), 5);
    // 6 g, give or take 6, does not stand out of the usual 1.6, give or take as much
    const usual = (100 * leaks(1)) / AT_VALVE;
    const believed = usual ** 2 / (usual ** 2 + 36);
    const grams = usual + believed * (6 - usual);
    const figure = of(6, 6);
    expect(had(figure).value).toBeCloseTo(byDrawn(grams), 5);
    // of its doubt that part stays and three tenths of the other
    const all = 100 + grams;
    const [ofRaising, ofRunning] = [
      (-apart * 100 * (believed + 0.3 * (1 - believed))) / all ** 2,
      (apart * grams) / all ** 2,
    ];
    const u = (Math.hypot(ofRaising, ofRunning - ofRaising, ofRunning) * 6) / Math.SQRT2;
    expect(ofWeights(figure) / u).toBeCloseTo(1, 2);
    // 20 g, give or take 6, stands out of it
    const stray2 = usual ** 2 + (20 - usual) ** 2 - 36;
    expect(had(of(20, 6)).value).toBeCloseTo(byDrawn(usual + ((20 - usual) * stray2) / (stray2 + 36)), 5);
    // with the blower on for half of the time half of 12 hundredths more
    const blower = (state: "on" | "off", atS: number): Entry => ({ kind: "blower", state, atS });
    const blown = [...raising.slice(0, 2), blower("on", 150), blower("off", 450), ...raising.slice(2)].sort(
      (x, y) => x.atS - y.atS,
    );
    const taken = usual * (1 + 0.06 / 0.04);
    expect(had(of(taken, 60, blown)).value).toBeCloseTo(byDrawn(taken), 5);
    // a draught that is told counts in full
    expect(had(heat(weighed(100, 100, 0.5), raising).factorOfEvaporation).value).toBeCloseTo(
      factor((hg(1) + hg(3)) / 2),
      4,
    );
  });

  test("where nothing tells what was drawn, raising counts by what leaks, and half of the spread is in doubt", () => {
    const raising = [fire("lit", 0), phase("raising", 0), ...twoPhases.slice(2)];
    const figure = heat(unread, raising).factorOfEvaporation;
    const part = leaks(1) / AT_VALVE;
    expect(had(figure).value).toBeCloseTo(factor((part * hg(1) + hg(3)) / (part + 1)), 5);
    expect(ofWeights(figure) / ((0.5 * apart * Math.sqrt(part)) / (1 + part))).toBeCloseTo(1, 2);
  });

  // her leaks go on alike before and after, and more while she is up: by the absolute pressure, 2.01 and 4.01 bar
  test("in a hot hold of which nothing says that steam was used it is the leak's, by its flow at all times", () => {
    const held = { purpose: "hot-hold" } as const;
    const leaked = [...twoPhases.filter(({ kind }) => kind !== "phase")];
    const byFlow = (2.01325 * hg(1) + 4.01325 * hg(3)) / (2.01325 + 4.01325);
    for (const [first, second] of [
      [0, 100],
      [100, 0],
    ] as const)
      expect(had(heat(drawn(first, second), leaked, held).factorOfEvaporation).value).toBeCloseTo(
        factor(byFlow),
        3,
      );
    const used: Entry[] = [...leaked, { kind: "valve", state: "lifts", atS: 900 }];
    const blown = heat(drawn(0, 100), used, held).factorOfEvaporation;
    expect(had(blown).value).toBeGreaterThan(factor(byFlow) + 0.001);
  });

  test("by what usually leaves where nothing tells what was drawn", () => {
    const longer: Entry[] = [...twoPhases.slice(0, -2), bar(3, 2400), fire("out", 2400)];
    const byUsual = (times: number) =>
      factor((leaks(1) * hg(1) + times * AT_VALVE * hg(3)) / (leaks(1) + times * AT_VALVE));
    expect(had(heat(unread, longer).factorOfEvaporation).value).toBeCloseTo(byUsual(3), 5);
    expect(had(heat(drawn(-10, -10)).factorOfEvaporation).value).toBeCloseTo(byUsual(1), 5);
  });

  test("of wet steam is that of water and the share of dry steam", () => {
    const conditions = { ambientC: 15, feedC: 15, dryness: 0.8 };
    const hf = water(3).enthalpyJPerKg;
    const wet = hf + 0.8 * (hg(3) - hf);
    expect(had(heat(drawn(0, 100), twoPhases, { conditions }).factorOfEvaporation).value).toBeCloseTo(
      factor(wet),
      3,
    );
  });

  test("counts the fire's time only, and of it what had steam", () => {
    // lit an hour late: what stood before at 1 bar does not count
    const late = [...twoPhases.slice(1, 4), fire("lit", 600), ...twoPhases.slice(4)];
    expect(had(heat(unread, late).factorOfEvaporation).value).toBeCloseTo(factor(hg(3)), 3);
    const early = [...twoPhases.slice(0, 4), fire("out", 599.9), ...twoPhases.slice(4, -1)];
    expect(had(heat(unread, early).factorOfEvaporation).value).toBeCloseTo(factor(hg(1)), 3);
    // raised from cold in 300 s and held at 3 bar: the 300 s are not at a mean pressure of half of that
    const raised = [
      fire("lit", 0),
      phase("standing", 0),
      bar(0, 0),
      bar(0, 300),
      bar(3, 300.1),
      bar(3, 600),
      fire("out", 600),
    ];
    expect(had(heat(unread, raised).factorOfEvaporation).value).toBeCloseTo(factor(hg(3)), 3);
  });

  // all was drawn at 3 bar
  test("is in doubt by the air's pressure where that was not recorded", () => {
    const doubt = (head: Partial<Steaming>) =>
      had(heat(drawn(0, 100), twoPhases, head).factorOfEvaporation).parts.find(
        ({ name }) => name === "air pressure, not recorded",
      )?.u ?? 0;
    const slope = slopeAt(3);
    const { conditions, ...without } = smallSteaming();
    expect(doubt({ conditions }) / (0.02 * slope)).toBeCloseTo(1, 1);
    const none = heatOf(sourcesOf(engine, { ...without, entries: twoPhases }), drawn(0, 100));
    const part =
      none && had(none.factorOfEvaporation).parts.find(({ name }) => name.startsWith("air pressure"));
    expect((part?.u ?? 0) / (0.02 * slope)).toBeCloseTo(1, 1);
    expect(doubt({ conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1013.25 } })).toBe(0);
  });

  const coal: Locomotive = { ...engine, fuel: { kind: "coal", lowerHeatingValueMJPerKg: 32 } };
  /** Mean heat of steam over an even rise from 1 to 2.5 bar, weighed by something of the pressure. */
  const overRise = (leaves: (barG: number) => number) => {
    const all = Array.from({ length: 1000 }, (_, i) => 1 + (1.5 * (i + 0.5)) / 1000);
    const sum = (of: (barG: number) => number) => all.reduce((total, barG) => total + of(barG), 0);
    return factor(sum((barG) => leaves(barG) * hg(barG)) / sum(leaves));
  };
  const rising = (name: "raising" | "running", of: Locomotive) => {
    const entries = [fire("lit", 300), phase(name, 300), bar(1, 300), bar(2.5, 900), fire("out", 900)];
    return had(heat(unread, entries, {}, of).factorOfEvaporation).value;
  };

  test("while she is raised steam leaves in proportion to the absolute pressure; driven by hand evenly over time, with the regulator left alone half-way between", () => {
    const absolute = (barG: number) => (barG + 1.01325) / 4.01325;
    expect(rising("raising", engine)).toBeCloseTo(overRise(absolute), 5);
    expect(rising("running", coal)).toBeCloseTo(
      overRise(() => 1),
      5,
    );
    expect(rising("running", engine)).toBeCloseTo(
      overRise((barG) => (1 + absolute(barG)) / 2),
      5,
    );
  });

  // 0.3 to 0.7 bar is less than the critical ratio lets choke: a root of the difference besides (Babcock & Wilcox eq. 50)
  test("near no pressure leaks pass less than in proportion", () => {
    const entries = [fire("lit", 0), phase("raising", 0), bar(0.3, 0), bar(0.7, 600), fire("out", 600)];
    const all = Array.from({ length: 1000 }, (_, i) => 0.3 + (0.4 * (i + 0.5)) / 1000);
    const sum = (of: (barG: number) => number) => all.reduce((total, barG) => total + of(barG), 0);
    const mean = (leaves: (barG: number) => number) =>
      factor(sum((barG) => leaves(barG) * hg(barG)) / sum(leaves));
    const found = had(heat(unread, entries).factorOfEvaporation).value;
    expect(found).toBeCloseTo(
      mean((barG) => Math.sqrt(1.01325 * barG)),
      5,
    );
    expect(found - mean((barG) => barG + 1.01325)).toBeGreaterThan(3e-5);
  });

  // the heat of steam grows ever slower with pressure: half of each is 2.4 kJ/kg less than that of 2 bar, a thousandth
  test("is the mean heat of what left at various pressures, not that at their mean", () => {
    const entries = [
      fire("lit", 0),
      phase("running", 0),
      bar(0.5, 0),
      bar(0.5, 599.9),
      bar(2.5, 600),
      bar(2.5, 1200),
      fire("out", 1200),
    ];
    const found = had(heat(unread, entries, {}, coal).factorOfEvaporation).value;
    expect(found).toBeCloseTo(factor((hg(0.5) + hg(2.5)) / 2), 5);
    expect(factor(hg(1.5)) - found).toBeGreaterThan(0.001);
  });

  const regulator = (state: "open" | "shut", atS: number): Entry => ({ kind: "regulator", state, atS });

  // stopped for half of the time at 2 bar, below nine tenths of 3
  test("with the regulator shut her leaks draw four hundredths, and what is read under way is her pressure under way", () => {
    const run = [bar(1, 10), bar(1, 590), regulator("shut", 600), bar(2, 601), bar(2, 1200)];
    const entries = [fire("lit", 0), bar(1, 0), phase("running", 0), regulator("open", 0), ...run];
    const ran = (1 + 2.01325 / 4.01325) / 2;
    expect(had(heat(unread, [...entries, fire("out", 1200)]).factorOfEvaporation).value).toBeCloseTo(
      factor((ran * hg(1) + leaks(2) * hg(2)) / (ran + leaks(2))),
      4,
    );
  });

  // 2.9 bar is above nine tenths of 3, 2 bar below it; what the fire makes beyond the loss, a fifth: all of spirit's, 1.2 x 0.3 - 0.2 of a grate's
  test("standing she draws by her valve near working pressure, once that was met, what her fire makes at rest", () => {
    const standing = (met: boolean) => [
      fire("lit", 0),
      phase("standing", 0),
      bar(met ? 3 : 2.9, 0),
      bar(2.9, 1),
      bar(2.9, 600),
      bar(2, 600.1),
      bar(2, 1200),
      fire("out", 1200),
    ];
    const expected = (valve: number) => {
      const [high, low] = [(leaks(2.9) * (0.04 + valve)) / 0.04, leaks(2)];
      return factor((high * hg(2.9) + low * hg(2)) / (high + low));
    };
    const found = (of: Locomotive, met = true) =>
      had(heat(unread, standing(met), {}, of).factorOfEvaporation).value;
    expect(found(engine)).toBeCloseTo(expected(1), 4);
    expect(found(coal)).toBeCloseTo(expected(0.16), 4);
    expect(found(engine, false)).toBeCloseTo(expected(0), 4);
    expect(expected(0.16)).not.toBeCloseTo(expected(1), 4);
  });

  // alternately 1 and 3 bar lie 1 bar from their mean; each of the twenty stands for what was not read beside it
  test("u: the mean pressure's, and of the spread of the pressures a fifth and what so many readings leave", () => {
    const each = Array.from({ length: 21 }, (_, i) => bar(1 + 2 * (i % 2), 60 * i));
    const entries = [fire("lit", 0), phase("running", 0), ...each, fire("out", 1200)];
    const { parts } = had(heat(unread, entries).factorOfEvaporation);
    const part = (name: string) => parts.find((one) => one.name === name)?.u ?? 0;
    expect(
      part("pressure at which steam left") / (Math.hypot(0.2, 0.6 / Math.sqrt(20)) * slopeAt(2)),
    ).toBeCloseTo(1, 3);
    expect(part("bias of the pressure dial") / (0.03 * slopeAt(2))).toBeCloseTo(1, 3);
    expect(part("pressure readings")).toBeGreaterThan(0);
  });

  test("u: each phase's pressure counts by what was drawn in it, and the dial errs alike in all", () => {
    const part = (water: Water) =>
      had(heat(water).factorOfEvaporation).parts.find(({ name }) => name === "bias of the pressure dial")
        ?.u ?? 0;
    expect(part(drawn(100, 0)) / (0.03 * slopeAt(1))).toBeCloseTo(1, 2);
    expect(part(drawn(100, 300)) / ((0.03 * (slopeAt(1) + 3 * slopeAt(3))) / 4)).toBeCloseTo(1, 2);
  });

  test("u: over a lit fire she may have been anywhere up to working pressure while nobody read the dial for minutes", () => {
    const doubt = (entries: Entry[], of = unread) =>
      had(heat(of, entries).factorOfEvaporation).parts.find(
        ({ name }) => name === "pressure at which steam left",
      )?.u ?? 0;
    // half of it drawn at 1 bar of 3, four tenths of the way between; the other half at working pressure itself
    expect(doubt(twoPhases, drawn(100, 100)) / slopeAt(1)).toBeCloseTo(0.4 * 2 * 0.5, 2);
    const held = (everyS: number) => [
      fire("lit", 0),
      ...Array.from({ length: 600 / everyS + 1 }, (_, i) => bar(1, i * everyS)),
      fire("out", 600),
    ];
    // each minute nothing is unseen; each two a third of it, in five gaps that err each by itself
    expect(doubt(held(60))).toBe(0);
    expect(doubt(held(120)) / slopeAt(1)).toBeCloseTo((0.4 * 2 * (1 / 3)) / Math.sqrt(5), 2);
    const fireOut = [fire("lit", 0), bar(1, 0), bar(1, 60), fire("out", 60), bar(1, 600)];
    expect(doubt(fireOut)).toBe(0);
  });

  test("a lift and a reseat that were written down far from any reading are pressures too", () => {
    const marks: Entry[] = [
      { kind: "valve", atS: 300, state: "lifts" },
      { kind: "valve", atS: 420, state: "reseats" },
    ];
    const of = (entries: Entry[]) =>
      had(
        heat(unread, [
          fire("lit", 0),
          phase("standing", 0),
          bar(1, 0),
          ...entries,
          bar(1, 600),
          fire("out", 600),
        ]).factorOfEvaporation,
      );
    // at 1.03 and 0.91 of the 3 bar that she works at
    const read = of([bar(3.09, 300), bar(2.73, 420)]);
    expect(of(marks).value).toBeCloseTo(read.value, 6);
    // a reading beside them tells more
    expect(of([...marks.slice(0, 1), bar(2, 301), bar(2, 420)]).value).toBeLessThan(of(marks).value);
    expect(of([...marks, bar(1, 421)].slice(0, 3)).value).toBeLessThan(of(marks).value);
  });

  test("an air pressure that was not recorded is in doubt by 20 hPa, one recorded in none", () => {
    const airs = (atmosphereHPa?: number) => {
      const conditions = { ambientC: 15, feedC: 15, ...(atmosphereHPa && { atmosphereHPa }) };
      const { parts } = had(heat(drawn(100, 100), twoPhases, { conditions }).factorOfEvaporation);
      return parts.find(({ name }) => name === "air pressure, not recorded")?.u ?? 0;
    };
    expect(airs(1013.25)).toBe(0);
    expect(airs() / ((0.02 * (slopeAt(1) + slopeAt(3))) / 2)).toBeCloseTo(1, 2);
  });

  test("pressures before the fire and after it are not of its spread", () => {
    const held = [
      bar(1, 0),
      bar(1, 299),
      fire("lit", 300),
      bar(3, 300),
      bar(3, 600),
      fire("out", 600),
      bar(1, 601),
    ];
    const { parts } = had(heat(unread, held).factorOfEvaporation);
    expect(parts.map(({ name }) => name)).not.toContain("pressure at which steam left");
  });

  test("with no pressure on is that of steam at the air's, in doubt by the pointer on its pin; with none read there is none", () => {
    const none = [fire("lit", 0), bar(0, 0), bar(0, 600), fire("out", 600)];
    const figure = had(heat(unread, none).factorOfEvaporation);
    expect(figure.value).toBeCloseTo(factor(hg(0)), 3);
    const slope = (hg(0.1) - hg(0)) / 0.1 / FROM_AND_AT;
    const part = (name: string) => figure.parts.find((one) => one.name === name)?.u ?? 0;
    expect(part("pressure readings") / (Math.hypot(0.02, 0.03) * slope)).toBeCloseTo(1, 2);
    const silent = twoPhases.filter(({ kind }) => kind !== "pressure");
    expect(heat(drawn(100, 100), silent).factorOfEvaporation).toEqual({
      value: null,
      why: "no pressure was read",
    });
  });
});

describe("heat and fuel", () => {
  const spirit = (action: "added" | "remaining", g: number, atS: number): Entry => ({
    kind: "fuel",
    action,
    g,
    atS,
  });
  const fuelled = [spirit("added", 30, 0), ...twoPhases, spirit("remaining", 10, 1200)];

  test("work over the heat of the fuel, with the doubt of its heating value under the fuel's name", () => {
    const share = heat(drawn(100, 100), fuelled).perFuelHeat(exact(5000, "J"));
    expect(had(share).value).toBeCloseTo(5000 / (20 * 25_000), 9);
    expect(had(share).unit).toBe("1");
    const value = had(share).parts.find(({ source }) => source === "heating value of spirit");
    expect(value?.u).toBeCloseTo(-0.01 * 0.01, 9);
  });

  test("evaporation, equivalent evaporation and efficiency are ratios to what was burnt and its heat", () => {
    const { useful, efficiency, evaporationRatio, equivalentEvaporation, factorOfEvaporation } = heat(
      drawn(60, 100),
      fuelled,
    );
    expect(had(evaporationRatio).value).toBeCloseTo(8, 3);
    expect(had(equivalentEvaporation).value).toBeCloseTo(8 * had(factorOfEvaporation).value, 3);
    expect(had(equivalentEvaporation).unit).toBe("g/g");
    expect(had(efficiency).value).toBeCloseTo(had(useful).value / 500_000, 9);
  });

  test("what cannot be had hands on its reason", () => {
    const unburnt = heat(drawn(60, 100));
    for (const figure of [
      unburnt.perFuelHeat(exact(1, "J")),
      unburnt.efficiency,
      unburnt.evaporationRatio,
      unburnt.equivalentEvaporation,
    ])
      expect(figure).toEqual({ value: null, why: "no fuel was recorded" });
    const unpressed = heat(
      drawn(60, 100),
      fuelled.filter(({ kind }) => kind !== "pressure"),
    );
    expect(unpressed.equivalentEvaporation).toEqual({ value: null, why: "no pressure was read" });
    expect(had(unpressed.evaporationRatio).value).toBeCloseTo(8, 3);
  });

  test("a fuel of unknown heating value has no heat, though it was weighed", () => {
    const found = heat(drawn(60, 100), fuelled, {}, { ...engine, fuel: { kind: "other" } });
    expect(found.efficiency).toEqual({
      value: null,
      why: expect.stringMatching(/^the heating value of this fuel is not known/),
    });
    expect(had(found.evaporationRatio).value).toBeCloseTo(8, 3);
  });

  test("no section where neither water nor fuel was recorded; no figures where the fire was never lit", () => {
    const find = (entries: Entry[], water: Water) =>
      heatOf(sourcesOf(engine, { ...smallSteaming(), entries }), water);
    expect(find(twoPhases, { ...unread, input: balanceInput([]) })).toBeNull();
    expect(find(fuelled, { ...unread, input: balanceInput([]) })).not.toBeNull();
    expect(find(twoPhases, unread)).not.toBeNull();
    expect(find([bar(3, 0), bar(3, 600)], unread)).not.toBeNull();
    expect(find([{ kind: "note", text: "cold", atS: 0 }], unread)).toBeNull();
    const dark = find(
      [fire("out", 0), ...fuelled.filter(({ kind }) => kind !== "fire"), fire("out", 1200)],
      drawn(60, 100),
    );
    const none = { value: null, why: "the fire was never recorded as lit" };
    expect(dark).toMatchObject({
      fromS: 0,
      toS: 0,
      useful: none,
      efficiency: none,
      evaporationRatio: none,
      factorOfEvaporation: none,
      equivalentEvaporation: none,
    });
  });

  test("a fire lit twice counts from its first lighting to its last going out", () => {
    const again = [...twoPhases.slice(0, 3), fire("out", 200), fire("lit", 400), ...twoPhases.slice(3)];
    expect(heat(drawn(60, 100), again)).toMatchObject({ fromS: 0, toS: 1200 });
  });

  /**
   * Held at 3 bar the store gains and loses e = uf - vf (ug - uf)/(vg - vf) a gram, for steam takes the room of what
   * went. Water blown down took hf along, so with as much drawn the useful heat is more by hf - e for each gram of it.
   */
  test("what was blown down after the lighting and up to the fire's end carried its heat off", () => {
    const held = [fire("lit", 0), phase("running", 0), bar(3, 0), bar(3, 1200), fire("out", 1200)];
    const useful = (atS: number, grams: number) =>
      had(heat(drawn(100, 100, [move(atS, -grams, { isFeed: false })]), held).useful).value;
    const carried = (atS: number) => (useful(atS, 100) - useful(atS, 0)) / 0.1;
    const [f, g] = [water(3), steam(3)];
    const perM3 = (g.internalEnergyJPerKg - f.internalEnergyJPerKg) / (g.volumeM3PerKg - f.volumeM3PerKg);
    const byHand = f.enthalpyJPerKg - (f.internalEnergyJPerKg - f.volumeM3PerKg * perM3);
    for (const atS of [300, 900, 1200]) expect(carried(atS) / byHand).toBeCloseTo(1, 3);
    for (const atS of [0, 1201]) expect(Math.abs(carried(atS) / byHand)).toBeLessThan(1e-3);
  });

  test("a feed is no blow-down", () => {
    const held = [fire("lit", 0), phase("running", 0), bar(3, 0), bar(3, 1200), fire("out", 1200)];
    const useful = (grams: number) => had(heat(drawn(100, 100, [move(300, grams)]), held).useful).value;
    const [f, g] = [water(3), steam(3)];
    const perM3 = (g.internalEnergyJPerKg - f.internalEnergyJPerKg) / (g.volumeM3PerKg - f.volumeM3PerKg);
    const store = f.internalEnergyJPerKg - f.volumeM3PerKg * perM3;
    expect((useful(100) - useful(0)) / 0.1 / (store - FEED)).toBeCloseTo(1, 3);
  });
});
