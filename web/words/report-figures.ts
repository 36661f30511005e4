import type { Report } from "../../src/analysis/report-schema.ts";
import { NOTHING_BESIDE, type Particulars } from "../../src/analysis/words/particulars.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { capital } from "./capital.ts";
import { counted } from "./counted.ts";
import type { FigureLine } from "./figure-line.ts";
import {
  dripMeaning,
  heatMeaning,
  raisingMeaning,
  shutInMeaning,
  valveMeaning,
  wholeEngineMeaning,
} from "./meaning.ts";
import { fuelNames, phaseNames } from "./names.ts";
import {
  coldHold,
  coolingLines,
  engineLines,
  forecast,
  heatLines,
  leakLines,
  pump,
  valveLines,
} from "./special-figures.ts";
import { clockOf, spanInWords } from "./time.ts";

export interface FigureGroup {
  title: string;
  /** said above the lines */
  note?: string;
  lines: FigureLine[];
}

/** The report's figures in the order in which an owner asks for them; sections that nothing touched are left out. */
export function reportFigures(
  report: Report,
  locomotive: Locomotive,
  { held, burntForS, pumpTimesDrawn }: Particulars = NOTHING_BESIDE,
): FigureGroup[] {
  return [
    { title: "What it came to", lines: mainLines(report, locomotive) },
    { title: "In all", lines: totalLines(report, locomotive) },
    { title: "Raising steam", ...raising(report) },
    { title: "Steaming rate, phase by phase", lines: phaseLines(report) },
    { title: "Fire and boiler", ...noted(heatMeaning(report)), lines: heatLines(report) },
    {
      title: "Shut in",
      ...noted(shutInMeaning(report, locomotive, burntForS)),
      lines: coolingLines(report),
    },
    { title: "Hydraulic test", ...coldHold(report, held) },
    { title: "Safety valve", ...noted(valveMeaning(report, locomotive)), lines: valveLines(report) },
    { title: "Axle pump", ...pump(report, pumpTimesDrawn) },
    { title: "Engine", ...noted(wholeEngineMeaning(report)), lines: engineLines(report) },
    {
      title: "Leaks, at working pressure",
      ...noted(dripMeaning(report, locomotive)),
      lines: leakLines(report, locomotive),
    },
    { title: "Water left at the last entry", ...forecast(report) },
  ].filter((group) => group.lines.length > 0);
}

const noted = (note: string | null): { note?: string } => (note === null ? {} : { note });

function mainLines(report: Report, locomotive: Locomotive): FigureLine[] {
  const lines: FigureLine[] = [];
  if (report.perMinuteRunning !== null) {
    const laps =
      report.totals === null || report.totals.laps === 0 ? "" : `${counted(report.totals.laps, "lap")} in `;
    const running =
      report.totals === null || report.totals.runningS === 0
        ? ""
        : `${laps}${spanInWords(report.totals.runningS)}`;
    lines.push({
      key: "perMinuteRunning.water",
      name: "Water a minute, running",
      ...(running === "" ? {} : { note: running }),
      figure: report.perMinuteRunning.water,
    });
  }
  if (report.perLap !== null) {
    const fuel = fuelNames[locomotive.fuel.kind];
    lines.push({ key: "perLap.water", name: "Water a lap", figure: report.perLap.water });
    lines.push({ key: "perLap.fuel", name: "Fuel a lap", note: fuel, figure: report.perLap.fuel });
  }
  if (report.per100m !== null) {
    lines.push({ key: "per100m.water", name: "Water for 100 m", figure: report.per100m.water });
  }
  if (report.heat !== null) {
    const { efficiency } = report.heat;
    lines.push({ key: "heat.efficiency", name: "Boiler efficiency", figure: efficiency, form: "per-cent" });
  }
  return lines;
}

function phaseLine(report: Report, phase: Report["phases"][number]): FigureLine {
  const laps = phase.laps > 0 ? `${phase.laps} ${phase.laps === 1 ? "lap" : "laps"}, ` : "";
  return {
    key: `phases.${report.phases.indexOf(phase)}.steamingRate`,
    name: capital(phaseNames[phase.name]),
    note: `${laps}${spanInWords(phase.toS - phase.fromS)} from ${clockOf(phase.fromS)}`,
    figure: phase.steamingRate,
  };
}

const phaseLines = (report: Report): FigureLine[] => report.phases.map((phase) => phaseLine(report, phase));

function totalLines({ totals }: Report, locomotive: Locomotive): FigureLine[] {
  if (totals === null) return [];
  const { fromS, toS, waterDrawn, feed, fuelBurnt } = totals;
  const span = fromS === null || toS === null ? {} : { note: `from ${clockOf(fromS)} to ${clockOf(toS)}` };
  return [
    { key: "totals.waterDrawn", name: "Water drawn", ...span, figure: waterDrawn },
    { key: "totals.feed", name: "Fed", figure: feed },
    { key: "totals.fuelBurnt", name: "Fuel burnt", note: fuelNames[locomotive.fuel.kind], figure: fuelBurnt },
  ];
}

function raising(report: Report): { note?: string; lines: FigureLine[] } {
  if (report.raising === null) return { lines: [] };
  const line = { key: "raising.power", name: "Power into water and metal", figure: report.raising.power };
  return { ...noted(raisingMeaning(report)), lines: [line] };
}
