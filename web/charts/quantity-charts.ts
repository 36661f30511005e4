import type { Sheet } from "../api/shapes.ts";
import { showing, toShown } from "../preferences/shown.ts";
import { asTaken, plain } from "../words/number.ts";
import { clockOf } from "../words/time.ts";
import type { ChartTable } from "./chart-table.ts";
import type { ChartLine } from "./spec.ts";
import { highestOf, lowestOf } from "./thin.ts";

/** One quantity of a steaming, to be charted. */
export interface ChartDraft {
  key: string;
  unit: string;
  fromZero: boolean;
  heightPx: number;
  lines: ChartLine[];
  sentence: string;
  table: ChartTable;
}

export function pressureChart({ series, report, locomotive }: Sheet): ChartDraft | null {
  const { points, as } = converted(series.pressure);
  const highest = points.reduce((best, point) => (point[1] > best[1] ? point : best), points[0] ?? [0, 0]);
  if (points.length === 0) return null;
  const say = (value: number) => plain(value, as.factor > 5 ? 0 : 1);
  const running = report.phases.filter((phase) => phase.name === "running");
  const while_ = points.filter(([at]) => running.some((phase) => at >= phase.fromS && at <= phase.toS));
  const range =
    while_.length > 1 ? `; ${say(lowestOf(while_))} to ${say(highestOf(while_))} while running` : "";
  return {
    key: "pressure",
    unit: as.unit,
    fromZero: true,
    heightPx: 170,
    lines: [
      { label: "pressure", colour: "pressure", dash: [], marker: "none", points },
      limit("working pressure", toShown(locomotive.workingPressureBarG, as), points),
    ],
    sentence: `Pressure: highest ${say(highest[1])} ${as.unit}, at ${clockOf(highest[0])}${range}.`,
    table: pointTable("pressure", as.unit, points),
  };
}

export function glassChart({ series, locomotive }: Sheet): ChartDraft | null {
  const { points, as } = converted(series.level);
  const last = points.at(-1);
  if (last === undefined) return null;
  const say = (value: number) => (as.factor === 1 ? plain(value, 0) : plain(value, 2));
  return {
    key: "glass",
    unit: as.unit,
    fromZero: false,
    heightPx: 120,
    lines: [
      { label: "glass", colour: "glass", dash: [7, 4], marker: "triangle", points },
      limit("lowest level", toShown(locomotive.boiler.lowestLevelMm, as), points),
    ],
    sentence: `Water in the glass: ${say(lowestOf(points))} to ${say(highestOf(points))} ${as.unit}, ${say(last[1])} at the last reading.`,
    table: pointTable("glass", as.unit, points),
  };
}

/** A level that the engine is not to leave, drawn from the first reading to the last. */
const limit = (label: string, value: number, points: Points): ChartLine => ({
  label,
  colour: "soft",
  dash: [1, 3],
  marker: "none",
  limit: true,
  points: [
    [points[0]?.[0] ?? 0, value],
    [points.at(-1)?.[0] ?? 0, value],
  ],
});

export function waterChart({ series }: Sheet): ChartDraft | null {
  const { points: band, unit } = series.waterDrawn;
  const last = band.at(-1);
  if (last === undefined) return null;
  const [at, drawn, lo, hi] = last;
  const fed = series.feed.points.at(-1)?.[1] ?? 0;
  const lines: ChartLine[] = [
    {
      label: "water drawn",
      colour: "water",
      dash: [2, 4],
      marker: "none",
      points: band.map(([x, y]) => [x, y]),
      band: band.map(([x, , low, high]) => [x, low, high]),
    },
  ];
  if (fed > 0) {
    lines.push({ label: "fed", colour: "soft", dash: [], marker: "none", points: series.feed.points });
  }
  return {
    key: "water",
    unit,
    fromZero: true,
    heightPx: 150,
    lines,
    sentence: `Water drawn: ${plain(drawn, 0)} ${unit} by ${clockOf(at)} (${plain(lo, 0)} to ${plain(hi, 0)}, 19 times in 20)${
      fed > 0 ? `; ${plain(fed, 0)} ${unit} fed` : ""
    }.`,
    table: {
      columns: ["at", `drawn, ${unit}`, "from", "to"],
      rows: thinned(band).map(([x, y, low, high]) => [
        clockOf(x),
        plain(y, 1),
        plain(low, 1),
        plain(high, 1),
      ]),
    },
  };
}

export function fuelChart({ series }: Sheet): ChartDraft | null {
  const { points, as } = converted(series.fuel);
  const last = points.at(-1);
  if (last === undefined || last[1] <= 0) return null;
  return {
    key: "fuel",
    unit: as.unit,
    fromZero: true,
    heightPx: 110,
    lines: [{ label: "fuel burnt", colour: "fuel", dash: [10, 3, 2, 3], marker: "none", points }],
    sentence: `Fuel burnt: ${plain(last[1], 0)} ${as.unit} by ${clockOf(last[0])}.`,
    table: pointTable("fuel burnt", as.unit, points),
  };
}

function converted(series: { unit: string; points: readonly (readonly [number, number])[] }) {
  const as = showing(series.unit);
  return { as, points: series.points.map(([at, value]) => [at, toShown(value, as)] as const) };
}

type Points = readonly (readonly [number, number])[];
const mostRows = 240;

/** Every so many of a long trace: the table is to be read, the file holds every sample. */
function thinned<P>(points: readonly P[]): readonly P[] {
  const every = Math.ceil(points.length / mostRows);
  return every <= 1 ? points : points.filter((_, i) => i % every === 0 || i === points.length - 1);
}

const pointTable = (name: string, unit: string, points: Points): ChartTable => ({
  columns: ["at", `${name}, ${unit}`],
  rows: thinned(points).map(([at, value]) => [clockOf(at), asTaken(Number(value.toPrecision(4)))]),
});
