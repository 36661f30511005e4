import {
  Chart,
  type ChartOptions,
  Filler,
  LinearScale,
  LineController,
  LineElement,
  type Plugin,
  PointElement,
} from "chart.js";
import { datasetsOf } from "./datasets.ts";
import { endLabels } from "./end-labels.ts";
import { currentInk, fontFamily, type Ink } from "./ink.ts";
import { cursorLine, intervalBars, phasesBehind, stripRows } from "./plugins.ts";
import { xScale, yScale } from "./scales.ts";
import { type ChartSpec, labelRoom } from "./spec.ts";

Chart.register(LineController, LineElement, PointElement, LinearScale, Filler);

export interface Drawn {
  /** puts the reading line at another moment */
  redraw(): void;
  /** seconds at this many pixels from the canvas's left edge; null outside the plot */
  momentAt(pixels: number): number | null;
  destroy(): void;
}

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
      ...optionsOf(spec, ink),
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

function optionsOf(spec: ChartSpec, ink: Ink): ChartOptions<"line"> {
  const text = { color: ink.of("soft"), font: { family: fontFamily, size: 14, weight: 500 } } as const;
  return {
    animation: false,
    events: [],
    maintainAspectRatio: false,
    parsing: false,
    normalized: true,
    layout: {
      padding: ({ chart }) => ({
        right: labelRoom(spec, chart.width),
        top: spec.kind !== "intervals" && spec.shadeNames ? 28 : 8,
        bottom: 2,
      }),
    },
    scales: { x: xScale(spec, ink, text), y: yScale(spec, ink, text) },
  };
}
