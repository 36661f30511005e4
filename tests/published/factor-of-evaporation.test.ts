import { describe, expect, test } from "vitest";
import { celsiusFromFahrenheit, kelvinFromCelsius, paFromPsi } from "../../src/quantity/units.ts";
import { factorOfEvaporation } from "../../src/steam/factor-of-evaporation.ts";
import { relativeError } from "./closeness.ts";
import { strohm } from "./factor-of-evaporation.ts";

const ATMOSPHERE_PA = 101_325;

describe("factor of evaporation, Strohm 1918", () => {
  const rows = strohm.rows.flatMap(({ feedFahrenheit, factors }) =>
    strohm.psig.map((psig, i) => ({ feedFahrenheit, psig, wanted: factors[i] ?? Number.NaN })),
  );

  test.each(rows)("feed at $feedFahrenheit °F, steam at $psig psig", ({ feedFahrenheit, psig, wanted }) => {
    const feedK = kelvinFromCelsius(celsiusFromFahrenheit(feedFahrenheit));
    const got = factorOfEvaporation(paFromPsi(psig) + ATMOSPHERE_PA, feedK, 1);
    expect(relativeError(got, wanted)).toBeLessThan(strohm.tolerance);
  });

  test("no row was dropped", () => {
    expect(rows).toHaveLength(18);
    expect(rows.reduce((sum, row) => sum + row.wanted, 0)).toBeCloseTo(20.5171, 10);
  });
});
