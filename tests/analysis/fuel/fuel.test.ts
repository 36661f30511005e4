import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

function analysisWith(fuel: Entry[], fireOut = true, engine: Locomotive = smallEngine()) {
  const entries: Entry[] = [
    ...smallSteaming().entries,
    ...(fireOut ? [{ kind: "fire", state: "out", atS: 500 } as const] : []),
    ...fuel,
  ];
  entries.sort((a, b) => a.atS - b.atS);
  return analyse(engine, { ...smallSteaming(), entries });
}

const added = (g: number, atS = 0): Entry => ({ kind: "fuel", action: "added", g, atS });
const remaining = (g: number, atS = 500): Entry => ({ kind: "fuel", action: "remaining", g, atS });

describe("fuel burnt", () => {
  test("is what was added less what remains, with the errors of both weighings", () => {
    const burnt = analysisWith([added(20), remaining(5)]).totals?.fuelBurnt;
    if (burnt === undefined || !isMeasured(burnt)) throw new Error("no figure");
    expect(burnt.value).toBeCloseTo(15, 9);
    // 1 g a weighing (common practice), two weighings
    expect(standardUncertainty(burnt)).toBeCloseTo(Math.SQRT2, 6);
  });

  test("in ml is turned to g by the density of the fuel: spirit 0.81", () => {
    const burnt = analysisWith([
      { kind: "fuel", action: "added", ml: 40, atS: 0 },
      { kind: "fuel", action: "remaining", ml: 10, atS: 500 },
    ]).totals?.fuelBurnt;
    expect(burnt?.value).toBeCloseTo(30 * 0.81, 6);
  });

  test("counts a tank that was read before lighting up and after", () => {
    expect(analysisWith([remaining(40, 0), remaining(22)]).totals?.fuelBurnt.value).toBeCloseTo(18, 9);
  });

  test("is not to be had while the fire is lit and nothing says what is left", () => {
    expect(analysisWith([added(20)], false).totals?.fuelBurnt).toEqual({
      value: null,
      why: "what fuel was left was not recorded, and the fire was still lit: measure what is left",
    });
  });

  test("of which nobody looked what was left is thought of, and that is said in a warning", () => {
    const analysis = analysisWith([added(20)]);
    expect(analysis.totals?.fuelBurnt.value).toBeLessThan(20);
    expect(analysis.warnings.map((warning) => warning.code)).toContain("fuel-left-not-recorded");
    expect(analysisWith([added(20), remaining(5)]).warnings.map((warning) => warning.code)).not.toContain(
      "fuel-left-not-recorded",
    );
  });

  test("of a fuel without a known density cannot be had from ml", () => {
    const engine: Locomotive = { ...smallEngine(), fuel: { kind: "coal" } };
    const ml: Entry[] = [{ kind: "fuel", action: "added", ml: 40, atS: 0 }];
    expect(analysisWith(ml, true, engine).totals?.fuelBurnt.value).toBeNull();
  });

  test("of an unknown heating value gives no efficiency, and says so", () => {
    const engine: Locomotive = { ...smallEngine(), fuel: { kind: "other" } };
    expect(analysisWith([added(20), remaining(5)], true, engine).heat?.efficiency).toEqual({
      value: null,
      why: "the heating value of this fuel is not known: give it with the engine",
    });
  });

  test("more heat out than the fuel holds is said to be impossible, where its scale is fine enough to tell", () => {
    const fuel = [added(3), remaining(1)];
    const codes = (massReadingG: number) =>
      analysisWith(fuel, true, { ...smallEngine(), instruments: { massReadingG } }).warnings.map(
        ({ code }) => code,
      );
    expect(codes(0.05)).toContain("heat-ceiling");
    expect(codes(2)).not.toContain("heat-ceiling");
  });
});
