import type { Report } from "../../src/analysis/report-schema.ts";
import { missingSentence } from "../../src/analysis/words/engine-meaning.ts";
import { holdSentence } from "../../src/analysis/words/hold-meaning.ts";
import type { HoldParticulars, Particulars } from "../../src/analysis/words/particulars.ts";
import { leakSentence, lossSentence } from "../../src/analysis/words/shut-in-meaning.ts";
import { toldFromNothing } from "../../src/analysis/words/told-from-nothing.ts";
import { valveSentences } from "../../src/analysis/words/valve-meaning.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { showing, toShown } from "../preferences/shown.ts";
import { valveLimit } from "../preferences/valve-limit.ts";
import { capital, withinSentence } from "./capital.ts";
import { reading } from "./entry-words.ts";
import { type Form, figureText } from "./figure-text.ts";
import { plain } from "./number.ts";
import { clockOf, spanInWords } from "./time.ts";

/** What the figures of a steaming mean, a sentence each: for the sheet, and for paper. Null where there is nothing to say. */

/** "41 +/- 4 W": half of where it lies, 19 times in 20; with the ends where they lie unevenly. */
export function plusMinus(figure: Reported | undefined, form: Form = "as-is"): string | null {
  if (figure === undefined || figure.value === null) return null;
  const text = figureText(figure, form);
  if (text.value === null) return null;
  const unit = text.unit === "" ? "" : ` ${text.unit}`;
  if (text.interval === null) return `${text.value}${unit}`;
  const [down, up] = [figure.value - figure.lo95, figure.hi95 - figure.value];
  const even = Math.abs(up - down) < 0.1 * Math.max(up, down);
  if (!even) return `${text.value}${unit} (${text.interval})`;
  const decimals = text.value.split(".")[1]?.length ?? 0;
  const half = figureText({ ...figure, value: (up + down) / 2, u: 0, lo95: 0, hi95: up + down }, form);
  return half.value === null
    ? null
    : `${text.value} ± ${Number(half.value.replace(",", "")).toFixed(decimals)}${unit}`;
}

/** @param burntForS how long the fire burnt, s */
export const coolingMeaning = (report: Report, locomotive: Locomotive, burntForS: number): string | null =>
  lossSentence(report, locomotive, plusMinus, reading(locomotive.workingPressureBarG, "bar"), burntForS);

export const leakMeaning = ({ cooling }: Report): string | null => leakSentence(cooling, plusMinus);

export function pumpMeaning({ pump }: Report): string | null {
  if (pump === null) return null;
  const [turn, share] = [plusMinus(pump.perRevolution), plusMinus(pump.volumetricEfficiency, "per-cent")];
  const keeps =
    pump.keepsUp === null
      ? "whether it keeps up with what she draws cannot be told from these readings"
      : pump.keepsUp
        ? "it keeps up with what she draws"
        : "it does not keep up with what she draws";
  if (turn === null) return pump.keepsUp === null ? null : `Of the axle pump: ${keeps}.`;
  return `The axle pump gives ${turn} a turn, ${share} of what its ram sweeps; ${keeps}.`;
}

export const engineMeaning = ({ engine }: Report): string | null =>
  missingSentence(engine, (figure) => {
    const text = figureText(figure, "per-cent");
    return text.value === null ? null : text.interval;
  });

export function workMeaning({ engine }: Report): string | null {
  const overall = plusMinus(engine?.overallEfficiency, "per-cent");
  return overall === null ? null : `Of the fuel's heat ${overall} came out as work on the train.`;
}

export function holdMeaning({ coldHold }: Report, held: HoldParticulars | null = null): string | null {
  return coldHold === null
    ? null
    : together(heldSentence(held), holdSentence(coldHold, { leak: plusMinus, eachBar: ofEachBar }));
}

function heldSentence(held: HoldParticulars | null): string | null {
  if (held === null) return null;
  const bar = (value: number) => withDigits(value, "bar", 2);
  const celsius = (value: number) => withDigits(value, "°C", 1);
  const water =
    held.waterC === null
      ? "the water's temperature was not read at both ends"
      : `the water went from ${celsius(held.waterC.from)} to ${celsius(held.waterC.to)}`;
  return `Held for ${spanInWords(held.toS - held.fromS)} at ${bar(held.meanBar)} in the mean, from ${bar(held.fromBar)} to ${bar(held.toBar)}; ${water}.`;
}

