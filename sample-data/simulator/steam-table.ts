import { waterState } from "../../src/steam/region1.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "../../src/steam/saturation.ts";

/**
 * Properties on the saturation line by temperature, read from a table made once from IAPWS-IF97 and
 * interpolated by cubics: 200 times quicker than the equations and within about 1e-9 of them, which the
 * tests check. SI.
 */
export interface Saturation {
  pressurePa: number;
  waterM3PerKg: number;
  steamM3PerKg: number;
  /** internal energies */
  waterJPerKg: number;
  steamJPerKg: number;
}

export const LOWEST_K = 273.2;
export const HIGHEST_K = 478;
const STEP_K = 0.25;
const COLUMNS = 7;
const ONE_ATMOSPHERE_PA = 101_325;

const table = makeTable();

function makeTable(): Float64Array {
  const rows = Math.round((HIGHEST_K - LOWEST_K) / STEP_K) + 1;
  const values = new Float64Array(rows * COLUMNS);
  for (let row = 0; row < rows; row += 1) {
    const temperatureK = LOWEST_K + row * STEP_K;
    const pressurePa = saturationPressurePa(temperatureK);
    const water = saturatedWater(pressurePa);
    const steam = saturatedSteam(pressurePa);
    const cold = waterState(temperatureK, Math.max(ONE_ATMOSPHERE_PA, pressurePa));
    values.set(
      [
        // these two run by powers of ten; their logarithms are nearly straight
        Math.log(pressurePa),
        water.volumeM3PerKg,
        Math.log(steam.volumeM3PerKg),
        water.internalEnergyJPerKg,
        steam.internalEnergyJPerKg,
        cold.volumeM3PerKg,
        cold.internalEnergyJPerKg,
      ],
      row * COLUMNS,
    );
  }
  return values;
}

/** @throws RangeError outside 273.2 K to 478 K */
export function saturationAt(temperatureK: number): Saturation {
  const place = placeOf(temperatureK);
  return {
    pressurePa: Math.exp(cubic(place, 0)),
    waterM3PerKg: cubic(place, 1),
    steamM3PerKg: Math.exp(cubic(place, 2)),
    waterJPerKg: cubic(place, 3),
    steamJPerKg: cubic(place, 4),
  };
}

/** Water below its boiling point in a vented boiler: the pressure is the atmosphere's. */
export function coldWaterAt(temperatureK: number): { volumeM3PerKg: number; energyJPerKg: number } {
  const place = placeOf(temperatureK);
  return { volumeM3PerKg: cubic(place, 5), energyJPerKg: cubic(place, 6) };
}

/** In rows of the table. */
function placeOf(temperatureK: number): number {
  if (!(temperatureK >= LOWEST_K && temperatureK <= HIGHEST_K)) {
    throw new RangeError(`steam table: ${temperatureK} K, permitted ${LOWEST_K} to ${HIGHEST_K} K`);
  }
  return (temperatureK - LOWEST_K) / STEP_K;
}

/** Lagrange's cubic through the four nearest rows. */
function cubic(place: number, column: number): number {
  const first = Math.min(Math.max(Math.floor(place) - 1, 0), table.length / COLUMNS - 4);
  const x = place - first;
  const at = first * COLUMNS + column;
  return (
    (-((x - 1) * (x - 2) * (x - 3)) / 6) * (table[at] ?? Number.NaN) +
    ((x * (x - 2) * (x - 3)) / 2) * (table[at + COLUMNS] ?? Number.NaN) -
    ((x * (x - 1) * (x - 3)) / 2) * (table[at + 2 * COLUMNS] ?? Number.NaN) +
    ((x * (x - 1) * (x - 2)) / 6) * (table[at + 3 * COLUMNS] ?? Number.NaN)
  );
}
