import type { Report } from "../../src/analysis/report-schema.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import type { Form } from "./figure-text.ts";
import { fuelNames, phaseNames } from "./names.ts";
import { clockOf, spanInWords } from "./time.ts";

/** One line of the test sheet's figures. */
export interface FigureLine {
  /** its place in the report, such as "perLap.water" */
  key: string;
  name: string;
  note?: string;
  figure: Reported;
  form?: Form;
}
export interface FigureGroup {
  title: string;
  /** said above the lines */
  note?: string;
  lines: FigureLine[];
}

/** The report's figures in the order in which an owner asks for them; sections that nothing touched are left out. */
export function reportFigures(report: Report, locomotive: Locomotive): FigureGroup[] {
  return [
    { title: "What it came to", lines: mainLines(report, locomotive) },
    { title: "In all", lines: totalLines(report, locomotive) },
    { title: "Raising steam", ...raising(report) },
    { title: "Steaming rate, phase by phase", lines: phaseLines(report) },
    { title: "Fire and boiler", lines: heatLines(report) },
    { title: "Shut in", lines: coolingLines(report) },
    { title: "Hydraulic test", ...coldHold(report) },
    { title: "Safety valve", lines: valveLines(report) },
    { title: "Axle pump", ...pump(report) },
    { title: "Engine", lines: engineLines(report) },
    { title: "Leaks, at working pressure", lines: leakLines(report, locomotive) },
    { title: "Water left at the last entry", ...forecast(report) },
  ].filter((group) => group.lines.length > 0);
}

