import type { Report } from "../../src/analysis/report-schema.ts";
import { dripSentence } from "../../src/analysis/words/drip-meaning.ts";
import { missingSentence } from "../../src/analysis/words/engine-meaning.ts";
import { heatSentence } from "../../src/analysis/words/heat-meaning.ts";
import { holdSentence } from "../../src/analysis/words/hold-meaning.ts";
import type { HoldParticulars, Particulars } from "../../src/analysis/words/particulars.ts";
import { pumpSentence } from "../../src/analysis/words/pump-meaning.ts";
import { leakSentence, lossSentence } from "../../src/analysis/words/shut-in-meaning.ts";
import { valveSentences } from "../../src/analysis/words/valve-meaning.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { showing, toShown } from "../preferences/shown.ts";
import { valveLimit } from "../preferences/valve-limit.ts";
import { capital } from "./capital.ts";
import { reading } from "./entry-words.ts";
import { type Form, figureInSentence, figureText } from "./figure-text.ts";
import { plain } from "./number.ts";
import { clockOf, spanInWords } from "./time.ts";
import { valveDecimals } from "./valve-decimals.ts";

/** What the figures of a steaming mean, a sentence each: for the sheet, and for paper. Null where there is nothing to say. */

/** "41 +/- 4 W": half of where it lies, 19 times in 20; with the ends where they lie unevenly. */
export function plusMinus(
  figure: Reported | undefined,
  form: Form = "as-is",
  decimals?: number,
): string | null {
  if (figure === undefined || figure.value === null) return null;
  const text = figureText(figure, form, decimals);
  if (text.value === null) return null;
  const unit = text.unit === "" ? "" : ` ${text.unit}`;
  if (text.interval === null) return `${text.value}${unit}`;
  const [down, up] = [figure.value - figure.lo95, figure.hi95 - figure.value];
  const even = Math.abs(up - down) < 0.1 * Math.max(up, down);
  if (!even) return `${text.value}${unit} (${text.interval})`;
  const places = text.value.split(".")[1]?.length ?? 0;
  const half = figureText({ ...figure, value: (up + down) / 2, u: 0, lo95: 0, hi95: up + down }, form);
  return half.value === null
    ? null
    : `${text.value} ± ${Number(half.value.replace(",", "")).toFixed(places)}${unit}`;
}

/** @param burntForS how long the fire burnt, s */
export const coolingMeaning = (report: Report, locomotive: Locomotive, burntForS: number): string | null =>
  lossSentence(report, locomotive, plusMinus, reading(locomotive.workingPressureBarG, "bar"), burntForS);

export const leakMeaning = ({ cooling }: Report): string | null =>
  leakSentence(cooling, plusMinus, figureInSentence);

export const pumpMeaning = ({ pump }: Report, timesDrawn: Reported | null = null): string | null =>
  pumpSentence(pump, timesDrawn, { turn: plusMinus, perCent: inPerCent, times: plusMinus });

export const engineMeaning = ({ engine }: Report): string | null =>
  missingSentence(engine, inPerCent, (figure) => figureInSentence(figure, "per-cent"));

const inPerCent = (figure: Reported): string | null => plusMinus(figure, "per-cent");

export function workMeaning({ engine }: Report): string | null {
  const overall = plusMinus(engine?.overallEfficiency, "per-cent");
  return overall === null ? null : `Of the fuel's heat ${overall} came out as work on the train.`;
}

export function holdMeaning({ coldHold }: Report, held: HoldParticulars | null = null): string | null {
  return coldHold === null
    ? null
    : together(
        heldSentence(held),
        holdSentence(coldHold, { leak: plusMinus, bareLeak: figureInSentence, eachBar: ofEachBar }),
      );
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

export const dripMeaning = ({ leaks }: Report, locomotive: Locomotive): string | null =>
  dripSentence(leaks, locomotive, { rate: plusMinus, bareRate: figureInSentence, hole: plusMinus });

/** @param ownLimit what the owner's code allows above working pressure, as a part of it */
export const valveMeaning = (
  { safetyValve }: Report,
  locomotive: Locomotive,
  ownLimit = valveLimit.value,
): string | null =>
  valveSentences(
    safetyValve,
    locomotive.workingPressureBarG,
    {
      pressure: (figure) =>
        plusMinus(figure, "as-is", safetyValve === null ? undefined : valveDecimals(safetyValve)),
      perCent: inPerCent,
    },
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

export const heatMeaning = (report: Report): string | null =>
  heatSentence(report, { perCent: inPerCent, power: plusMinus });

export const shutInMeaning = (report: Report, locomotive: Locomotive, burntForS: number): string | null =>
  together(coolingMeaning(report, locomotive, burntForS), leakMeaning(report));

export const wholeEngineMeaning = (report: Report): string | null =>
  together(engineMeaning(report), workMeaning(report));

function together(...sentences: (string | null)[]): string | null {
  const said = sentences.filter((sentence) => sentence !== null);
  return said.length === 0 ? null : said.join(" ");
}

/** All that there is to say. */
export const meanings = (
  report: Report,
  locomotive: Locomotive,
  { held, burntForS, pumpTimesDrawn }: Particulars,
): string[] =>
  [
    together(raisingMeaning(report), heatMeaning(report)),
    shutInMeaning(report, locomotive, burntForS),
    dripMeaning(report, locomotive),
    holdMeaning(report, held),
    valveMeaning(report, locomotive),
    pumpMeaning(report, pumpTimesDrawn),
    wholeEngineMeaning(report),
  ].filter((sentence) => sentence !== null);
