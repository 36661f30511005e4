import { expect, test } from "vitest";
import {
  factorOfEvaporation,
  HEAT_FROM_AND_AT_100_C_J_PER_KG,
} from "../../src/steam/factor-of-evaporation.ts";
import { saturationPressurePa } from "../../src/steam/saturation.ts";

const BOILING_K = 373.15;
const BOILING_PA = saturationPressurePa(BOILING_K);

test("dry steam from and at 100 °C has a factor of 1", () => {
  expect(factorOfEvaporation(BOILING_PA, BOILING_K, 1)).toBeCloseTo(1, 9);
});

test("at 100 °C the factor is the dryness, for water boiled away as water takes no heat", () => {
  expect(factorOfEvaporation(BOILING_PA, BOILING_K, 0.9)).toBeCloseTo(0.9, 9);
  expect(factorOfEvaporation(BOILING_PA, BOILING_K, 0)).toBeCloseTo(0, 9);
});

test("the heat from and at 100 °C is 2256.5 kJ/kg", () => {
  expect(HEAT_FROM_AND_AT_100_C_J_PER_KG / 1000).toBeCloseTo(2256.5, 1);
});

test("a dryness that cannot be is refused", () => {
  expect(() => factorOfEvaporation(4e5, 293.15, 1.1)).toThrow(
    /factorOfEvaporation: 1.1 of dryness, permitted 0 to 1/,
  );
});
