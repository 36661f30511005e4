import { describe, expect, test } from "vitest";
import {
  airConductivity,
  airViscosity,
  laggedLossWPerM,
  nusseltHorizontalCylinder,
  surfaceLossWPerM,
} from "../../src/sizing/free-convection.ts";
import { barePipes, churchillChu, dryAir, hotWaterPipe, laggedSteamPipe } from "./heat-loss.ts";

const kelvin = (celsius: number): number => celsius + 273.15;
const kelvinOfF = (fahrenheit: number): number => kelvin((fahrenheit - 32) / 1.8);
const M_PER_IN = 0.0254;
const W_PER_M_OF_BTU_PER_H_FT = 0.961524;
const W_PER_M_K_OF_BTU_PER_H_FT_F = 1.730735;

describe("heat lost to still air", () => {
  const { airC, emissivity, outsideMm, tolerance } = barePipes;
  const pipes = barePipes.rows.flatMap(({ warmerK, lossWPerM }) =>
    lossWPerM.map((printed, i) => [outsideMm[i] ?? 0, warmerK, printed] as const),
  );
  test.each(pipes)("a bare pipe of %f mm, %f K warmer: %f W/m", (diameterMm, warmerK, printed) => {
    const airK = kelvin(airC);
    const loss = surfaceLossWPerM(diameterMm / 2000, airK + warmerK, airK, emissivity);
    expect(Math.abs(loss / printed - 1)).toBeLessThan(tolerance);
  });
  test("no pipe was dropped", () => expect(pipes).toHaveLength(54));

  test("a pipe of hot water in a room, by convection alone", () => {
    const { outsideM, lengthM, surfaceC, airC: roomC, lossW } = hotWaterPipe;
    const loss = lengthM * surfaceLossWPerM(outsideM / 2, kelvin(surfaceC), kelvin(roomC), 0);
    expect(Math.abs(loss / lossW - 1)).toBeLessThan(hotWaterPipe.tolerance);
  });

  test("a lagged steam pipe, and how warm its surface is", () => {
    const { outsideIn, overLaggingIn, conductivityBtuPerHFtF, hotF, airF } = laggedSteamPipe;
    const conductivityWPerMK = conductivityBtuPerHFtF * W_PER_M_K_OF_BTU_PER_H_FT_F;
    const radiusM = (outsideIn / 2) * M_PER_IN;
    const overLaggingM = (overLaggingIn / 2) * M_PER_IN;
    const loss = laggedLossWPerM({
      radiusM,
      overLaggingM,
      outsideM: overLaggingM,
      hotK: kelvinOfF(hotF),
      airK: kelvinOfF(airF),
      conductivityWPerMK,
      emissivity: 0.9,
    });
    const printed = laggedSteamPipe.lossBtuPerHFt * W_PER_M_OF_BTU_PER_H_FT;
    expect(Math.abs(loss / printed - 1)).toBeLessThan(laggedSteamPipe.tolerance);
    const surfaceF =
      hotF - (1.8 * loss * Math.log(overLaggingM / radiusM)) / (2 * Math.PI * conductivityWPerMK);
    const drop = hotF - laggedSteamPipe.surfaceF;
    expect(Math.abs((hotF - surfaceF) / drop - 1)).toBeLessThan(laggedSteamPipe.tolerance);
  });

  test("lagging as thin as nothing loses what the cleading alone does", () => {
    const one = {
      radiusM: 0.025,
      outsideM: 0.0253,
      hotK: 417,
      airK: 288,
      conductivityWPerMK: 0.05,
      emissivity: 0.9,
    };
    const cleadingAlone = laggedLossWPerM({ ...one, overLaggingM: 0.025 });
    expect(cleadingAlone).toBe(surfaceLossWPerM(0.0253, 417, 288, 0.9));
    expect(laggedLossWPerM({ ...one, overLaggingM: 0.025 + 1e-8 }) / cleadingAlone).toBeCloseTo(1, 4);
  });
});

// printed tables differ from each other by more: at 0 °C from 0.0236 (Cengel, table A-15) to 0.0243 W/m/K
test.each(dryAir)("dry air at %f °C conducts %f W/m/K and is %f e-6 m2/s viscous", (celsius, k, nu) => {
  expect(Math.abs(airConductivity(kelvin(celsius)) / k - 1)).toBeLessThan(0.01);
  expect(Math.abs((airViscosity(kelvin(celsius)) * 1e6) / nu - 1)).toBeLessThan(0.01);
});

describe("free convection about a horizontal cylinder", () => {
  test.each(churchillChu.rows)("Pr $prandtl, Gr $grashof: Nu $nusselt", ({ prandtl, grashof, nusselt }) => {
    const wanted = churchillChu.tolerance;
    expect(Math.abs(nusseltHorizontalCylinder(prandtl, grashof) / nusselt - 1)).toBeLessThan(wanted);
  });

  test("no row was dropped", () => expect(churchillChu.rows).toHaveLength(2));
});
