import { z } from "zod";

/**
 * Sensor measurement lists in JSON (SenML, IETF RFC 8428): a pack of records in which base fields hold for the
 * records that follow. Section numbers below are those of the RFC.
 */

const label = z.string().max(500);
const greatestVersion = 10;

const record = z.looseObject({
  bn: label.optional().describe("base name, put before each name"),
  bt: z.number().optional().describe("base time, added to each time, s"),
  bu: label.optional().describe("base unit, for records without one"),
  bv: z.number().optional().describe("base value, added to each value"),
  bs: z.number().optional(),
  bver: z.int().min(1).optional(),
  n: label.optional().describe("name; its last word is pressureBarG, temperatureC, levelMm or massG"),
  u: label.optional(),
  v: z.number().optional(),
  vs: z.string().optional(),
  vb: z.boolean().optional(),
  vd: z.string().optional(),
  s: z.number().optional(),
  t: z.number().optional().describe("s; below 2^28 relative to now, else since 1970-01-01"),
  ut: z.number().optional(),
});

export const senmlPackSchema = z.array(record).min(1).max(1_000_000);
export type SenmlPack = z.infer<typeof senmlPackSchema>;

/** One reading with the base fields worked in (4.6). */
export interface SenmlReading {
  /** which record of the pack it came from */
  index: number;
  name: string;
  unit: string | undefined;
  value: number;
  /** s since 1970-01-01 UTC */
  unixS: number;
}

/** A record that cannot be read, or not be a reading of ours. */
export class SenmlError extends Error {
  readonly path: string;
  readonly came: string;
  readonly wanted: string;

  constructor(path: string, came: string, wanted: string) {
    super(`${path}: came ${came}; wanted ${wanted}`);
    this.path = path;
    this.came = came;
    this.wanted = wanted;
  }
}

/** Times of less than this are relative to now (4.5.3). */
const absoluteFrom = 2 ** 28;
const namePattern = /^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/;

/**
 * Resolves a pack (4.6).
 * @param nowS when it came, s since 1970-01-01 UTC
 * @throws SenmlError
 */
export function resolve(pack: SenmlPack, nowS: number): SenmlReading[] {
  const base = { name: "", time: 0, unit: undefined as string | undefined, value: 0, hasValue: false };
  const readings: SenmlReading[] = [];
  pack.forEach((item, index) => {
    refuseUnknown(item, index);
    if (item.bn !== undefined) base.name = item.bn;
    if (item.bt !== undefined) base.time = item.bt;
    if (item.bu !== undefined) base.unit = item.bu;
    if (item.bv !== undefined) {
      base.value = item.bv;
      base.hasValue = true;
    }
    const name = base.name + (item.n ?? "");
    if (!isReading(item, index, base.hasValue)) return;
    if (!namePattern.test(name)) {
      throw new SenmlError(
        `[${index}].n`,
        JSON.stringify(name),
        "a name of letters, digits and - : . / _ (4.5.1)",
      );
    }
    const time = base.time + (item.t ?? 0);
    readings.push({
      index,
      name,
      unit: item.u ?? base.unit,
      value: base.value + (item.v ?? 0),
      unixS: time >= absoluteFrom ? time : nowS + time,
    });
  });
  return readings;
}

/** Labels that end in _ must be understood, and none is; versions above ours cannot be (4.4, 12.3.2). */
function refuseUnknown(item: SenmlPack[number], index: number): void {
  const must = Object.keys(item).find((key) => key.endsWith("_"));
  if (must !== undefined) {
    throw new SenmlError(`[${index}].${must}`, "a label that must be understood", "labels of RFC 8428");
  }
  if (item.bver !== undefined && item.bver > greatestVersion) {
    throw new SenmlError(`[${index}].bver`, String(item.bver), `a version up to ${greatestVersion}`);
  }
}

/** Whether a record bears a reading, or base fields alone. */
function isReading(item: SenmlPack[number], index: number, hasBaseValue: boolean): boolean {
  for (const other of ["vs", "vb", "vd", "s"] as const) {
    if (item[other] !== undefined) {
      throw new SenmlError(`[${index}].${other}`, `a value of the kind ${other}`, "a number as v");
    }
  }
  if (item.v !== undefined) return true;
  if (item.n === undefined) return false;
  if (hasBaseValue) return true;
  throw new SenmlError(
    `[${index}].v`,
    "nothing",
    "a number; a sample that is missing is left out of the pack",
  );
}
