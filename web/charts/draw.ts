import {
  Chart,
  type ChartDataset,
  type ChartOptions,
  Filler,
  LinearScale,
  LineController,
  LineElement,
  type Plugin,
  PointElement,
  type PointStyle,
  type Scale,
} from "chart.js";
import { endLabels } from "./end-labels.ts";
import { currentInk, fontFamily, type Ink } from "./ink.ts";
import { cursorLine, intervalBars, phasesBehind, stripRows } from "./plugins.ts";
import {
  axisWidth,
  type ChartLine,
  type ChartSpec,
  type LineChart,
  labelRoom,
  type Marker,
  stripRowHeight,
} from "./spec.ts";
import { highestOf, lowestOf, thinForDrawing } from "./thin.ts";
import { timeTicks } from "./ticks.ts";

Chart.register(LineController, LineElement, PointElement, LinearScale, Filler);

export interface Drawn {
  /** puts the reading line at another moment */
  redraw(): void;
  /** seconds at this many pixels from the canvas's left edge; null outside the plot */
  momentAt(pixels: number): number | null;
  destroy(): void;
}

const pointStyles: Record<Exclude<Marker, "none">, PointStyle> = {
  circle: "circle",
  triangle: "triangle",
  square: "rect",
  diamond: "rectRot",
  cross: "crossRot",
  star: "star",
};

/** For paper: the width of an A4 sheet's text, with enough dots for a printer. */
const paper = { width: 680, dots: 3 };

/** Draws `spec` on the canvas as it stands; Chart.js follows the size of what holds it. */
export function draw(
  canvas: HTMLCanvasElement,
  spec: ChartSpec,
  momentS: () => number | null,
  forPaper: boolean,
): Drawn {
  const ink = currentInk();
  const chart = new Chart(canvas, {
    type: "line",
    data: { datasets: datasetsOf(spec, ink) },
    options: {
      ...optionsOf(spec, ink, canvas.parentElement?.clientWidth ?? 600),
      ...(forPaper ? { devicePixelRatio: paper.dots, responsive: false } : {}),
    },
    plugins: pluginsOf(spec, ink, momentS),
  });
  if (forPaper) chart.resize(paper.width, canvas.parentElement?.clientHeight ?? 160);
  return {
    redraw: () => chart.draw(),
    momentAt(pixels) {
      const area = chart.chartArea;
      if (pixels < area.left || pixels > area.right) return null;
      return chart.scales.x?.getValueForPixel(pixels) ?? null;
    },
    destroy: () => chart.destroy(),
  };
}

function pluginsOf(spec: ChartSpec, ink: Ink, momentS: () => number | null): Plugin[] {
  if (spec.kind === "intervals") return [intervalBars(spec.items, ink)];
  const behind = phasesBehind(spec.shades, spec.shadeNames, ink);
  const cursor = cursorLine(momentS, ink);
  return spec.kind === "strip"
    ? [behind, stripRows(spec.rows, ink), cursor]
    : [behind, cursor, endLabels(spec, ink)];
}

type LineDataset = ChartDataset<"line", { x: number; y: number }[]>;

function datasetsOf(spec: ChartSpec, ink: Ink): LineDataset[] {
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
    pointRadius: marksApart(points, (spec.toS - spec.fromS) / spec.mostMarks),
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

/** A mark at each reading that stands at least so many seconds after the one marked before. */
function marksApart(
  points: readonly (readonly [number, number])[],
  leastS: number,
): (context: { dataIndex: number }) => number {
  const marked = new Set<number>();
  let before = Number.NEGATIVE_INFINITY;
  points.forEach(([at], i) => {
    if (at - before < leastS) return;
    marked.add(i);
    before = at;
  });
  return ({ dataIndex }) => (marked.has(dataIndex) ? 5 : 0);
}

function optionsOf(spec: ChartSpec, ink: Ink, width: number): ChartOptions<"line"> {
  const text = { color: ink.of("soft"), font: { family: fontFamily, size: 14, weight: 500 } } as const;
  return {
    animation: false,
    events: [],
    maintainAspectRatio: false,
    parsing: false,
    normalized: true,
    layout: {
      padding: {
        right: labelRoom(spec, width),
        top: spec.kind !== "intervals" && spec.shadeNames ? 28 : 8,
        bottom: 2,
      },
    },
    scales: { x: xScale(spec, ink, text), y: yScale(spec, ink, text) },
  };
}

type ScaleOptions = NonNullable<ChartOptions<"line">["scales"]>[string];
interface Text {
  color: string;
  font: { family: string; size: number; weight: number };
}

function xScale(spec: ChartSpec, ink: Ink, text: Text): ScaleOptions {
  if (spec.kind === "intervals") {
    return {
      type: "linear",
      min: -0.5,
      max: spec.items.length - 0.5,
      grid: { display: false },
      border: { color: ink.of("ink") },
      ticks: {
        ...text,
        stepSize: 1,
        autoSkip: false,
        maxRotation: 0,
        callback: (value) => dateLabel(spec.items[Number(value)], spec.items.length),
      },
    };
  }
  return {
    type: "linear",
    min: spec.fromS,
    max: spec.toS,
    display: spec.timeAxis !== null,
    grid: { display: false },
    border: { color: ink.of("ink") },
    title: { ...text, display: spec.timeAxis !== null, text: spec.timeAxis ?? "", align: "end", padding: 0 },
    afterBuildTicks: (scale: Scale) => {
      scale.ticks = timeTicks(spec.fromS, spec.toS, Math.max(2, Math.floor(scale.chart.width / 90)));
    },
    ticks: { ...text, maxRotation: 0, autoSkip: false, callback: (value) => String(Number(value) / 60) },
  };
}

const dateLabel = (item: { label: string; date: string } | undefined, of: number): string | string[] => {
  if (item === undefined) return "";
  return of <= 4 ? [item.label, item.date] : item.label;
};

function yScale(spec: ChartSpec, ink: Ink, text: Text): ScaleOptions {
  if (spec.kind === "strip") {
    return {
      type: "linear",
      min: 0,
      max: Math.max(1, spec.rows.length) * stripRowHeight,
      grid: { display: false },
      border: { display: false },
      ticks: { display: false },
      afterFit: (scale: Scale) => {
        scale.width = axisWidth;
      },
    };
  }
  return {
    type: "linear",
    ...(spec.kind === "intervals"
      ? {
          suggestedMin: Math.min(...spec.items.map((item) => item.lo)),
          suggestedMax: Math.max(...spec.items.map((item) => item.hi)),
        }
      : {}),
    grace: spec.kind === "intervals" ? "8%" : "4%",
    ...(spec.kind === "lines" && spec.fromZero ? lowEnd(spec) : {}),
    grid: { color: ink.of("hair"), drawTicks: false },
    border: { display: false },
    afterFit: (scale: Scale) => {
      scale.width = axisWidth;
    },
    ticks: {
      ...text,
      maxTicksLimit: 5,
      padding: 8,
      callback(value, index, ticks) {
        const figure = Number(value).toLocaleString("en-GB", { maximumFractionDigits: 3 });
        return index === ticks.length - 1 ? `${figure} ${spec.unit}`.trim() : figure;
      },
    },
  };
}

/** From zero; below it only where what is drawn truly lies there, not for the edge of a band. */
function lowEnd(spec: LineChart): { min: number } | { suggestedMin: number } {
  const points = spec.lines.flatMap((line) => line.points);
  const highest = Math.max(0, highestOf(points));
  const lowest = Math.min(0, lowestOf(points));
  return lowest < -0.08 * highest ? { suggestedMin: lowest } : { min: 0 };
}