/** So many digits of the logbook's unit; one fewer where the reader's is a smaller one. */
function withDigits(value: number, unit: string, digits: number): string {
  const as = showing(unit);
  return `${plain(toShown(value, as), as.factor > 5 ? digits - 1 : digits)} ${as.unit}`;
}

/** As millilitres for each bar, not millilitres a bar. */
const ofEachBar = (compliance: Reported): string | null =>
  plusMinus(compliance.value === null ? compliance : { ...compliance, unit: "ml" });

/** The largest of the drips caught, and the round hole that would let out as much. */
export function dripMeaning({ leaks }: Report, locomotive: Locomotive): string | null {
  const largest = (leaks ?? []).reduce<NonNullable<Report["leaks"]>[number] | null>(
    (most, leak) =>
      leak.rate.value !== null && (most === null || leak.rate.value > (most.rate.value ?? 0)) ? leak : most,
    null,
  );
  const rate = plusMinus(largest?.rate);
  if (largest === null || rate === null || largest.rate.value === null) return null;
  const name = locomotive.fittings.find((fitting) => fitting.id === largest.fitting)?.name ?? largest.fitting;
  if (!toldFromNothing(largest.rate))
    return `What dripped cannot be told from nothing: ${rate} at working pressure.`;
  const hole = plusMinus(largest.equivalentHole);
  const asHole = hole === null ? "" : `, as much as a round hole of ${hole} would let out`;
  return `${(leaks ?? []).length > 1 ? "Most dripped from" : "It dripped from"} ${theFitting(name)}: ${rate} at working pressure${asHole}.`;
}

/** A fitting within a sentence, but for one that begins with a capital of its own. */
const theFitting = (name: string): string =>
  withinSentence(name) === name ? name : `the ${withinSentence(name)}`;

/** @param ownLimit what the owner's code allows above working pressure, as a part of it */
export const valveMeaning = (
  { safetyValve }: Report,
  locomotive: Locomotive,
  ownLimit = valveLimit.value,
): string | null =>
  valveSentences(
    safetyValve,
    locomotive.workingPressureBarG,
    { pressure: plusMinus, perCent: (figure) => plusMinus(figure, "per-cent") },
    ownLimit ?? undefined,
  );

/** When there was steam, and when working pressure; null where neither is known. */
export function raisingMeaning({ raising }: Report): string | null {
  const { toFirstSteamS = null, toWorkingPressureS = null } = raising ?? {};
  const times = [
    toFirstSteamS === null ? null : `first steam ${clockOf(toFirstSteamS)}`,
    toWorkingPressureS === null ? null : `working pressure ${clockOf(toWorkingPressureS)}`,
  ].filter((part) => part !== null);
  return times.length === 0 ? null : `${capital(times.join(", "))} after lighting up.`;
}

export function heatMeaning({ heat, raising }: Report): string | null {
  const efficiency = plusMinus(heat?.efficiency, "per-cent");
  const power = plusMinus(raising?.power);
  if (efficiency === null) return null;
  return `Of the fuel's heat ${efficiency} went into water and steam${power === null ? "" : `; raising steam, ${power} went into boiler and water`}.`;
}

export const shutInMeaning = (report: Report, locomotive: Locomotive, burntForS: number): string | null =>
  together(coolingMeaning(report, locomotive, burntForS), leakMeaning(report));

export const wholeEngineMeaning = (report: Report): string | null =>
  together(engineMeaning(report), workMeaning(report));

function together(...sentences: (string | null)[]): string | null {
  const said = sentences.filter((sentence) => sentence !== null);
  return said.length === 0 ? null : said.join(" ");
}

export const NOTHING_BESIDE: Particulars = { held: null, burntForS: 0 };

/** All that there is to say. */
export const meanings = (
  report: Report,
  locomotive: Locomotive,
  { held, burntForS }: Particulars,
): string[] =>
  [
    together(raisingMeaning(report), heatMeaning(report)),
    shutInMeaning(report, locomotive, burntForS),
    dripMeaning(report, locomotive),
    holdMeaning(report, held),
    valveMeaning(report, locomotive),
    pumpMeaning(report),
    wholeEngineMeaning(report),
  ].filter((sentence) => sentence !== null);