function mainLines(report: Report, locomotive: Locomotive): FigureLine[] {
  const lines: FigureLine[] = [];
  const main = mainPhase(report);
  if (main !== null)
    lines.push({ ...phaseLine(report, main), name: `Steaming rate, ${phaseNames[main.name]}` });
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

/** The longest running phase stands for the steaming; without one, none does. */
export function mainPhase(report: Report): Report["phases"][number] | null {
  const running = report.phases.filter((phase) => phase.name === "running");
  return running.sort((a, b) => b.toS - b.fromS - (a.toS - a.fromS))[0] ?? null;
}

function phaseLine(report: Report, phase: Report["phases"][number]): FigureLine {
  const laps = phase.laps > 0 ? `${phase.laps} ${phase.laps === 1 ? "lap" : "laps"} in ` : "";
  return {
    key: `phases.${report.phases.indexOf(phase)}.steamingRate`,
    name: phaseNames[phase.name].replace(/^./, (letter) => letter.toUpperCase()),
    note: `${laps}${spanInWords(phase.toS - phase.fromS)} from ${clockOf(phase.fromS)}`,
    figure: phase.steamingRate,
  };
}

const phaseLines = (report: Report): FigureLine[] =>
  report.phases.filter((phase) => phase !== mainPhase(report)).map((phase) => phaseLine(report, phase));

function totalLines({ totals, perMinuteRunning }: Report, locomotive: Locomotive): FigureLine[] {
  if (totals === null) return [];
  const { fromS, toS, waterDrawn, feed, fuelBurnt } = totals;
  const span = fromS === null || toS === null ? {} : { note: `from ${clockOf(fromS)} to ${clockOf(toS)}` };
  return [
    { key: "totals.waterDrawn", name: "Water drawn", ...span, figure: waterDrawn },
    ...(perMinuteRunning === null
      ? []
      : [
          {
            key: "perMinuteRunning.water",
            name: "Water a minute, all running",
            figure: perMinuteRunning.water,
          },
        ]),
    { key: "totals.feed", name: "Fed", figure: feed },
    { key: "totals.fuelBurnt", name: "Fuel burnt", note: fuelNames[locomotive.fuel.kind], figure: fuelBurnt },
  ];
}

function raising(report: Report): { note?: string; lines: FigureLine[] } {
  if (report.raising === null) return { lines: [] };
  const { toFirstSteamS, toWorkingPressureS, power } = report.raising;
  const times = [
    toFirstSteamS === null ? null : `First steam ${clockOf(toFirstSteamS)} after lighting up`,
    toWorkingPressureS === null ? null : `working pressure at ${clockOf(toWorkingPressureS)}`,
  ].filter((part) => part !== null);
  return {
    ...(times.length > 0 ? { note: `${times.join(", ")}.` } : {}),
    lines: [{ key: "raising.power", name: "Power into water and metal", figure: power }],
  };
}

function heatLines({ heat }: Report): FigureLine[] {
  if (heat === null) return [];
  return [
    {
      key: "heat.evaporationRatio",
      name: "Water evaporated by a gram of fuel",
      figure: heat.evaporationRatio,
    },
    { key: "heat.factorOfEvaporation", name: "Factor of evaporation", figure: heat.factorOfEvaporation },
    {
      key: "heat.equivalentEvaporation",
      name: "Equivalent evaporation",
      note: "from and at 100 °C",
      figure: heat.equivalentEvaporation,
    },
  ];
}

function coolingLines({ cooling }: Report): FigureLine[] {
  if (cooling === null) return [];
  return [
    {
      key: "cooling.lossAtWorkingPressure",
      name: "Standing loss",
      note: "through the surface, at working pressure",
      figure: cooling.lossAtWorkingPressure,
    },
    { key: "cooling.leak", name: "Leak", note: "at working pressure", figure: cooling.leak },
  ];
}

function coldHold({ coldHold: hold }: Report): { note?: string; lines: FigureLine[] } {
  if (hold === null) return { lines: [] };
  const notes = {
    true: "A drift of the water's temperature alone could explain the fall.",
    false: "The drift of the water's temperature does not explain the fall.",
    null: "Without the water's temperature at both ends, a tenth of a degree could imitate or hide a leak.",
  };
  return {
    note: notes[`${hold.temperatureCouldExplain}`],
    lines: [
      { key: "coldHold.compliance", name: "Water for each bar", figure: hold.compliance },
      { key: "coldHold.leak", name: "Leak", figure: hold.leak },
    ],
  };
}

function valveLines({ safetyValve: valve }: Report): FigureLine[] {
  if (valve === null) return [];
  return [
    { key: "safetyValve.lift", name: "Lifts at", figure: valve.lift },
    { key: "safetyValve.reseat", name: "Reseats at", figure: valve.reseat },
    { key: "safetyValve.highest", name: "Highest pressure", figure: valve.highest },
    { key: "safetyValve.rise", name: "Above working pressure by", figure: valve.rise, form: "per-cent" },
  ];
}

function pump({ pump: axlePump }: Report): { note?: string; lines: FigureLine[] } {
  if (axlePump === null) return { lines: [] };
  const notes = {
    true: "The pump keeps up with what she draws.",
    false: "The pump does not keep up with what she draws.",
    null: null,
  };
  const note = notes[`${axlePump.keepsUp}`];
  return {
    ...(note === null ? {} : { note }),
    lines: [
      { key: "pump.perRevolution", name: "Delivered a turn of the wheel", figure: axlePump.perRevolution },
      {
        key: "pump.volumetricEfficiency",
        name: "Of what the ram sweeps",
        figure: axlePump.volumetricEfficiency,
        form: "per-cent",
      },
    ],
  };
}

function engineLines({ engine }: Report): FigureLine[] {
  if (engine === null) return [];
  return [
    { key: "engine.dryDemand", name: "Dry steam the cylinders ask for", figure: engine.dryDemand },
    {
      key: "engine.missingQuantity",
      name: "Missing quantity",
      note: "condensed in the cylinders or leaked",
      figure: engine.missingQuantity,
      form: "per-cent",
    },
    {
      key: "engine.overallEfficiency",
      name: "Overall efficiency",
      note: "work at the drawbar from the fuel's heat",
      figure: engine.overallEfficiency,
      form: "per-cent",
    },
  ];
}

function leakLines(report: Report, locomotive: Locomotive): FigureLine[] {
  return (report.leaks ?? []).flatMap((leak, i) => {
    const name = locomotive.fittings.find((fitting) => fitting.id === leak.fitting)?.name ?? leak.fitting;
    return [
      { key: `leaks.${i}.rate`, name, note: `caught at ${clockOf(leak.atS)}`, figure: leak.rate },
      {
        key: `leaks.${i}.equivalentHole`,
        name: "as a round hole of",
        note: "diameter, coefficient 1",
        figure: leak.equivalentHole,
      },
    ];
  });
}

function forecast(report: Report): { note?: string; lines: FigureLine[] } {
  if (report.forecast === null) return { lines: [] };
  const { atS, waterAboveLowest, minutesToLowest, lapsToLowest } = report.forecast;
  return {
    note: `As it stood at ${clockOf(atS)}. Look at the glass: a forecast is no gauge.`,
    lines: [
      { key: "forecast.waterAboveLowest", name: "Above the lowest level", figure: waterAboveLowest },
      { key: "forecast.minutesToLowest", name: "Until the lowest level", figure: minutesToLowest },
      { key: "forecast.lapsToLowest", name: "Laps until then", figure: lapsToLowest },
    ],
  };
}
