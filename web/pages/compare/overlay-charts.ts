import type { Comparison } from "../../../src/compare/compare-runs.ts";
import type { SheetChart } from "../../charts/sheet-charts.ts";
import type { ChartLine } from "../../charts/spec.ts";
import { highestOf } from "../../charts/thin.ts";
import { timeTicks } from "../../charts/ticks.ts";
import { valueOn } from "../../charts/value-on.ts";
import { showing, toShown } from "../../preferences/shown.ts";
import { asTaken, plain } from "../../words/number.ts";
import { clockOf } from "../../words/time.ts";
import { runStyle } from "./run-styles.ts";

const quantities = [
  { key: "pressure", name: "Pressure", of: "highest", heightPx: 190, fromZero: true },
  { key: "level", name: "Water in the glass", of: "last", heightPx: 150, fromZero: false },
  { key: "waterDrawn", name: "Water drawn", of: "last", heightPx: 190, fromZero: true },
  { key: "laps", name: "Laps run", of: "last", heightPx: 150, fromZero: true },
] as const;

const clocks: Record<Comparison["alignBy"], string> = {
  lit: "minutes since lit",
  "first-steam": "minutes since first steam",
  "first-lap": "minutes since the first lap",
};

interface Drawn {
  letter: string;
  line: ChartLine;
}

/** The overlay: a chart for each quantity that at least one run has. */
export function overlayCharts(comparison: Comparison): SheetChart[] {
  const drafts = quantities.flatMap((quantity) => {
    const drawn = comparison.runs.flatMap((run, i): Drawn[] => {
      const series = run.series?.[quantity.key];
      if (series === undefined || series.points.length === 0) return [];
      const as = showing(series.unit);
      const { letter, ...style } = runStyle(i);
      const points = series.points.map((point) => [point[0], toShown(point[1], as)] as const);
      return [{ letter, line: { ...style, label: letter, points, stepped: quantity.key === "laps" } }];
    });
    return drawn.length === 0 ? [] : [{ quantity, drawn, unit: unitOf(comparison, quantity.key) }];
  });
  const times = drafts.flatMap(({ drawn }) => drawn.flatMap(({ line }) => line.points.map(([at]) => at)));
  const fromS = times.reduce((least, at) => Math.min(least, at), 0);
  const toS = times.reduce((most, at) => Math.max(most, at), fromS + 60);
  return drafts.map(({ quantity, drawn, unit }, i): SheetChart => {
    const last = i === drafts.length - 1;
    const highest = Math.max(...drawn.map(({ line }) => highestOf(line.points)));
    const decimals = quantity.key === "laps" || highest >= 30 ? 0 : highest >= 5 ? 1 : 2;
    return {
      key: quantity.key,
      heightPx: quantity.heightPx + (last ? 44 : 0),
      sentence: `${quantity.name}: ${quantity.of} ${drawn
        .map(({ letter, line }) => `${letter} ${asTaken(Number(told(line, quantity.of).toFixed(decimals)))}`)
        .join(", ")}${unit === "" ? "" : ` ${unit}`}.`,
      table: {
        columns: ["at", ...drawn.map(({ letter }) => (unit === "" ? letter : `${letter}, ${unit}`))],
        rows: timeTicks(fromS, toS, 40).map(({ value: at }) => [
          clockOf(at),
          ...drawn.map(({ line }) => {
            const value = valueOn(line.points, at);
            return value === null ? "" : plain(value, decimals);
          }),
        ]),
      },
      spec: {
        kind: "lines",
        fromS,
        toS,
        shades: [],
        shadeNames: false,
        timeAxis: last ? clocks[comparison.alignBy] : null,
        unit,
        fromZero: quantity.fromZero,
        marksApartPx: 60,
        lines: drawn.map(({ line }) => line),
        labelWidth: 34,
        labelsInsideWhenNarrow: false,
      },
    };
  });
}

const told = (line: ChartLine, what: "highest" | "last"): number =>
  what === "last" ? (line.points.at(-1)?.[1] ?? 0) : highestOf(line.points);

function unitOf(comparison: Comparison, key: (typeof quantities)[number]["key"]): string {
  const unit = comparison.runs.find((run) => run.series !== null)?.series?.[key].unit ?? "1";
  return unit === "1" ? "" : showing(unit).unit;
}
