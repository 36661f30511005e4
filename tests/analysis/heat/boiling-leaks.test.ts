import { describe, expect, test } from "vitest";
import { heatOf } from "../../../src/analysis/heat/heat.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Water } from "../../../src/analysis/water/water.ts";
import { waterBalance } from "../../../src/analysis/water/water-balance.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { saturatedSteam, saturatedWater } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { balanceInput, rateWithin, reading, STEADY } from "../water/balance-by-hand.ts";
import { bar, fire, phase } from "../water/water-log.ts";

const absolutePa = (barG: number) => barG * 1e5 + 101_325;
/** Heat of evaporation, and the heat of steam above feed at 15 °C, J/g, by the steam tables that tests/published holds. */
const hfg = (barG: number) =>
  (saturatedSteam(absolutePa(barG)).enthalpyJPerKg - saturatedWater(absolutePa(barG)).enthalpyJPerKg) / 1000;
const steamJPerG = (barG: number) => saturatedSteam(absolutePa(barG)).enthalpyJPerKg / 1000 - 63.17;

const WORKING = 4;
const withFittings = (fittings: Locomotive["fittings"]): Locomotive => ({
  ...smallEngine(),
  workingPressureBarG: WORKING,
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 25 },
  fittings,
  instruments: { massReadingG: 1e-4 },
});
const clack = withFittings([{ id: "clack", name: "Feed clack", kind: "clack" }]);
const gland = withFittings([{ id: "clack", name: "Right gland", kind: "gland" }]);

/** Ten minutes standing at 1 bar, ten running at 3; so much was drawn in each. */
function useful(
  of: Locomotive,
  seen: Entry[] = [],
  [first, second]: readonly [number, number] = [100, 300],
  before: readonly Entry[] = [phase("standing", 0), bar(1, 0), bar(1, 599.9)],
) {
  const entries: Entry[] = [
    fire("lit", 0),
    ...before,
    bar(3, 600),
    phase("running", 600),
    ...seen,
    bar(3, 1200),
    fire("out", 1200),
  ];
  const at = (atS: number, gone: number) => reading(atS, 2000 - gone, { uGrams: 1e-3 });
  const readings = [
    at(0, 0),
    at(300, first / 2),
    at(600, first),
    at(900, first + second / 2),
    at(1200, first + second),
  ];
  const input = balanceInput(readings, { effects: [rateWithin(0, 600), rateWithin(600, 1200)] });
  const water: Water = { input, balance: waterBalance(input, STEADY), why: "" };
  const found = heatOf(sourcesOf(of, { ...smallSteaming(), entries }), water);
  if (found === null || !isMeasured(found.useful)) throw new Error("no useful heat");
  const u = found.useful.parts.find(({ name }) => name === "boiling water that leaked")?.u ?? 0;
  return { value: found.useful.value, u, factor: found.factorOfEvaporation };
}

describe("boiling water that leaked carries off no heat of evaporation", () => {
  test("none of an engine without a clack, and it has the same factor of evaporation", () => {
    expect(useful(gland).u).toBe(0);
    expect(useful(clack).factor).toEqual(useful(gland).factor);
  });

  test("as much as was caught of it, as the root of the pressure", () => {
    const drip: Entry = { kind: "drip", atS: 900, fitting: "clack", g: 0.5, overS: 60 };
    const lessJ = useful(gland, [drip]).value - useful(clack, [drip]).value;
    expect(lessJ / (0.5 * 10 * (Math.sqrt(1 / 3) * hfg(1) + hfg(3)))).toBeCloseTo(1, 3);
  });

  // a drop of 0.05 ml each six seconds is half a gram a minute
  test("as much as a look at the clack tells", () => {
    const look = (grade: "damp" | "dripping"): Entry => ({ kind: "look", atS: 900, fitting: "clack", grade });
    const lessJ = (grade: "damp" | "dripping") => useful(gland).value - useful(clack, [look(grade)]).value;
    const perGPerMin = 10 * (Math.sqrt(1 / WORKING) * hfg(1) + Math.sqrt(3 / WORKING) * hfg(3));
    expect(lessJ("dripping") / (0.5 * perGPerMin)).toBeCloseTo(1, 3);
    expect(useful(clack, [look("dripping")]).u / lessJ("dripping")).toBeCloseTo(0.6, 6);
    expect(lessJ("damp")).toBeLessThan(0.1 * lessJ("dripping"));
  });

  test("unseen, a hundredth of the steam that the fire makes, as much in doubt, whatever she draws", () => {
    const all = useful(gland).value;
    const minutes = 10 * (Math.sqrt(1 / WORKING) + Math.sqrt(3 / WORKING));
    const gPerMin = (0.01 * all) / 20 / steamJPerG(3);
    const { value, u } = useful(clack);
    const perG = (10 * (Math.sqrt(1 / WORKING) * hfg(1) + Math.sqrt(3 / WORKING) * hfg(3))) / minutes;
    expect((all - value) / (gPerMin * minutes * perG)).toBeCloseTo(1, 3);
    expect(u).toBeCloseTo(all - value, 6);
  });

  // all the heat of 450 g of copper (0.385 J/gK) and 2 kg of water in five minutes of the twenty
  test("unseen, by the fire as it burnt while steam was raised, where that was harder", () => {
    const raising = [phase("raising", 0), bar(0, 0), bar(3, 300), phase("standing", 300)];
    const raised = useful(clack, [], [0, 300], raising);
    const even = useful(gland, [], [0, 300], raising).value / 20;
    const thought = (gPerMin: number) => {
      const full = [2.5 * Math.sqrt(1.5 / WORKING), 5 * Math.sqrt(3 / WORKING), 10 * Math.sqrt(3 / WORKING)];
      return gPerMin * full.reduce((sum, minutes) => sum + minutes, 0) * hfg(3);
    };
    expect(raised.u).toBeGreaterThan(2 * thought((0.01 * even) / steamJPerG(3)));
  });

  test("unseen, never more than a quarter of what was drawn", () => {
    const { u } = useful(clack, [], [0.01, 0.01]);
    expect(u).toBeLessThan(0.25 * 0.02 * hfg(1) * 1.001);
  });
});
