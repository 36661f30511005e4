import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { massReadings } from "../../../src/analysis/water/mass-readings.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "../../../src/steam/saturation.ts";
import { evenBoiler, smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const AIR_PA = 101_325;
/** 5 ml a millimetre of glass, 400 ml in all. */
const EVEN_ML = 400;
const engine = {
  ...smallEngine(),
  workingPressureBarG: 4,
  boiler: evenBoiler,
  instruments: { levelReadingMm: 0.1, pressureReadingBar: 0.02, pressureBiasBar: 0.02 },
};
const HELD_G = 150;

/** She boils at 200 s, warms by 0.3 K a second and is held from a moment on: nothing is drawn, and 150 g stay in her. */
function raised(heldFromS: number, slackens: (beyondS: number) => number = () => 0) {
  const kelvinAt = (atS: number) =>
    373.124 + 0.3 * (Math.min(atS, heldFromS) - 200 + slackens(Math.max(0, atS - heldFromS)));
  const paAt = (atS: number) => saturationPressurePa(kelvinAt(atS));
  const levelAt = (atS: number) => {
    const [f, g] = [saturatedWater(paAt(atS)).volumeM3PerKg, saturatedSteam(paAt(atS)).volumeM3PerKg];
    const [heldKg, totalM3] = [HELD_G / 1000, 1e-6 * EVEN_ML];
    return (1e6 * f * (totalM3 - heldKg * g)) / (f - g) / 5;
  };
  const dial = Array.from({ length: 10 }, (_, i) => 210 + 60 * i).map((atS, i) => ({
    id: `p${i}`,
    atS,
    kind: "pressure" as const,
    barG: (paAt(atS) - AIR_PA) / 1e5,
  }));
  const everyS = 2;
  return {
    ...smallSteaming(),
    entries: [
      { id: "lit", atS: 0, kind: "fire" as const, state: "lit" as const },
      { id: "none", atS: 1, kind: "pressure" as const, barG: 0 },
      ...dial,
    ],
    traces: [
      {
        channel: "levelMm" as const,
        startS: 220,
        everyS,
        values: Array.from({ length: 260 }, (_, i) => levelAt(220 + everyS * i)),
      },
    ],
  };
}
const between = (fromS: number, toS: number, steaming: ReturnType<typeof raised>) =>
  massReadings(sourcesOf(engine, steaming)).filter(({ atS }) => atS > fromS && atS < toS);
const warmthOf = (reading: ReturnType<typeof between>[number] | undefined) =>
  reading?.shared.find(({ name }) => name === "warmth that was guessed");

describe("a level logged while the rise of pressure is stopped between two readings of the dial", () => {
  const readings = between(330, 390, raised(360));
  const middle = readings.reduce((a, b) => (Math.abs(b.atS - 360) < Math.abs(a.atS - 360) ? b : a));

  test("tells the water with an error in common that holds what was in her", () => {
    expect(readings.length).toBeGreaterThan(4);
    for (const reading of readings) {
      const uGrams = Math.abs(warmthOf(reading)?.uGrams ?? 0);
      expect(Math.abs(reading.grams - HELD_G)).toBeLessThan(2 * uGrams + 0.02);
    }
    expect(new Set(readings.map((reading) => warmthOf(reading)?.source)).size).toBe(1);
  });

  // straight from reading to reading she is 4.5 K too cold at 360 s, half of 0.3 K a second for 30 s
  test("is not taken for as much more water as straight from reading to reading", () => {
    const perKelvinG = 0.13;
    expect(middle.grams - HELD_G).toBeLessThan(0.5 * 4.5 * perKelvinG);
    expect(middle.grams).toBeGreaterThan(HELD_G - 0.05);
  });
});

test("a rise that goes on, and one that is held from a reading on, need no guess between readings", () => {
  expect(between(330, 390, raised(900)).map(warmthOf).filter(Boolean)).toEqual([]);
  expect(between(330, 390, raised(390)).map(warmthOf).filter(Boolean)).toEqual([]);
  expect(between(390, 450, raised(390)).map(warmthOf).filter(Boolean)).toEqual([]);
});

test("one that slackens evenly through three gaps lies between the two as well", () => {
  // from 0.3 K a second at 270 s to none at 450 s
  const evenly = raised(270, (beyondS) => Math.min(beyondS, 180) - Math.min(beyondS, 180) ** 2 / 360);
  for (const reading of between(330, 390, evenly)) {
    const uGrams = Math.abs(warmthOf(reading)?.uGrams ?? 0);
    expect(uGrams).toBeGreaterThan(0);
    expect(Math.abs(reading.grams - HELD_G)).toBeLessThan(2 * uGrams + 0.02);
  }
});
