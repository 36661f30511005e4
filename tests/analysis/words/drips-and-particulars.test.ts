import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Report } from "../../../src/analysis/report-schema.ts";
import { dripSentence } from "../../../src/analysis/words/drip-meaning.ts";
import { particularsOf } from "../../../src/analysis/words/particulars.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Reported } from "../../../src/quantity/reported.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { drippingEngine } from "../leaks/dripping-engine.ts";

const none: Reported = { value: null, why: "not caught" };
const figure = (value: number, u: number): Reported => ({
  value,
  u,
  lo95: value - 2 * u,
  hi95: value + 2 * u,
  unit: "g/min",
});
const shown = (one: Reported) => (one.value === null ? null : `<${one.value}>`);
const words = { rate: shown, bareRate: shown, hole: shown };
type Leaks = NonNullable<Report["leaks"]>;
const drip = (fitting: string, rate: Reported, equivalentHole: Reported = none): Leaks[number] => ({
  fitting,
  atS: 100,
  rate,
  equivalentHole,
});
const said = (leaks: Leaks | null) => dripSentence(leaks, drippingEngine(), words);

describe("what dripped", () => {
  test("the largest that was caught is told, wherever it stands, with its hole where there is one", () => {
    const [small, large] = [
      drip("clack", figure(0.1, 0.01)),
      drip("gland", figure(0.5, 0.01), figure(0.2, 0.01)),
    ];
    const wanted =
      "Most dripped from the gland: <0.5> at working pressure, as much as a round hole of <0.2> would let out.";
    expect(said([small, large])).toBe(wanted);
    expect(said([large, small])).toBe(wanted);
    expect(said([drip("clack", none), large])).toBe(wanted);
  });

  test("of two alike the first; one alone dripped, with no hole where none is known", () => {
    const [first, second] = [drip("clack", figure(0.5, 0.01)), drip("gland", figure(0.5, 0.01))];
    expect(said([first, second])).toBe("Most dripped from the clack: <0.5> at working pressure.");
    expect(said([drip("elsewhere", figure(0.5, 0.01))])).toBe(
      "It dripped from elsewhere: <0.5> at working pressure.",
    );
  });

  test("nothing where none was caught, and perhaps nothing where it is not told from none", () => {
    expect(said(null)).toBeNull();
    expect(said([])).toBeNull();
    expect(said([drip("gland", none)])).toBeNull();
    expect(said([drip("gland", figure(0.01, 0.02))])).toMatch(/^What dripped is perhaps nothing/);
  });
});

describe("what is told beside the figures", () => {
  const particulars = (entries: Entry[]) =>
    particularsOf(analyse(smallEngine(), { ...smallSteaming(), entries }));

  test("how long the fires burnt, those between left out; nothing of a hold or a pump that there was not", () => {
    const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
    const told = particulars([fire("lit", 30), fire("out", 330), fire("lit", 900), fire("out", 1000)]);
    expect(told).toEqual({ held: null, burntForS: 400, pumpTimesDrawn: null });
  });

  test("a pump that is told to keep up says by how much", () => {
    const analysis = analyse(smallEngine(), smallSteaming());
    const pump = {
      perRevolution: { value: null, why: "" },
      volumetricEfficiency: { value: null, why: "" },
      keepsUp: true,
      keepsUpUntold: null,
      timesDrawn: { value: 1.5, unit: "1", parts: [{ name: "readings", u: 0.1 }] },
    };
    expect(particularsOf({ ...analysis, pump }).pumpTimesDrawn).toMatchObject({ value: 1.5 });
    expect(particularsOf({ ...analysis, pump: { ...pump, timesDrawn: null } }).pumpTimesDrawn).toBeNull();
  });
});
