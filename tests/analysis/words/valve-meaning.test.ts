import { describe, expect, test } from "vitest";
import { riseSaid, valveSentences } from "../../../src/analysis/words/valve-meaning.ts";
import type { Reported } from "../../../src/quantity/reported.ts";

const about = (value: number, half: number, unit: string): Reported => ({
  value,
  u: half / 1.96,
  lo95: value - half,
  hi95: value + half,
  unit,
});
const none: Reported = { value: null, why: "not read" };
const words = {
  pressure: (figure: Reported) => (figure.value === null ? null : `${figure.value} bar`),
  perCent: (figure: Reported) => (figure.value === null ? null : `${Math.round(100 * figure.value)} %`),
};
const valve = {
  lift: about(4.12, 0.04, "bar"),
  reseat: about(3.7, 0.04, "bar"),
  highest: about(4.24, 0.04, "bar"),
  rise: about(0.06, 0.01, "1"),
};
const said = (part: Partial<typeof valve> | Record<string, Reported>, limit?: number) =>
  valveSentences({ ...valve, ...part }, 4, words, limit);

describe("what the safety valve's figures mean", () => {
  test("lift against working pressure, reseat against lift, rise against the limit", () => {
    expect(said({})).toBe(
      "The valve lifted at 4.12 bar, 3 % above working pressure, and reseated at 3.7 bar, 10 % below its lift. " +
        "By the readings the pressure came to 4.24 bar at its highest, 6 % above working pressure, under the 10 % that model codes commonly allow; your club's code decides.",
    );
  });

  test("a lift whose range takes in working pressure is about it", () => {
    expect(said({ lift: about(4.05, 0.06, "bar") })).toContain("lifted at 4.05 bar, about working pressure,");
    expect(said({ lift: about(3.8, 0.06, "bar") })).toContain(
      "lifted at 3.8 bar, 5 % below working pressure,",
    );
  });

  test.each([
    [0.08, 0.01, "8 % above working pressure, under the 10 %"],
    [0.096, 0.01, "above working pressure, not told apart from the 10 %"],
    [0.12, 0.01, "12 % above working pressure, beyond the 10 %"],
    [0.005, 0.01, "about working pressure, under the 10 %"],
    [0.005, 0.2, "about working pressure, not told apart from the 10 %"],
  ])("a rise of %d give or take %d: %s", (rise, half, sentence) => {
    expect(said({ rise: about(rise, half, "1") })).toContain(sentence);
  });

  test("the owner's own limit stands in place of the usual one", () => {
    expect(said({}, 0.05)).toContain("not told apart from the 5 % that you entered from your code");
    expect(said({}, 0.045)).toContain("beyond the 4.5 % that you entered from your code");
  });

  test("short of working pressure nothing was tried, and no limit is named", () => {
    expect(said({ rise: about(-0.1, 0.02, "1") })).toMatch(/short of working pressure\.$/);
    const short = { lift: none, reseat: none, highest: about(3.4, 0.05, "bar"), rise: none };
    expect(said(short)).toBe(
      "By the readings the pressure came to 3.4 bar at its highest, short of working pressure, and no lift was seen: that was no trial of the valve.",
    );
  });

  test("about working pressure without a lift nothing was tried either", () => {
    const seen = {
      lift: none,
      reseat: none,
      highest: about(3.9, 0.2, "bar"),
      rise: about(-0.025, 0.05, "1"),
    };
    expect(said(seen)).toBe(
      "By the readings the pressure came to 3.9 bar at its highest, about working pressure, and no lift was seen: that was no trial of the valve.",
    );
    expect(said({ ...seen, lift: about(3.9, 0.2, "bar") })).toContain("under the 10 %");
    expect(said({ ...seen, reseat: about(3.7, 0.2, "bar") })).toContain("under the 10 %");
  });

  test("a rise of less than none is how far below working pressure the highest lay", () => {
    const of = (value: number) => riseSaid({ ...valve, rise: about(value, 0.08, "1") });
    expect(of(0.04)).toMatchObject({ name: "above working pressure", figure: { value: 0.04 } });
    expect(of(-0.004).name).toBe("above working pressure");
    expect(of(-0.04).name).toBe("below working pressure");
    expect(of(-0.04).figure).toMatchObject({ value: 0.04, lo95: 0.04 - 0.08, hi95: 0.04 + 0.08 });
    expect(riseSaid({ ...valve, rise: none })).toEqual({ name: "above working pressure", figure: none });
  });

  test("what was not seen is not spoken of", () => {
    expect(said({ lift: none, reseat: none })).toMatch(
      /^By the readings the pressure came to .*, under the 10 % .*, and no lift was seen; your club's code decides\.$/,
    );
    expect(said({ lift: none })).toMatch(/^The valve reseated at 3\.7 bar\. By the readings/);
    expect(said({ reseat: about(4.2, 0.04, "bar") })).toContain("and reseated at 4.2 bar. By the");
    expect(said({ lift: none, reseat: none, rise: none })).toBeNull();
    expect(valveSentences(null, 4, words)).toBeNull();
  });

  test("a figure that whoever prints it has no words for is not spoken of either", () => {
    const mute = { pressure: words.pressure, perCent: () => null };
    expect(valveSentences(valve, 4, mute)).toBe(
      "The valve lifted at 4.12 bar, 3 % above working pressure, and reseated at 3.7 bar, 10 % below its lift.",
    );
    expect(valveSentences(valve, 4, { ...mute, pressure: () => null })).toBeNull();
    expect(said({ highest: none, rise: about(0.06, 0.01, "1") })).toMatch(/below its lift\.$/);
  });

  test("a lift beyond its range of working pressure, but by less than half a part in a hundred, is about it", () => {
    expect(said({ lift: about(4.015, 0.001, "bar") })).toContain(
      "lifted at 4.015 bar, about working pressure,",
    );
    expect(said({ lift: about(4.03, 0.001, "bar") })).toContain("4.03 bar, 1 % above working pressure,");
  });

  test("at the very ends of its range it is still about working pressure, and within the limit", () => {
    const exact = (value: number, lo95: number, hi95: number, unit = "bar") => ({
      value,
      u: 1,
      lo95,
      hi95,
      unit,
    });
    expect(said({ lift: exact(4.2, 4, 4.4) })).toContain("about working pressure");
    expect(said({ lift: exact(3.8, 3.6, 4) })).toContain("about working pressure");
    expect(said({ rise: exact(0.05, 0, 0.1, "1") })).toContain("about working pressure, under the 10 %");
    expect(said({ rise: exact(0.12, 0.1, 0.14, "1") })).toContain("not told apart from the 10 %");
  });
});
