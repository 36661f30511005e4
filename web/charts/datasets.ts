import type { ChartDataset, PointStyle } from "chart.js";
import type { Ink } from "./ink.ts";
import type { ChartLine, ChartSpec, LineChart, Marker } from "./spec.ts";
import { thinForDrawing } from "./thin.ts";

const pointStyles: Record<Exclude<Marker, "none">, PointStyle> = {
  circle: "circle",
  triangle: "triangle",
  square: "rect",
  diamond: "rectRot",
  cross: "crossRot",
  star: "star",
};

type LineDataset = ChartDataset<"line", { x: number; y: number }[]>;

/** What Chart.js is to draw of a chart: its lines with their bands, or a mark for each interval. */
export function datasetsOf(spec: ChartSpec, ink: Ink): LineDataset[] {
  if (spec.kind === "strip") return [];
  if (spec.kind === "lines") return spec.lines.flatMap((line) => datasetsOfLine(line, spec, ink));
  return spec.items.map((item, i) => ({
    data: [{ x: i, y: item.value }],
    pointStyle: item.marker === "none" ? "circle" : pointStyles[item.marker],
    pointRadius: 7,
    pointBackgroundColor: item.hollow === true ? ink.of("paper") : ink.of(item.colour),
    pointBorderColor: ink.of(item.colour),
    pointBorderWidth: ink.lineWidth,
    clip: 12,
  }));
}

/** Stretches that a long trace is cut into for drawing. */
const mostPixels = 1000;

function datasetsOfLine(line: ChartLine, spec: LineChart, ink: Ink): LineDataset[] {
  const points = thinForDrawing(line.points, mostPixels);
  const own: LineDataset = {
    data: points.map(([x, y]) => ({ x, y })),
    borderColor: ink.of(line.colour),
    borderWidth: line.limit === true ? 1 : ink.lineWidth,
    borderDash: [...line.dash],
    borderJoinStyle: "round",
    stepped: line.stepped === true ? "before" : false,
    pointStyle: line.marker === "none" ? false : pointStyles[line.marker],
    pointRadius: marksApart(points, spec),
    pointBackgroundColor: line.hollow === true ? ink.of("paper") : ink.of(line.colour),
    pointBorderColor: ink.of(line.colour),
    pointBorderWidth: line.hollow === true ? ink.lineWidth : 1,
    clip: 8,
  };
  if (line.band === undefined) return [own];
  const edge = (pick: 1 | 2): LineDataset => ({
    data: line.band?.map((point) => ({ x: point[0], y: point[pick] })) ?? [],
    borderWidth: 0,
    pointRadius: 0,
    pointStyle: false,
    fill: false,
  });
  return [own, edge(1), { ...edge(2), fill: "-1", backgroundColor: ink.faint(line.colour) }];
}

/** A mark at each reading that stands far enough after the one marked before. */
function marksApart(
  points: readonly (readonly [number, number])[],
  spec: LineChart,
): (context: { dataIndex: number; chart: { width: number } }) => number {
  let marked = new Set<number>();
  let forWidth = 0;
  return ({ dataIndex, chart }) => {
    if (chart.width !== forWidth) {
      forWidth = chart.width;
      marked = markedOf(points, ((spec.toS - spec.fromS) * spec.marksApartPx) / forWidth);
    }
    return marked.has(dataIndex) ? 5 : 0;
  };
}

function markedOf(points: readonly (readonly [number, number])[], leastS: number): Set<number> {
  const marked = new Set<number>();
  let before = Number.NEGATIVE_INFINITY;
  points.forEach(([at], i) => {
    if (at - before < leastS) return;
    marked.add(i);
    before = at;
  });
  return marked;
}
