import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as units from "../../src/quantity/units.ts";

fc.configureGlobal({ seed: 1824, numRuns: 200 });

const pairs = [
  { name: "psi and bar", to: units.barFromPsi, from: units.psiFromBar },
  { name: "Pa and bar", to: units.barFromPa, from: units.paFromBar },
  { name: "psi and Pa", to: units.paFromPsi, from: units.psiFromPa },
  { name: "UK fl oz and ml", to: units.mlFromUkFluidOunces, from: units.ukFluidOuncesFromMl },
  { name: "US fl oz and ml", to: units.mlFromUsFluidOunces, from: units.usFluidOuncesFromMl },
  { name: "inches and mm", to: units.mmFromInches, from: units.inchesFromMm },
  { name: "feet and m", to: units.mFromFeet, from: units.feetFromM },
  { name: "ounces and g", to: units.gFromOunces, from: units.ouncesFromG },
  { name: "pounds and kg", to: units.kgFromPounds, from: units.poundsFromKg },
  { name: "°F and °C", to: units.celsiusFromFahrenheit, from: units.fahrenheitFromCelsius },
  { name: "°C and K", to: units.kelvinFromCelsius, from: units.celsiusFromKelvin },
];

describe("units", () => {
  test.each(pairs)("$name: there and back is where it began", ({ to, from }) => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
        // a few units in the last digit of the value or of the 273.15 or 32 added to it
        const rounding = 4 * Number.EPSILON * (Math.abs(value) + 274);
        expect(Math.abs(from(to(value)) - value)).toBeLessThan(rounding);
      }),
    );
  });

  test("every conversion is in the list", () => {
    expect(new Set(pairs.flatMap(({ to, from }) => [to, from]))).toEqual(new Set(Object.values(units)));
  });

  // NIST SP 811 (2008), Appendix B.8, printed to seven digits; UK fluid ounce: Weights and Measures Act 1985, gallon/160
  test.each([
    { name: "1 psi in Pa", got: units.paFromPsi(1), wanted: 6894.757, digits: 3 },
    { name: "1 psi in bar", got: units.barFromPsi(1), wanted: 0.06894757, digits: 8 },
    { name: "1 US fl oz in ml", got: units.mlFromUsFluidOunces(1), wanted: 29.57353, digits: 5 },
    { name: "1 UK fl oz in ml", got: units.mlFromUkFluidOunces(1), wanted: 28.4130625, digits: 9 },
    { name: "1 inch in mm", got: units.mmFromInches(1), wanted: 25.4, digits: 12 },
    { name: "1 foot in m", got: units.mFromFeet(1), wanted: 0.3048, digits: 12 },
    { name: "1 oz in g", got: units.gFromOunces(1), wanted: 28.34952, digits: 5 },
    { name: "1 lb in kg", got: units.kgFromPounds(1), wanted: 0.45359237, digits: 12 },
    { name: "212 °F in °C", got: units.celsiusFromFahrenheit(212), wanted: 100, digits: 12 },
    { name: "-40 °F in °C", got: units.celsiusFromFahrenheit(-40), wanted: -40, digits: 12 },
    { name: "100 °C in K", got: units.kelvinFromCelsius(100), wanted: 373.15, digits: 12 },
    { name: "1 bar in Pa", got: units.paFromBar(1), wanted: 100_000, digits: 9 },
  ])("$name is $wanted", ({ got, wanted, digits }) => {
    expect(got).toBeCloseTo(wanted, digits);
  });
});
