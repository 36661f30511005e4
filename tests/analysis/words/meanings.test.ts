import { describe, expect, test } from "vitest";
import type { ColdHold } from "../../../src/analysis/cold-hold/cold-hold.ts";
import type { Report } from "../../../src/analysis/report-schema.ts";
import { missingSentence } from "../../../src/analysis/words/engine-meaning.ts";
import { reasonInShort } from "../../../src/analysis/words/figure-words.ts";
import { holdSentence } from "../../../src/analysis/words/hold-meaning.ts";
import { holdParticulars } from "../../../src/analysis/words/particulars.ts";
import { pumpSentence } from "../../../src/analysis/words/pump-meaning.ts";
import { leakSentence, lossSentence, shareInWords } from "../../../src/analysis/words/shut-in-meaning.ts";
import { perhapsNothing, toldFromNothing } from "../../../src/analysis/words/told-from-nothing.ts";
import { absent, measured } from "../../../src/quantity/measured.ts";
import type { Reported } from "../../../src/quantity/reported.ts";
import { smallEngine } from "../../support/small-logbook.ts";

const none: Reported = { value: null, why: "not read: read it" };
const figure = (value: number, u = 0.1): Reported => ({
  value,
  u,
  lo95: value - 1.96 * u,
  hi95: value + 1.96 * u,
  unit: "",
});
/** As little said of a figure as may be. */
const words = (one: Reported) => (one.value === null ? null : `<${one.value}>`);

test.each([
  [0.96, "nearly all"],
  [0.95, "about 95 %"],
  [0.56, "about 55 %"],
  [0.55, "about half"],
  [0.41, "about half"],
  [0.39, "about a third"],
  [0.25, "about a quarter"],
  [0.2, "about a fifth"],
  [1 / 6, "about a sixth"],
  [1 / 7, "about a seventh"],
  [0.125, "about an eighth"],
  [0.11, "about a ninth"],
  [0.1, "about a tenth"],
  [0.09, "about 9 %"],
  [0.043, "about 4 %"],
])("a share of %d is said as %s", (share, said) => {
  expect(shareInWords(share)).toBe(said);
});

describe("a leak is told from none", () => {
  test("where its range keeps off none and it is two of its own doubts", () => {
    const of = (value: number, u: number, lo95: number): Reported => ({ value, u, lo95, hi95: 9, unit: "" });
    expect(toldFromNothing(of(1.97, 1, 0.1))).toBe(true);
    expect(toldFromNothing(of(1.96, 1, 0.1))).toBe(true);
    expect(toldFromNothing(of(1.95, 1, 0.1))).toBe(false);
    expect(toldFromNothing(of(3, 1, 0))).toBe(false);
    expect(toldFromNothing(none)).toBe(false);
  });
});

test("what is not told from none is at most the upper end of its range, and nothing where that is none", () => {
  const of = (hi95: number): Reported => ({ value: 0.2, u: 1, lo95: -1, hi95, unit: "" });
  expect(perhapsNothing(of(0.6), words)).toBe("perhaps nothing, at most <0.6>");
  expect(perhapsNothing(of(0), words)).toBe("perhaps nothing");
  expect(perhapsNothing(none, words)).toBe("perhaps nothing");
});

describe("shut in hot", () => {
  // 20 g of spirit at 24.6 MJ/kg in 1000 s: 492 W
  const report = (part: object = {}): Report =>
    ({
      cooling: { lossAtWorkingPressure: figure(49.2), leak: none },
      totals: { fuelBurnt: figure(20) },
      ...part,
    }) as unknown as Report;
  const said = (of: Report, engine = smallEngine(), burntForS = 1000) =>
    lossSentence(of, engine, words, "3 bar", burntForS);

  test("the loss is told as a part of the fire that burnt before", () => {
    expect(said(report())).toBe("The boiler loses <49.2> standing at 3 bar: about a tenth of the fire.");
  });

  test.each([
    ["nothing burnt is known of", { totals: { fuelBurnt: none } }],
    ["nothing was burnt", { totals: { fuelBurnt: figure(0) } }],
    ["nothing was put down of water or fuel", { totals: null }],
  ])("and by itself where %s", (_, part) => {
    expect(said(report(part))).toBe("The boiler loses <49.2> standing at 3 bar.");
  });

  test("and by itself where nothing tells how long the fire burnt", () => {
    expect(said(report(), smallEngine(), 0)).toBe("The boiler loses <49.2> standing at 3 bar.");
  });

  test("and by itself over a fuel of which nothing is known, or where it comes to none", () => {
    expect(said(report(), { ...smallEngine(), fuel: { kind: "other" } })).toBe(
      "The boiler loses <49.2> standing at 3 bar.",
    );
    const least = { cooling: { lossAtWorkingPressure: figure(0), leak: none } };
    expect(said(report(least))).toBe("The boiler loses <0> standing at 3 bar.");
  });

  test("nothing is said of what is not to be had", () => {
    expect(said(report({ cooling: null }))).toBeNull();
    expect(said(report({ cooling: { lossAtWorkingPressure: none, leak: none } }))).toBeNull();
    expect(leakSentence(null, words)).toBeNull();
    expect(leakSentence({ lossAtWorkingPressure: none, leak: none }, words)).toBeNull();
  });

  test("a leak is one where it is told from none", () => {
    const leak = (value: number) => leakSentence({ lossAtWorkingPressure: none, leak: figure(value) }, words);
    expect(leak(1)).toBe("Shut in she leaks <1>.");
    expect(leak(0.1)).toBe(`Shut in she leaks perhaps nothing, at most <${0.1 + 1.96 * 0.1}>.`);
  });
});

