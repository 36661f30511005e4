import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { steamHoleM, steamLeak, waterHoleM, waterLeakKgPerS } from "../../src/steam/leak-flow.ts";

fc.configureGlobal({ seed: 1997, numRuns: 200 });

const ATMOSPHERE_PA = 101_325;
const circleM2 = (diameterM: number): number => (Math.PI / 4) * diameterM ** 2;
const diameter = fc.double({ min: 1e-5, max: 1e-2, noNaN: true });
const pressure = fc.double({ min: 1.02e5, max: 1.6e6, noNaN: true });

describe("steam through a hole", () => {
  test("the equivalent hole of a leak is the hole", () => {
    fc.assert(
      fc.property(diameter, pressure, (diameterM, pressurePa) => {
        const { massKgPerS } = steamLeak(pressurePa, ATMOSPHERE_PA, circleM2(diameterM));
        expect(steamHoleM(massKgPerS, pressurePa, ATMOSPHERE_PA) / diameterM).toBeCloseTo(1, 10);
      }),
    );
  });

  test("more pressure drives more, through the change from unchoked to choked too", () => {
    fc.assert(
      fc.property(pressure, (pressurePa) => {
        const { massKgPerS } = steamLeak(pressurePa, ATMOSPHERE_PA, 1e-6);
        expect(steamLeak(pressurePa * 1.001, ATMOSPHERE_PA, 1e-6).massKgPerS).toBeGreaterThan(massKgPerS);
      }),
    );
  });

  test("choked flow is proportional to absolute pressure and cares nothing for the back pressure", () => {
    const low = steamLeak(2e5, 1e5, 1e-6);
    expect(steamLeak(4e5, 1e5, 1e-6).massKgPerS).toBeCloseTo(2 * low.massKgPerS, 15);
    expect(steamLeak(2e5, 0.5e5, 1e-6).massKgPerS).toBe(low.massKgPerS);
  });

  test("no difference of pressure drives nothing and shows no hole", () => {
    expect(steamLeak(1e5, 1e5, 1e-6)).toEqual({ massKgPerS: 0, choked: false });
    expect(() => steamHoleM(1e-5, 1e5, 1e5)).toThrow(RangeError);
  });

  test("no hole passes nothing, and no flow is no hole", () => {
    expect(steamLeak(2e5, 1e5, 0)).toEqual({ massKgPerS: 0, choked: true });
    expect(steamHoleM(0, 2e5, 1e5)).toBe(0);
  });

  test.each([
    [
      () => steamLeak(1e5, 2e5, 1e-6),
      /steamLeak: 200000 Pa absolute of back pressure, permitted 0 to 100000/,
    ],
    [() => steamLeak(0, 0, 1e-6), /steamLeak: 0 Pa absolute, permitted above 0/],
    [() => steamLeak(2e5, 1e5, -1), /steamLeak: -1 m2, permitted 0 m2 or more/],
    [() => steamHoleM(Number.NaN, 2e5, 1e5), /steamHoleM: NaN kg\/s, permitted 0 kg\/s or more/],
  ])("what cannot be is refused with function, value, unit and range: %s", (call, words) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(words);
  });
});

describe("water through a hole", () => {
  test("its speed is that of a fall from the head of the pressure", () => {
    const headM = 10;
    const [density, gravity] = [998, 9.80665];
    const got = waterLeakKgPerS(density * gravity * headM, density, 1e-6);
    expect(got / (density * 1e-6 * Math.sqrt(2 * gravity * headM))).toBeCloseTo(1, 12);
  });

  test("the equivalent hole of a leak is the hole", () => {
    fc.assert(
      fc.property(diameter, pressure, (diameterM, differencePa) => {
        const kgPerS = waterLeakKgPerS(differencePa, 998, circleM2(diameterM));
        expect(waterHoleM(kgPerS, differencePa, 998) / diameterM).toBeCloseTo(1, 10);
      }),
    );
  });

  test("what cannot be is refused", () => {
    expect(() => waterLeakKgPerS(-1, 998, 1e-6)).toThrow(/waterLeakKgPerS: -1 Pa of difference/);
    expect(() => waterLeakKgPerS(1e5, 0, 1e-6)).toThrow(/waterLeakKgPerS: 0 kg\/m3, permitted above 0/);
    expect(() => waterHoleM(1e-5, 0, 998)).toThrow(RangeError);
  });
});
