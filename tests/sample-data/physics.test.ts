import { describe, expect, it } from "vitest";
import { boilerState, energyInSteamJ, vesselOf } from "../../sample-data/simulator/boiler-state.ts";
import { dayOf } from "../../sample-data/simulator/day.ts";
import { hazelholt } from "../../sample-data/simulator/engines-coal.ts";
import { bramling } from "../../sample-data/simulator/engines-spirit.ts";
import { glassMm } from "../../sample-data/simulator/glass.ts";
import { chokedShare, leakKgPerS } from "../../sample-data/simulator/leaks.ts";
import { surfaceLossW } from "../../sample-data/simulator/loss.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { safetyValveStep } from "../../sample-data/simulator/safety-valve.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { boilerContents } from "../../src/boiler/contents.ts";

const ATMOSPHERE = 101_325;

describe("the boiler's state", () => {
  const vessel = vesselOf(200e-6, 170, ATMOSPHERE);

  it("is the inverse of its contents at any pressure", () => {
    for (const barG of [0.1, 1, 2.8, 6, 9]) {
      const fill = {
        totalM3: 200e-6,
        waterM3: 130e-6,
        pressurePa: barG * 1e5 + ATMOSPHERE,
        metalHeatCapacityJPerK: 170,
      };
      const { waterKg, steamKg, energyJ } = boilerContents(fill);
      const state = boilerState(vessel, waterKg + steamKg, energyJ, 380);
      // 1e-9 of the table and 1e-11 of the search, grown by d(ln p)/d(ln U), about 10
      expect(Math.abs(state.pressurePa / fill.pressurePa - 1)).toBeLessThan(1e-7);
      expect(Math.abs(state.waterM3 / fill.waterM3 - 1)).toBeLessThan(1e-7);
    }
  });

  it("rises without a jump from cold through the boiling point into steam", () => {
    let before = boilerState(vessel, 0.14, 12_000, 290);
    for (let energyJ = 12_050; energyJ < 100_000; energyJ += 50) {
      const state = boilerState(vessel, 0.14, energyJ, before.temperatureK);
      expect(state.temperatureK).toBeGreaterThanOrEqual(before.temperatureK - 1e-3);
      expect(state.temperatureK - before.temperatureK).toBeLessThan(0.1);
      expect(Math.abs(state.waterKg + state.steamKg - 0.14)).toBeLessThan(1e-12);
      before = state;
    }
    expect(before.pressurePa).toBeGreaterThan(2e5);
  });

  it("holds hot water swollen as printed: 1.0611 at 250 °F, 1.0890 at 300 °F, against 4 °C", () => {
    // Babcock & Wilcox, Steam, 35th ed. 1919, Table 11; its figures stand within 0.1 % of the present formulation
    for (const [fahrenheit, relative] of [
      [250, 1.0611],
      [300, 1.089],
    ] as const) {
      const kelvin = (fahrenheit - 32) / 1.8 + 273.15;
      const state = boilerState(vessel, 0.14, energyInSteamJ(vessel, 0.14, kelvin), 390);
      expect(state.temperatureK).toBeCloseTo(kelvin, 6);
      expect(Math.abs(((state.waterM3 / state.waterKg) * 999.97) / relative - 1)).toBeLessThan(1e-3);
    }
  });

  it("refuses a boiler that would be overfull or dry", () => {
    expect(() => boilerState(vessel, 0.25, 160_000, 400)).toThrow(/overfull/);
    expect(() => boilerState(vessel, 0.000_05, 60_000, 400)).toThrow(/boiled dry/);
  });
});