describe("held cold", () => {
  const hold = (leak: Reported, temperatureCouldExplain: boolean) => ({
    compliance: figure(0.2),
    leak,
    temperatureCouldExplain,
  });

  test("the fall is a leak, none that can be told, or perhaps the temperature's doing", () => {
    const said = (leak: Reported, could: boolean) => holdSentence(hold(leak, could), { leak: words });
    expect(said(figure(1), false)).toBe(
      "Full and cold she loses <1> at working pressure. The drift of the water's temperature does not explain it.",
    );
    expect(said(figure(0.1), false)).toBe(
      `Full and cold she loses perhaps nothing, at most <${0.1 + 1.96 * 0.1}> at working pressure.`,
    );
    expect(said(figure(1), true)).toBe(
      "Full and cold the fall stands for <1> at working pressure. A drift of the water's temperature alone could explain it.",
    );
    expect(said(none, true)).toBe(
      "A drift of the water's temperature alone could explain the fall of pressure.",
    );
    expect(said(none, false)).toBeNull();
  });

  test("what each bar took is told where that is asked for and known", () => {
    const said = (compliance: Reported) =>
      holdSentence({ ...hold(figure(1), true), compliance }, { leak: words, eachBar: words });
    expect(said(figure(0.2))).toContain(
      "stands for <1> at working pressure; each bar took <0.2> of water. A drift",
    );
    expect(said(none)).toContain("stands for <1> at working pressure. A drift");
  });

  test("the particulars of a hold stand beside the report's figures, the hole in doubt like them", () => {
    const held = { fromS: 1, toS: 2, meanBar: 5, fromBar: 6, toBar: 4, waterC: null };
    const of = (part: Partial<ColdHold>) =>
      holdParticulars({ held, equivalentHole: measured(0.05, 0.01, "mm", "leak"), ...part } as ColdHold);
    expect(of({})).toMatchObject({ ...held, equivalentHole: { value: 0.05, u: 0.01, unit: "mm" } });
    expect(of({ equivalentHole: absent("no leak") })?.equivalentHole).toEqual({
      value: null,
      why: "no leak",
    });
    expect(of({ held: null })).toBeNull();
    expect(holdParticulars(null)).toBeNull();
  });
});

describe("the missing quantity", () => {
  const engine = (missingQuantity: Reported) => ({
    dryDemand: none,
    missingQuantity,
    overallEfficiency: none,
  });

  const said = (missing: Reported) => missingSentence(engine(missing), words, () => "<most>");

  test("is a share of the steam, by its own number, only where its range keeps off none", () => {
    expect(said(figure(0.5))).toMatch(
      /^With a chest pressure that is thought of and not read, <0\.5> of the steam she drew condensed in the cylinders or leaked past: .*trend/,
    );
    expect(said(figure(0.1))).toContain(" read, perhaps none and at most <most> of the steam she drew");
    const atNone: Reported = { value: 0.5, u: 0.2, lo95: 0, hi95: 0.7, unit: "1" };
    expect(said(atNone)).toContain("perhaps none");
  });

  test("the most it may be is the upper end of its range", () => {
    expect(missingSentence(engine(figure(0, 0.1)), words)).toContain(`at most <${1.96 * 0.1}>`);
  });

  test("is not spoken of where there is none", () => {
    expect(said(none)).toBeNull();
    expect(missingSentence(null, words)).toBeNull();
  });
});

describe("the axle pump", () => {
  const pump = (perRevolution: Reported, keepsUp: boolean | null) => ({
    perRevolution,
    volumetricEfficiency: figure(0.8),
    keepsUp,
  });
  const said = (keepsUp: boolean | null, times: Reported | null, turn = figure(0.05)) =>
    pumpSentence(pump(turn, keepsUp), times, { turn: words, perCent: words, times: words });

  test("keeps up by so many times what she draws, or does not, or it is not told which", () => {
    expect(said(true, figure(1.4))).toBe(
      "The axle pump gives <0.05> a turn, <0.8> of what its ram sweeps; it keeps up with what she draws: with the by-pass shut it gives <1.4> times as much.",
    );
    expect(said(false, figure(0.6))).toContain(
      "does not keep up with what she draws: with the by-pass shut it gives <0.6>",
    );
    expect(said(null, figure(1))).toContain(
      "cannot be told from these readings: with the by-pass shut it gives <1>",
    );
  });

  test("has no margin where that is not to be had, and nothing is said where nothing is told", () => {
    expect(said(true, null)).toMatch(/it keeps up with what she draws\.$/);
    expect(said(true, null, none)).toBe("Of the axle pump: it keeps up with what she draws.");
    expect(said(null, null, none)).toBeNull();
    expect(pumpSentence(null, null, { turn: words, perCent: words, times: words })).toBeNull();
  });
});

test("a reason in short leaves out what would mend it", () => {
  expect(reasonInShort("nobody looked: look at the glass: now")).toBe("nobody looked");
  expect(reasonInShort("nobody looked")).toBe("nobody looked");
});
