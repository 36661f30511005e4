import type { MassReading } from "./mass-reading.ts";

/** Off the line between its neighbours by more than so many of its errors, a reading tells of the water and not of itself. */
const BEYOND = 4;

/**
 * What the boiler's volume and the dial do to a reading goes with the water in it, and that is known no better than it was
 * read. Taken from the reading itself, its chance error stands on both sides and speaks for such a cause: a hundred readings
 * of a glass told 1 % of the volume from nothing. So it is taken from the line between the readings beside it.
 * @param yG the readings less what was moved until then
 */
export const settled = (readings: readonly MassReading[], yG: Float64Array): MassReading[] =>
  readings.map((reading, i) => {
    const [before, after] = [readings[i - 1], readings[i + 1]];
    if (before === undefined || after === undefined) return reading;
    if ([before, reading, after].some(({ of }) => of !== "contents")) return reading;
    const [y0, y, y1] = yG.subarray(i - 1, i + 2) as unknown as [number, number, number];
    const all = after.atS - before.atS;
    const part = all > 0 ? (reading.atS - before.atS) / all : 0.5;
    const offG = y - y0 - part * (y1 - y0);
    if (Math.abs(offG) > BEYOND * reading.uGrams) return reading;
    const times = 1 - offG / reading.grams;
    return { ...reading, shared: reading.shared.map((one) => ({ ...one, uGrams: times * one.uGrams })) };
  });