describe("leaks", () => {
  const steam = { fitting: "joint", side: "steam", gPerMinAtWorkingPressure: 0.3 } as const;
  const workingPa = 4e5;

  it("go with absolute pressure while choked, and fall to nothing smoothly below", () => {
    const flow = (pascal: number) => leakKgPerS(steam, pascal, workingPa, ATMOSPHERE);
    expect(flow(workingPa) * 60_000).toBeCloseTo(0.3, 12);
    expect(flow(3e5) / flow(workingPa)).toBeCloseTo(0.75, 12);
    const critical = ATMOSPHERE / 0.577;
    expect(chokedShare(critical * 0.9999, ATMOSPHERE)).toBeCloseTo(1, 4);
    let before = flow(critical);
    for (let pascal = critical - 1000; pascal > ATMOSPHERE; pascal -= 1000) {
      expect(flow(pascal)).toBeLessThan(before);
      before = flow(pascal);
    }
    expect(flow(ATMOSPHERE)).toBe(0);
  });

  it("of hot water go with the root of gauge pressure", () => {
    const water = { ...steam, side: "water" } as const;
    const quarter = ATMOSPHERE + (workingPa - ATMOSPHERE) / 4;
    expect(leakKgPerS(water, quarter, workingPa, ATMOSPHERE) * 60_000).toBeCloseTo(0.15, 12);
  });
});

describe("safety valve", () => {
  const valve = { liftBarG: 3, reseatBarG: 2.6, capacityGPerMin: 12 };
  const at = (wasOpen: boolean, barG: number) =>
    safetyValveStep(valve, wasOpen, barG * 1e5 + ATMOSPHERE, ATMOSPHERE);

  it("lifts at its pressure, stays open down to reseat, and passes its capacity at lift", () => {
    expect(at(false, 2.99)).toEqual({ open: false, kgPerS: 0 });
    expect(at(false, 3).open).toBe(true);
    expect(at(true, 3).kgPerS * 60_000).toBeCloseTo(12, 9);
    expect(at(true, 2.7).open).toBe(true);
    expect(at(true, 2.6)).toEqual({ open: false, kgPerS: 0 });
  });
});

describe("a hot boiler left alone", () => {
  it("loses the stated watts at working pressure, and by the 1.25 power below", () => {
    const loss = { watts: 30, referenceK: 415, referenceAirK: 293 };
    expect(surfaceLossW(loss, 415, 293)).toBeCloseTo(30, 12);
    expect(surfaceLossW(loss, 354, 293)).toBeCloseTo(30 * 0.5 ** 1.25, 12);
    expect(surfaceLossW(loss, 290, 293)).toBe(0);
  });

  it("falls in pressure by cooling alone when nothing leaks", () => {
    const drawn = randomPlan(2);
    const plan = {
      ...drawn,
      engine: { ...bramling, nature: { ...bramling.nature, leaks: [] } },
      track: null,
      train: null,
      fillMl: 145,
      fuel: { by: "ml", first: 40, portions: null } as const,
      stages: [
        { kind: "raise", untilBarG: 2.5, atMostS: 900 },
        { kind: "shut-in", forS: 900 },
      ] as const,
      driver: { ...drawn.driver, feed: null },
    };
    const { truth } = simulate(plan, 2);
    const hold = truth.phases.at(-1);
    expect(hold?.name).toBe("shut-in");
    expect(hold?.waterDrawnG).toBe(0);
    const pressures = truth.curves.pressureBarG.slice((hold?.fromS ?? 0) + 60);
    expect(pressures.at(-1)).toBeLessThan(0.75 * (pressures[0] ?? 0));
  });
});

describe("the gauge glass", () => {
  it("shows less where its own water is cooler, by the ratio of densities", () => {
    const day = dayOf(
      { ...randomPlan(1), engine: hazelholt, fuel: { by: "g", first: 100, portions: null } },
      1,
    );
    const { boiler } = hazelholt.locomotive;
    const { glassWaterC: _without, ...sameTemperature } = boiler;
    const shown = glassMm(boiler, day.geometry, 1000e-6, 435);
    const level = glassMm(sameTemperature, day.geometry, 1000e-6, 435);
    // water at 162 and 60 °C: 905.5 and 983.2 kg/m3 (IAPWS-IF97), ratio 0.921
    expect(shown / level).toBeCloseTo(0.921, 3);
  });
});
