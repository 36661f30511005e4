import { mmFromInches } from "../quantity/units.ts";

const MM_PER_FOOT = mmFromInches(12);

/** Scales by their usual writing; the model's length over the prototype's. */
export const usualScales = [
  "1:32",
  "10 mm to the foot",
  "7/8 in to the foot",
  "16 mm to the foot",
  "1:19",
  "1:13.7",
  "1:12",
  "1:8",
] as const;

/** "1:32", "10 mm to the foot" or "3/4 in to the foot" as model over prototype; null where it says no scale. */
export function scaleRatio(text: string): number | null {
  const words = text.trim().toLowerCase();
  const oneTo = /^1\s*[:/]\s*(\d+(?:\.\d+)?)$/.exec(words);
  if (oneTo !== null) return inReach(1 / Number(oneTo[1]));
  const toFoot = /^(.+?)\s*(mm|in|inch|inches|")\s*(?:to the foot|\/\s*ft|per foot)$/.exec(words);
  const count = toFoot === null ? null : quantity(toFoot[1] ?? "");
  if (toFoot === null || count === null) return null;
  return inReach((toFoot[2] === "mm" ? count : mmFromInches(count)) / MM_PER_FOOT);
}

/** Smaller than this nothing raises steam (our choice); nothing is larger than full size. */
const LEAST_SCALE = 1 / 250;
const inReach = (ratio: number): number | null => (ratio >= LEAST_SCALE && ratio <= 1 ? ratio : null);

export const SCALE_WORDS = 'a scale from 1:250 to 1:1, such as "1:32" or "10 mm to the foot"';

/** A length as it may be typed: a number is mm; a text bears its unit. */
export type TypedLength = number | string;

/**
 * A typed length in mm: "12.5" or "12.5 mm"; `1 1/2 in` or `1.5"` of the model; feet, with or without inches, of the
 * full size ("9 ft", "7 ft 6 in", `7' 6 1/2"`) at the scale.
 * @returns null where it is no length
 */
export function lengthMm(typed: TypedLength, scale: number): number | null {
  const read = readLength(typed, scale);
  return typeof read === "number" ? read : null;
}

/** Longer than this nothing on an engine is that burns a few grams a lap (our choice). */
const LONGEST = { modelMm: 2000, fullSizeMm: 100 * MM_PER_FOOT };
export const LONGEST_WORDS = "2 m, or 100 ft of the full size";

/** Whether a length, which feet alone tell at the scale, is longer than anything that is built. */
export function isTooLong(typed: TypedLength): boolean {
  const mm = Math.abs(lengthMm(typed, 1) ?? 0);
  const isFullSize = mm > 0 && Math.abs(lengthMm(typed, 0.5) ?? 0) < mm;
  return mm > (isFullSize ? LONGEST.fullSizeMm : LONGEST.modelMm);
}

/** What a text or number that is no length should be instead; null where it is one. */
export function lengthWanted(typed: unknown): string | null {
  if (typeof typed !== "number" && typeof typed !== "string") return LENGTH_WORDS;
  const read = readLength(typed, 1);
  return typeof read === "number" ? null : read;
}

const LENGTH_WORDS = 'a length such as 12.5 (mm), "1/2 in" or, of the full size, "7 ft 6 in"';

/** In mm, or what is wanted instead. */
function readLength(typed: TypedLength, scale: number): number | string {
  if (typeof typed === "number") return Number.isFinite(typed) ? typed : LENGTH_WORDS;
  const words = typed
    .replace(/[\u00bc-\u00be\u2150-\u215e]/g, (sign) => ` ${sign.normalize("NFKC").replace("\u2044", "/")}`)
    .trim()
    .toLowerCase()
    .replace(",", ".")
    .replaceAll("\u2032", "'")
    .replaceAll("\u2033", '"');
  const negative = /^[-\u2212]/.test(words);
  const found = sizeMm(words.replace(/^[-\u2212]\s*/, ""), scale);
  return typeof found === "number" && negative ? -found : found;
}

const unitNames: Record<string, "mm" | "in" | "ft"> = {
  mm: "mm",
  in: "in",
  inch: "in",
  inches: "in",
  '"': "in",
  ft: "ft",
  foot: "ft",
  feet: "ft",
  "'": "ft",
};

function sizeMm(words: string, scale: number): number | string {
  const written = words.match(/[a-z]+|['"]/g) ?? [];
  const strange = written.find((unit) => !Object.hasOwn(unitNames, unit));
  if (strange !== undefined) {
    return /\d/.test(words) ? `mm, in or ft, not "${strange}": ${LENGTH_WORDS}` : LENGTH_WORDS;
  }
  const units = written.map((unit) => unitNames[unit]).join(" ");
  // split at the units: what stands before each is how many of it
  const [first = "", second = ""] = words.split(/[a-z]+|['"]/);
  switch (units) {
    case "":
    case "mm": {
      const mm = quantity(first);
      return mm === null || second.trim() !== "" ? LENGTH_WORDS : mm;
    }
    case "in": {
      const inches = quantity(first);
      return inches === null || second.trim() !== "" ? LENGTH_WORDS : mmFromInches(inches);
    }
    case "ft":
    case "ft in":
      return fullSizeMm(first, second, scale);
    default:
      return "one unit in a length; only feet and inches of the full size go together, feet first: 7 ft 6 in";
  }
}

function fullSizeMm(feetWords: string, inchWords: string, scale: number): number | string {
  const feet = quantity(feetWords);
  const inches = inchWords.trim() === "" ? 0 : quantity(inchWords);
  if (feet === null || inches === null) return LENGTH_WORDS;
  if (inches >= 12) return "fewer than 12 inches after feet, such as 7 ft 1 in";
  if (inches > 0 && !Number.isInteger(feet)) return "whole feet before inches, such as 7 ft 6 in";
  return (feet * MM_PER_FOOT + mmFromInches(inches)) * scale;
}

/** "3", "2.5", "3/4" or "1 3/4"; null where it is none. */
function quantity(words: string): number | null {
  const parts = /^(?:(\d+(?:\.\d+)?|\.\d+))?(?:(?:^|[\s-]+)(\d+)\s*\/\s*([1-9]\d*))?$/.exec(words.trim());
  if (parts === null || (parts[1] === undefined && parts[2] === undefined)) return null;
  return Number(parts[1] ?? 0) + (parts[2] === undefined ? 0 : Number(parts[2]) / Number(parts[3]));
}
