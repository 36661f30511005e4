import { deflateRawSync, inflateRawSync } from "node:zlib";

/**
 * A stretch of a trace as one binary block: lossless, small. A readings' decimals are few, so the values are
 * taken as whole multiples of a power of ten, the differences of neighbours written as variable-length whole
 * numbers, and the whole deflated. Values that are no such multiples are kept as they are (64-bit floats).
 *
 * Form before deflating: one byte of form (0 floats, 1 + decimals for multiples), a bit a sample for "there is
 * a reading" (the lowest bit first), then the readings.
 */

export const samplesPerBlock = 4096;
const greatestDecimals = 6;
/** so that the doubled difference of any two still is an exact whole number */
const greatestMultiple = 2 ** 50;

export interface TraceBlock {
  samples: number;
  lowest: number | null;
  highest: number | null;
  data: Buffer;
}

export function encodeBlock(values: readonly (number | null)[]): TraceBlock {
  const presence = Buffer.alloc(Math.ceil(values.length / 8));
  const readings: number[] = [];
  let lowest: number | null = null;
  let highest: number | null = null;
  values.forEach((value, index) => {
    if (value === null) return;
    presence[index >> 3] = (presence[index >> 3] ?? 0) | (1 << (index & 7));
    readings.push(value);
    if (lowest === null || value < lowest) lowest = value;
    if (highest === null || value > highest) highest = value;
  });
  const decimals = decimalsOf(readings);
  const form = Buffer.from([decimals === null ? 0 : 1 + decimals]);
  const body = decimals === null ? asFloats(readings) : asDifferences(readings, decimals);
  const data = deflateRawSync(Buffer.concat([form, presence, body]));
  return { samples: values.length, lowest, highest, data };
}

export function decodeBlock(data: Buffer, samples: number): (number | null)[] {
  const bytes = inflateRawSync(data);
  const form = bytes.readUInt8(0);
  const presence = bytes.subarray(1, 1 + Math.ceil(samples / 8));
  const body = bytes.subarray(1 + presence.length);
  const readings = form === 0 ? floatsFrom(body) : differencesFrom(body, form - 1);
  let next = 0;
  return Array.from({ length: samples }, (_, index) => {
    const present = ((presence[index >> 3] ?? 0) >> (index & 7)) & 1;
    if (present === 0) return null;
    const reading = readings[next++];
    if (reading === undefined) throw new RangeError(`a trace block of ${samples} samples ends too soon`);
    return reading;
  });
}

const exactAt = (value: number, scale: number): boolean => {
  const multiple = Math.round(value * scale);
  return Math.abs(multiple) <= greatestMultiple && multiple / scale === value && !Object.is(value, -0);
};

function decimalsOf(readings: readonly number[]): number | null {
  for (let decimals = 0; decimals <= greatestDecimals; decimals++) {
    const scale = 10 ** decimals;
    if (readings.every((value) => exactAt(value, scale))) return decimals;
  }
  return null;
}

function asFloats(readings: readonly number[]): Buffer {
  const buffer = Buffer.alloc(readings.length * 8);
  readings.forEach((value, index) => {
    buffer.writeDoubleLE(value, index * 8);
  });
  return buffer;
}

function floatsFrom(body: Buffer): number[] {
  return Array.from({ length: body.length / 8 }, (_, index) => body.readDoubleLE(index * 8));
}

function asDifferences(readings: readonly number[], decimals: number): Buffer {
  const scale = 10 ** decimals;
  const bytes: number[] = [];
  let before = 0;
  for (const value of readings) {
    const multiple = Math.round(value * scale);
    const difference = multiple - before;
    before = multiple;
    // zigzag: small differences of either sign become small numbers
    let rest = difference < 0 ? -difference * 2 - 1 : difference * 2;
    while (rest >= 128) {
      bytes.push((rest % 128) + 128);
      rest = Math.floor(rest / 128);
    }
    bytes.push(rest);
  }
  return Buffer.from(bytes);
}

function differencesFrom(body: Buffer, decimals: number): number[] {
  const scale = 10 ** decimals;
  const readings: number[] = [];
  let multiple = 0;
  let number = 0;
  let weight = 1;
  for (const byte of body) {
    number += (byte % 128) * weight;
    weight *= 128;
    if (byte >= 128) continue;
    multiple += number % 2 === 1 ? -(number + 1) / 2 : number / 2;
    readings.push(multiple / scale);
    number = 0;
    weight = 1;
  }
  return readings;
}
