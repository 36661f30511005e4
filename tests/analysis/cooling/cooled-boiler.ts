import { type Leak, leakKgPerS } from "../../../sample-data/simulator/leaks.ts";
import { boilerContents } from "../../../src/boiler/contents.ts";
import { boilerGeometry } from "../../../src/boiler/geometry.ts";
import { metalHeatCapacityJPerK } from "../../../src/boiler/metal.ts";
import { waterM3ForMass } from "../../../src/boiler/water-mass.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import {
  saturatedSteam,
  saturatedWater,
  saturationPressurePa,
  saturationTemperatureK,
} from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

export const ATMOSPHERE_PA = 1e5;
const AIR_K = 288.15;
export const leakOf = (gPerMinAtWorkingPressure: number, side: Leak["side"] = "steam"): Leak => ({
  fitting: "all",
  side,
  gPerMinAtWorkingPressure,
});
export const engine = () => ({
  ...smallEngine(),
  instruments: {
    pressureReadingBar: 0.005,
    pressureBiasBar: 0.001,
    levelReadingMm: 0.02,
    massReadingG: 0.1,
    volumeReadingMl: 0.1,
    feedRelative: 0.001,
  },
});

/**
 * A boiler that cools by the law with the given loss at working pressure (3 bar g) and leaks steam in proportion to its
 * absolute pressure while choked, or boiling water as the root of its gauge pressure, stepped second by second from its mass and energy: dial and glass as they would be read.
 */
export function cooled(
  lossW: number,
  leakGPerMin: number,
  dyingJ: number,
  diesS: number,
  forS = 900,
  side: "steam" | "water" = "steam",
): Entry[] {
  const { boiler } = smallEngine();
  const geometry = boilerGeometry(boiler);
  const metal = metalHeatCapacityJPerK(boiler.metalMassG, boiler.metal);
  const workingPa = 3e5 + ATMOSPHERE_PA;
  const workingExcess = saturationTemperatureK(workingPa) - AIR_K;
  const contentsAt = (massKg: number, kelvin: number) => {
    const pressurePa = saturationPressurePa(kelvin);
    const waterM3 = waterM3ForMass(geometry.totalM3, massKg, pressurePa);
    const fill = { totalM3: geometry.totalM3, waterM3, pressurePa, metalHeatCapacityJPerK: metal };
    return { waterM3, energyJ: boilerContents(fill).energyJ };
  };
  const leaving = side === "steam" ? saturatedSteam : saturatedWater;
  let massKg = 0.13;
  let kelvin = saturationTemperatureK(workingPa);
  const entries: Entry[] = [];
  for (let s = 0; s <= forS; s += 2) {
    const pressurePa = saturationPressurePa(kelvin);
    if (s % 60 === 0) {
      const { waterM3 } = contentsAt(massKg, kelvin);
      entries.push({ kind: "pressure", atS: 1000 + s, barG: (pressurePa - ATMOSPHERE_PA) / 1e5 });
      entries.push({ kind: "level", atS: 1000 + s, mm: geometry.levelMmAtWaterM3(waterM3) });
    }
    const leakKg = 2 * leakKgPerS(leakOf(leakGPerMin, side), pressurePa, workingPa, ATMOSPHERE_PA);
    const lossJ = lossW * ((kelvin - AIR_K) / workingExcess) ** 1.25 * 2;
    const fireJ = (dyingJ / diesS) * Math.exp(-s / diesS) * 2;
    const wantedJ =
      contentsAt(massKg, kelvin).energyJ - lossJ + fireJ - leakKg * leaving(pressurePa).enthalpyJPerKg;
    massKg -= leakKg;
    for (let round = 0; round < 4; round++) {
      const heatJPerK =
        (contentsAt(massKg, kelvin + 0.5).energyJ - contentsAt(massKg, kelvin - 0.5).energyJ) / 1;
      kelvin += (wantedJ - contentsAt(massKg, kelvin).energyJ) / heatJPerK;
    }
  }
  return entries;
}

export const shutIn = (readings: Entry[], more: Entry[] = []) => ({
  ...smallSteaming(),
  purpose: "hot-hold" as const,
  conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1000 },
  entries: [
    { kind: "fire", state: "lit", atS: 0 } as const,
    { kind: "fire", state: "out", atS: 1000 } as const,
    { kind: "phase", name: "shut-in", atS: 1000 } as const,
    ...readings,
    ...more,
  ].sort((a, b) => a.atS - b.atS),
});
