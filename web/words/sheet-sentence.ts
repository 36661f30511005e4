import type { Report } from "../../src/analysis/report-schema.ts";
import { perhapsNothing, toldFromNothing } from "../../src/analysis/words/told-from-nothing.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { type Form, figureInSentence } from "./figure-text.ts";
import { spanInWords } from "./time.ts";
import { valveDecimals } from "./valve-decimals.ts";

/** The test sheet's first sentences: what the steaming came to, in plain words. */
export function sheetSentence(report: Report): string {
  const sentences = [
    runningSentence(report),
    coolingSentence(report),
    holdSentence(report),
    valveSentence(report),
    efficiencySentence(report),
    pumpSentence(report),
  ].filter((sentence) => sentence !== null);
  return sentences.length > 0 ? sentences.slice(0, 3).join(" ") : nothingYet(report);
}

const say = (figure: Reported | undefined, form?: Form) =>
  figure === undefined ? null : figureInSentence(figure, form);

export function runningSentence(report: Report): string | null {
  const minute = say(report.perMinuteRunning?.water);
  const lap = say(report.perLap?.water);
  const drawn = say(report.totals?.waterDrawn);
  if (minute !== null) {
    return lap === null
      ? `Running, she drew ${minute} of water a minute.`
      : `Running, she drew ${minute} of water a minute and ${lap} a lap.`;
  }
  if (drawn !== null && report.totals !== null && report.totals.runningS > 0) {
    return `She drew ${drawn} of water in all, running for ${spanInWords(report.totals.runningS)}.`;
  }
  return null;
}

function coolingSentence({ cooling }: Report): string | null {
  const loss = say(cooling?.lossAtWorkingPressure);
  if (loss === null) return null;
  return `Shut in at working pressure she loses ${loss} through her surface${leakClause(cooling?.leak)}.`;
}

function leakClause(leak: Reported | undefined): string {
  const said = say(leak);
  if (leak === undefined || leak.value === null || said === null) return "";
  return `, and leaks ${toldFromNothing(leak) ? said : perhapsNothing(leak, say)}`;
}

function holdSentence({ coldHold }: Report): string | null {
  const leak = say(coldHold?.leak);
  if (coldHold === null || leak === null) return null;
  return coldHold.temperatureCouldExplain === true
    ? `Full and cold, the fall stands for ${leak} at working pressure, which a drift of temperature alone could explain.`
    : `Full and cold, she loses ${toldFromNothing(coldHold.leak) ? leak : perhapsNothing(coldHold.leak, say)} at working pressure.`;
}

function valveSentence({ safetyValve }: Report): string | null {
  if (safetyValve === null) return null;
  const sayPressure = (figure: Reported) => figureInSentence(figure, "as-is", valveDecimals(safetyValve));
  const lift = sayPressure(safetyValve.lift);
  const reseat = sayPressure(safetyValve.reseat);
  if (lift === null) {
    const highest = sayPressure(safetyValve.highest);
    return highest === null ? null : `By the readings the pressure came to ${highest} at its highest.`;
  }
  return `The safety valve lifted at ${lift}${reseat === null ? "." : ` and reseated at ${reseat}.`}`;
}

function efficiencySentence({ heat }: Report): string | null {
  const efficiency = say(heat?.efficiency, "per-cent");
  return efficiency === null ? null : `Of the fuel's heat, ${efficiency} went into the water and steam.`;
}

function pumpSentence({ pump }: Report): string | null {
  if (pump === null || pump.keepsUp === null) return null;
  return pump.keepsUp ? "The axle pump kept up." : "The axle pump did not keep up.";
}

function nothingYet({ totals }: Report): string {
  if (totals === null) return "Nothing can be reckoned yet: there are no readings of the water or the fire.";
  return totals.waterDrawn.value === null
    ? `The water drawn cannot be reckoned yet: ${totals.waterDrawn.why}.`
    : `${figureInSentence(totals.waterDrawn) ?? ""} of water left the boiler in all.`;
}
