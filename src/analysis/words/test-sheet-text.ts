import type { Locomotive } from "../../logbook/locomotive.ts";
import type { SteamingHead } from "../../logbook/steaming.ts";
import { clock } from "../../quantity/clock.ts";
import type { Reported } from "../../quantity/reported.ts";
import type { Report } from "../report-schema.ts";
import { dripSentence } from "./drip-meaning.ts";
import { missingSentence } from "./engine-meaning.ts";
import { figureInWords, reasonInShort } from "./figure-words.ts";
import { heatSentence } from "./heat-meaning.ts";
import { holdSentence } from "./hold-meaning.ts";
import { NOTHING_BESIDE, type Particulars } from "./particulars.ts";
import { pumpSentence } from "./pump-meaning.ts";
import { CAUTIONS, wrapped } from "./sheet-foot.ts";
import { leakSentence, lossSentence } from "./shut-in-meaning.ts";
import { pressuresOf, riseSaid, valveSentences } from "./valve-meaning.ts";

/**
 * A test sheet to read in a terminal. Ranges hold the truth 95 times in 100.
 * @param beside what is told that is no part of the report
 */
export function testSheetText(
  report: Report,
  steaming: SteamingHead,
  locomotive: Locomotive,
  { held, burntForS, pumpTimesDrawn }: Particulars = NOTHING_BESIDE,
): string {
  const lines: string[] = [];
  const title = `${locomotive.name}, ${steaming.startedAt}${steaming.title === undefined ? "" : `: ${steaming.title}`}`;
  const row = (name: string, words: string) => lines.push(`  ${name.padEnd(34)} ${words}`);
  let whyBefore: string | null = null;
  const figure = (
    name: string,
    value: Reported | undefined,
    unit: string,
    factor = 1,
    beside: readonly Reported[] = [],
  ) => {
    if (value === undefined) return;
    const why = value.value === null ? value.why : null;
    row(
      name,
      why !== null && why === whyBefore
        ? "not to be had, as above"
        : figureInWords(value, unit, factor, beside),
    );
    whyBefore = why;
  };
  const section = (name: string) => {
    whyBefore = null;
    lines.push("", name);
  };
  const meaning = (...sentences: (string | null)[]) => {
    const said = sentences.filter((sentence) => sentence !== null).join(" ");
    if (said !== "") lines.push(...wrapped([said], 106).map((line) => `  ${line}`));
  };
  lines.push(title, "=".repeat(title.length), `purpose ${steaming.purpose}, steaming ${report.steamingId}`);

  section("Phases");
  if (report.phases.length === 0)
    row("none", "nothing recorded tells when she was raising steam, standing or running");
  for (const phase of report.phases) {
    const pressure = phase.meanPressureBarG === null ? "" : `, mean ${phase.meanPressureBarG.toFixed(2)} bar`;
    const laps = phase.laps > 0 ? `, ${phase.laps} ${phase.laps === 1 ? "lap" : "laps"}` : "";
    row(
      `${phase.name} ${clock(phase.fromS)} to ${clock(phase.toS)}${phase.inferred ? " (inferred)" : ""}`,
      `${rateInShort(phase.steamingRate)}${pressure}${laps}`,
    );
  }

  const { totals, raising, heat } = report;
  if (totals !== null) {
    section("In all");
    row(
      "water read from, to",
      totals.fromS === null || totals.toS === null
        ? "not told by the readings"
        : `${clock(totals.fromS)}, ${clock(totals.toS)}`,
    );
    figure("water drawn", totals.waterDrawn, "g");
    figure("feed", totals.feed, "g");
    figure("fuel burnt", totals.fuelBurnt, "g");
    row("laps", String(totals.laps));
    if (totals.distanceM !== null) row("distance", `${totals.distanceM.toFixed(0)} m`);
    else if (totals.laps > 0) row("distance", "not to be had: the length of a lap was not recorded");
    else if (totals.runningS > 0) row("distance", "not told by the entries");
    row("in steam", totals.inSteamS === null ? "no pressure was read" : clock(totals.inSteamS));
    row(
      "running",
      totals.laps > 0 && totals.runningS === 0 ? "not told by the entries" : clock(totals.runningS),
    );
  }
  if (report.perLap !== null || report.per100m !== null || report.perMinuteRunning !== null) {
    section("While running");
    figure("water a lap", report.perLap?.water, "g");
    figure("fuel a lap", report.perLap?.fuel, "g");
    figure("water for 100 m", report.per100m?.water, "g");
    figure("water a minute", report.perMinuteRunning?.water, "g");
  }
  if (raising !== null) {
    section("Raising steam");
    row(
      "to first steam",
      raising.toFirstSteamS === null ? "not told by the readings" : clock(raising.toFirstSteamS),
    );
    row(
      "to working pressure",
      raising.toWorkingPressureS === null ? "no reading shows it" : clock(raising.toWorkingPressureS),
    );
    figure("power into boiler and water", raising.power, "W");
  }
  if (heat !== null) {
    section("Heat");
    figure("efficiency of the boiler", heat.efficiency, "%", 100);
    figure("evaporation, water to fuel", heat.evaporationRatio, "g/g");
    figure("factor of evaporation", heat.factorOfEvaporation, "");
    figure("from and at 100 °C", heat.equivalentEvaporation, "g/g");
    meaning(
      heatSentence(report, {
        perCent: (share) => bare(share, "%", 100),
        power: (power) => bare(power, "W"),
      }),
    );
  }
  const { forecast } = report;
  if (forecast !== null) {
    section(`At ${clock(forecast.atS)}, if she goes on like this and nothing is fed (look at the glass)`);
    figure("water above the lowest level", forecast.waterAboveLowest, "g");
    figure("to the lowest level", forecast.minutesToLowest, "min");
    figure("laps to the lowest level", forecast.lapsToLowest, "");
  }
  if (report.cooling !== null) {
    section("Shut in hot, at working pressure");
    figure("heat lost through the surface", report.cooling.lossAtWorkingPressure, "W");
    figure("leak of all that is shut", report.cooling.leak, "g/min");
    meaning(
      lossSentence(
        report,
        locomotive,
        (loss) => bare(loss, "W"),
        `${locomotive.workingPressureBarG} bar`,
        burntForS,
      ),
      leakSentence(report.cooling, (leak) => bare(leak, "g/min")),
    );
  }
  if (report.coldHold !== null) {
    section("Cold hold");
    if (held !== null) {
      const { fromS, toS, meanBar, fromBar, toBar, waterC } = held;
      const bar = (value: number) => value.toFixed(2);
      row(
        `held ${clock(fromS)} to ${clock(toS)}`,
        `${clock(toS - fromS)} at ${bar(meanBar)} bar in the mean, from ${bar(fromBar)} to ${bar(toBar)}`,
      );
      row(
        "temperature of the water",
        waterC === null
          ? "not read at both ends"
          : `${waterC.from.toFixed(1)} °C, then ${waterC.to.toFixed(1)} °C`,
      );
    }
    figure("to raise the pressure", report.coldHold.compliance, "ml/bar");
    figure("leak at working pressure", report.coldHold.leak, "ml/min");
    figure("  as a round hole of", held?.equivalentHole, "mm");
    meaning(holdSentence(report.coldHold, { leak: (leak) => bare(leak, "ml/min") }));
  }
  if (report.safetyValve !== null) {
    section("Safety valve");
    const pressures = pressuresOf(report.safetyValve);
    figure("lifts at", report.safetyValve.lift, "bar", 1, pressures);
    figure("reseats at", report.safetyValve.reseat, "bar", 1, pressures);
    figure("highest pressure", report.safetyValve.highest, "bar", 1, pressures);
    const rise = riseSaid(report.safetyValve);
    figure(rise.name, rise.figure, "%", 100);
    meaning(
      valveSentences(report.safetyValve, locomotive.workingPressureBarG, {
        pressure: (value) => bare(value, "bar", 1, pressures),
        perCent: (value) => bare(value, "%", 100),
      }),
    );
  }
  if (report.leaks !== null) {
    section("Drips, at working pressure");
    for (const drip of report.leaks) {
      const name = locomotive.fittings.find((fitting) => fitting.id === drip.fitting)?.name ?? drip.fitting;
      figure(`${name} at ${clock(drip.atS)}`, drip.rate, "g/min");
      figure("  as a round hole of", drip.equivalentHole, "mm");
    }
    const rate = (drip: Reported) => bare(drip, "g/min");
    const hole = (drip: Reported) => bare(drip, "mm");
    meaning(dripSentence(report.leaks, locomotive, { rate, bareRate: rate, hole }));
  }
  if (report.pump !== null) {
    section("Axle pump");
    figure("delivered a turn of the wheel", report.pump.perRevolution, "ml");
    figure("of what the ram sweeps", report.pump.volumetricEfficiency, "%", 100);
    if (pumpTimesDrawn !== null) figure("of what she draws, by-pass shut", pumpTimesDrawn, "times");
    const { keepsUp } = report.pump;
    row("keeps up", keepsUp === null ? "not told apart" : keepsUp ? "yes" : "no");
    meaning(
      pumpSentence(report.pump, pumpTimesDrawn, {
        turn: (turn) => bare(turn, "ml"),
        perCent: (share) => bare(share, "%", 100),
        times: (times) => bare(times, ""),
      }),
    );
  }
  if (report.engine !== null) {
    section("Engine");
    figure("dry steam the cylinders ask for", report.engine.dryDemand, "mg a turn", 1000);
    figure("missing quantity", report.engine.missingQuantity, "%", 100);
    figure("overall efficiency", report.engine.overallEfficiency, "%", 100);
    meaning(missingSentence(report.engine, (share) => bare(share, "%", 100)));
  }
  if (report.warnings.length > 0) {
    section("To look at again");
    for (const warning of report.warnings)
      lines.push(
        `  ! ${warning.text}${warning.entries.length > 0 ? ` [${warning.entries.join(", ")}]` : ""}`,
      );
  }
  lines.push("", "In brackets: the range that holds the truth 95 times in 100.", ...CAUTIONS);
  return lines.join("\n");
}

/** The rate of a phase, or why there is none: what would mend it is left to the sheet on the screen. */
const rateInShort = (rate: Reported): string =>
  rate.value === null ? `no rate: ${reasonInShort(rate.why)}` : figureInWords(rate, "g/min");

/** A figure for a sentence, without the range that stands above it; null where there is none. */
const bare = (figure: Reported, unit: string, factor = 1, beside: readonly Reported[] = []): string | null =>
  figure.value === null ? null : figureInWords(figure, unit, factor, beside).replace(/ \(.*\)/, "");
