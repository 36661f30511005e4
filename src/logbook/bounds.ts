import { z } from "zod";

/** Building blocks of the logbook schemas: every number finite and within a range that a slip of the keys would leave. */

export const identifier = z
  .string()
  .min(1)
  .max(128)
  .regex(/^[^\p{Cc}/\\]+$/u, "an identifier without slashes or control characters");

export const words = z.string().max(4000);
export const shortWords = z.string().min(1).max(200);

export const between = (lowest: number, highest: number) => z.number().min(lowest).max(highest);
export const positive = (highest: number) => z.number().gt(0).max(highest);
export const notNegative = (highest: number) => between(0, highest);
export const wholeCount = (highest: number) => z.int().min(0).max(highest);

/** A moment with its offset from UTC (ISO 8601 / RFC 3339). */
export const moment = z.iso.datetime({ offset: true });

export const gaugePressureBar = between(-1, 150);
export const celsius = between(-60, 1500);
export const secondsSinceStart = between(-7 * 86_400, 366 * 86_400);
/** Volumes and masses reach from a 60 ml spirit boiler to a full-size trial of a day. */
export const millilitres = notNegative(1e9);
export const grams = notNegative(1e9);
export const millimetres = between(-1e5, 1e5);
export const lengthMm = positive(1e5);
