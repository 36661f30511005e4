import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Reported } from "../../quantity/reported.ts";
import { fuelProperties } from "../fuel/fuel-table.ts";
import type { Report } from "../report-schema.ts";
import { perhapsNothing, toldFromNothing } from "./told-from-nothing.ts";

/** How a figure is put into words by who prints it; null where it is not to be had. */
type Words = (figure: Reported) => string | null;

const ordinals = [
  "",
  "",
  "half",
  "third",
  "quarter",
  "fifth",
  "sixth",
  "seventh",
  "eighth",
  "ninth",
  "tenth",
];

/** A share in words: "about a ninth", "nearly all"; in per cent where no small fraction is near. */
export function shareInWords(share: number): string {
  if (share > 0.95) return "nearly all";
  if (share > 0.55) return `about ${Math.round(share * 20) * 5} %`;
  const n = Math.round(1 / share);
  const word = ordinals[n];
  return word === undefined
    ? `about ${Number((100 * share).toPrecision(1))} %`
    : `about ${n === 2 ? "half" : `a${n === 8 ? "n" : ""} ${word}`}`;
}

/**
 * What a boiler shut in hot loses, and what part of her fire that is; null where it is not to be had.
 * @param atPressure working pressure, in words
 * @param burntForS how long the fire burnt, s
 */
export function lossSentence(
  { cooling, totals }: Report,
  locomotive: Locomotive,
  words: Words,
  atPressure: string,
  burntForS: number,
): string | null {
  const loss = cooling?.lossAtWorkingPressure;
  if (loss === undefined || loss.value === null) return null;
  const properties = fuelProperties(locomotive.fuel);
  const burntG = totals?.fuelBurnt.value ?? null;
  const fireW =
    properties === null || burntG === null || !(burntForS > 0)
      ? null
      : (burntG * properties.lowerHeatingValueMJPerKg * 1000) / burntForS;
  const share =
    fireW === null || !(fireW > 0) || !(loss.value > 0)
      ? ""
      : `: ${shareInWords(loss.value / fireW)} of the fire`;
  return `The boiler loses ${words(loss)} standing at ${atPressure}${share}.`;
}

/**
 * Whether she leaks, shut in hot; null where it is not to be had.
 * @param bareWords words without the range
 */
export function leakSentence(cooling: Report["cooling"], words: Words, bareWords = words): string | null {
  const leak = cooling?.leak;
  if (leak === undefined || leak.value === null) return null;
  return toldFromNothing(leak)
    ? `Shut in she leaks ${words(leak)}.`
    : `Shut in she leaks ${perhapsNothing(leak, bareWords)}.`;
}
