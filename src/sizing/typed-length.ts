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

const inReach = (ratio: number): number | null => (ratio > 0 && ratio <= 1 ? ratio : null);

/** A length as it may be typed: a number is mm; a text bears its unit. */
export type TypedLength = number | string;

/**
 * A typed length in mm: "12.5" or "12.5 mm"; `1 1/2 in` or `1.5"` of the model; feet, with or without inches, of the
 * full size ("9 ft", "7 ft 6 in", `7' 6 1/2"`) at the scale.
 * @returns null where it is no length
 */
export function lengthMm(typed: TypedLength, scale: number): number | null {
  if (typeof typed === "number") return Number.isFinite(typed) ? typed : null;
  const words = typed
    .trim()
    .toLowerCase()
    .replace(",", ".")
    .replaceAll("\u2032", "'")
    .replaceAll("\u2033", '"');
  const negative = /^[-\u2212]/.test(words);
  const found = sizeMm(words.replace(/^[-\u2212]\s*/, ""), scale);
  return found === null || !negative ? found : -found;
}

function sizeMm(words: string, scale: number): number | null {
  const feet = /^(.+?)\s*(?:feet|foot|ft|')\s*(?:(.+?)\s*(?:inches|inch|in|")?)?$/.exec(words);
  if (feet !== null) {
    const whole = quantity(feet[1] ?? "");
    const inches = feet[2] === undefined ? 0 : quantity(feet[2]);
    return whole === null || inches === null ? null : (whole * MM_PER_FOOT + mmFromInches(inches)) * scale;
  }
  const inches = /^(.+?)\s*(?:inches|inch|in|")$/.exec(words);
  if (inches !== null) {
    const count = quantity(inches[1] ?? "");
    return count === null ? null : mmFromInches(count);
  }
  return quantity(words.replace(/\s*mm$/, ""));
}

/** "3", "2.5", "3/4" or "1 3/4"; null where it is none. */
function quantity(words: string): number | null {
  const parts = /^(?:(\d+(?:\.\d+)?|\.\d+))?(?:(?:^|[\s-]+)(\d+)\s*\/\s*([1-9]\d*))?$/.exec(words.trim());
  if (parts === null || (parts[1] === undefined && parts[2] === undefined)) return null;
  return Number(parts[1] ?? 0) + (parts[2] === undefined ? 0 : Number(parts[2]) / Number(parts[3]));
}
