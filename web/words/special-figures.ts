import type { Report } from "../../src/analysis/report-schema.ts";
import type { HoldParticulars } from "../../src/analysis/words/particulars.ts";
import { riseSaid } from "../../src/analysis/words/valve-meaning.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { capital } from "./capital.ts";
import type { FigureLine } from "./figure-line.ts";
import { holdMeaning, pumpMeaning } from "./meaning.ts";
import { clockOf } from "./time.ts";
import { valveDecimals } from "./valve-decimals.ts";

/** The sections of a report that only some steamings touch; each is empty where this one did not. */

/** The discharge coefficient is 1. */
const HOLE = "diameter";

export function heatLines({ heat }: Report): FigureLine[] {
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

export function coolingLines({ cooling }: Report): FigureLine[] {
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

export function coldHold(
  report: Report,
  held: HoldParticulars | null,
): { note?: string; lines: FigureLine[] } {
  const { coldHold: hold } = report;
  if (hold === null) return { lines: [] };
  const note = holdMeaning(report, held);
  return {
    ...(note === null ? {} : { note }),
    lines: [
      { key: "coldHold.compliance", name: "Water for each bar", figure: hold.compliance },
      { key: "coldHold.leak", name: "Leak", note: "at working pressure", figure: hold.leak },
      ...(held === null
        ? []
        : [
            {
              key: "held.equivalentHole",
              name: "As a round hole of",
              note: HOLE,
              figure: held.equivalentHole,
            },
          ]),
    ],
  };
}

export function valveLines({ safetyValve: valve }: Report): FigureLine[] {
  if (valve === null) return [];
  const decimals = valveDecimals(valve);
  const { name, figure } = riseSaid(valve);
  return [
    { key: "safetyValve.lift", name: "Lifts at", figure: valve.lift, decimals },
    { key: "safetyValve.reseat", name: "Reseats at", figure: valve.reseat, decimals },
    { key: "safetyValve.highest", name: "Highest pressure", figure: valve.highest, decimals },
    { key: "safetyValve.rise", name: `${capital(name)} by`, figure, form: "per-cent" },
  ];
}

export function pump(report: Report, timesDrawn: Reported | null): { note?: string; lines: FigureLine[] } {
  const { pump: axlePump } = report;
  if (axlePump === null) return { lines: [] };
  const note = pumpMeaning(report, timesDrawn);
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
      ...(timesDrawn === null
        ? []
        : [
            {
              key: "pumpTimesDrawn",
              name: "Times what she draws",
              note: "with the by-pass shut",
              figure: timesDrawn,
            },
          ]),
    ],
  };
}

export function engineLines({ engine }: Report): FigureLine[] {
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

export function leakLines(report: Report, locomotive: Locomotive): FigureLine[] {
  return (report.leaks ?? []).flatMap((leak, i) => {
    const name = locomotive.fittings.find((fitting) => fitting.id === leak.fitting)?.name ?? leak.fitting;
    return [
      { key: `leaks.${i}.rate`, name, note: `caught at ${clockOf(leak.atS)}`, figure: leak.rate },
      {
        key: `leaks.${i}.equivalentHole`,
        name: "As a round hole of",
        note: HOLE,
        figure: leak.equivalentHole,
      },
    ];
  });
}

export function forecast(report: Report): { note?: string; lines: FigureLine[] } {
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
