import type { Report } from "../../src/analysis/report-schema.ts";
import type { Sheet } from "../api/shapes.ts";
import { counted } from "../words/counted.ts";
import { phaseNames } from "../words/names.ts";
import { clockOf } from "../words/time.ts";
import type { ChartTable } from "./chart-table.ts";
import { fuelChart, glassChart, pressureChart, waterChart } from "./quantity-charts.ts";
import { type ChartSpec, type Shade, stripRowHeight } from "./spec.ts";
import { doneRows, doneSentence } from "./what-was-done.ts";

/** One chart of the test sheet: drawn, said, and in a table. */
export interface SheetChart {
  key: string;
  spec: ChartSpec;
  heightPx: number;
  sentence: string;
  table: ChartTable;
}
export interface SheetCharts {
  fromS: number;
  toS: number;
  charts: SheetChart[];
}

/** Charts of one steaming, one below the other on one time axis. */
export function sheetCharts(sheet: Sheet): SheetCharts {
  const frame = timeFrame(sheet);
  const rows = doneRows(sheet.entries, frame.toS);
  const drafts = [pressureChart(sheet), glassChart(sheet), waterChart(sheet), fuelChart(sheet)].filter(
    (chart) => chart !== null,
  );
  const lowest = rows.length > 0 ? "strip" : drafts.at(-1)?.key;
  const lit = sheet.entries.find((entry) => entry.kind === "fire" && entry.state === "lit");
  const timeWords =
    lit !== undefined && Math.abs(lit.atS) < 1 ? "minutes since lit" : "minutes since the start";
  const shades = sheet.report.phases.map(shadeOf);
  const charts = drafts.map((chart, i): SheetChart => {
    const timeAxis = chart.key === lowest ? timeWords : null;
    return {
      key: chart.key,
      sentence: chart.sentence,
      table: chart.table,
      heightPx: chart.heightPx + (i === 0 ? 20 : 0) + (timeAxis === null ? 0 : 44),
      spec: {
        kind: "lines",
        ...frame,
        shades,
        shadeNames: i === 0,
        timeAxis,
        unit: chart.unit,
        fromZero: chart.fromZero,
        marksApartPx: 12,
        lines: chart.lines,
        labelWidth: 122,
        labelsInsideWhenNarrow: true,
      },
    };
  });
  if (rows.length > 0) {
    charts.push({
      key: "strip",
      // the axis is never given more than half of a chart
      heightPx:
        Math.max(rows.length * stripRowHeight + timeAxisHeight, 2 * timeAxisHeight) +
        (charts.length === 0 ? 20 : 0),
      sentence: doneSentence(sheet.entries, sheet.report.totals?.laps ?? 0, sheet.logged),
      table: {
        columns: ["what", "from", "to"],
        rows: rows.flatMap((row) => [
          ...row.spans.map(([fromS, toS]) => [row.spanWord, clockOf(fromS), clockOf(toS)]),
          ...row.ticks.map((tick) => [row.name, clockOf(tick), ""]),
        ]),
      },
      spec: {
        kind: "strip",
        ...frame,
        shades,
        shadeNames: charts.length === 0,
        timeAxis: timeWords,
        rows,
        labelWidth: 122,
      },
    });
  }
  return { ...frame, charts };
}

/** Times and their title below the strip, with air about them, px. */
const timeAxisHeight = 58;

function timeFrame({ series, entries }: Sheet): { fromS: number; toS: number } {
  const times = [
    ...entries.map((entry) => entry.atS),
    ...Object.values(series).flatMap(({ points }) => [points[0]?.[0] ?? 0, points.at(-1)?.[0] ?? 0]),
  ];
  const fromS = Math.min(0, ...times);
  return { fromS, toS: Math.max(fromS + 60, ...times) };
}

const shadeOf = (phase: Report["phases"][number]): Shade => ({
  fromS: phase.fromS,
  toS: phase.toS,
  name: phase.laps > 0 ? `${phaseNames[phase.name]}, ${counted(phase.laps, "lap")}` : phaseNames[phase.name],
  shaded: phase.name !== "running",
});
