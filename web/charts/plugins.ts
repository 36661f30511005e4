import type { Chart, Plugin } from "chart.js";
import type { Ink } from "./ink.ts";
import { type Shade, type StripRow, stripRowHeight } from "./spec.ts";

/** Drawing that Chart.js leaves to its users: all read the chart's own scales, so nothing is laid out twice. */

const xOf = (chart: Chart, value: number): number => chart.scales.x?.getPixelForValue(value) ?? 0;

/** Phases behind the plot, their names above it where there is room. */
export function phasesBehind(shades: readonly Shade[], names: boolean, ink: Ink): Plugin {
  return {
    id: "phases",
    beforeDatasetsDraw(chart) {
      const { ctx, chartArea: area } = chart;
      const top = names ? 0 : area.top;
      ctx.save();
      for (const shade of shades) {
        const from = Math.max(area.left, xOf(chart, shade.fromS));
        const to = Math.min(area.right, xOf(chart, shade.toS));
        if (to <= from) continue;
        ctx.globalCompositeOperation = "destination-over";
        if (shade.shaded) {
          ctx.fillStyle = ink.of("shade");
          ctx.fillRect(from, top, to - from, area.bottom - top);
        }
        ctx.globalCompositeOperation = "source-over";
        ctx.strokeStyle = ink.of("rule");
        ctx.lineWidth = 1;
        if (from > area.left + 1) line(ctx, from, top, from, area.bottom);
        if (names) writeWithin(ctx, shade.name, from + 6, 15, to - from - 8, ink);
      }
      ctx.restore();
    },
  };
}

function line(ctx: CanvasRenderingContext2D, x1: number, y1: number, x2: number, y2: number): void {
  ctx.beginPath();
  ctx.moveTo(x1, y1);
  ctx.lineTo(x2, y2);
  ctx.stroke();
}

/** The whole, else what stands before the first comma, else nothing. */
function writeWithin(
  ctx: CanvasRenderingContext2D,
  text: string,
  x: number,
  y: number,
  width: number,
  ink: Ink,
): void {
  ctx.font = ink.font();
  ctx.fillStyle = ink.of("soft");
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  const fits = [text, text.split(",")[0] ?? ""].find((part) => ctx.measureText(part).width <= width);
  if (fits !== undefined) ctx.fillText(fits, x, y);
}

/** The upright line at the moment that is read. */
export function cursorLine(momentS: () => number | null, ink: Ink): Plugin {
  return {
    id: "cursor",
    afterDatasetsDraw(chart) {
      const at = momentS();
      if (at === null) return;
      const { ctx, chartArea: area } = chart;
      const x = xOf(chart, at);
      if (x < area.left - 1 || x > area.right + 1) return;
      ctx.save();
      ctx.strokeStyle = ink.of("ink");
      ctx.lineWidth = 1;
      line(ctx, x, area.top, x, area.bottom);
      ctx.restore();
    },
  };
}

/** A row for each thing done: a bar while it lasts, a tick when it happens. */
export function stripRows(rows: readonly StripRow[], ink: Ink): Plugin {
  return {
    id: "strip",
    afterDatasetsDraw(chart) {
      const { ctx, chartArea: area } = chart;
      const narrow = chart.width - area.right < 40;
      ctx.save();
      ctx.font = ink.font();
      ctx.textBaseline = "middle";
      rows.forEach((row, i) => {
        const y = area.top + (i + 0.5) * stripRowHeight;
        ctx.strokeStyle = ink.of("hair");
        ctx.lineWidth = 1;
        line(ctx, area.left, y, area.right, y);
        ctx.fillStyle = ink.of("ink");
        for (const [fromS, toS] of row.spans) {
          const from = Math.max(area.left, xOf(chart, fromS));
          const to = Math.min(area.right, xOf(chart, toS));
          if (to > from) ctx.fillRect(from, y - 3, to - from, 6);
        }
        ctx.strokeStyle = ink.of("ink");
        ctx.lineWidth = 1.5;
        for (const tick of row.ticks) line(ctx, xOf(chart, tick), y - 7, xOf(chart, tick), y + 7);
        ctx.fillStyle = ink.of(narrow ? "soft" : "ink");
        ctx.textAlign = narrow ? "right" : "left";
        ctx.fillText(row.name, narrow ? area.left - 6 : area.right + 8, y);
      });
      ctx.restore();
    },
  };
}

/** An upright bar from lo to hi through each point. */
export function intervalBars(items: readonly { lo: number; hi: number; colour: string }[], ink: Ink): Plugin {
  return {
    id: "intervals",
    beforeDatasetsDraw(chart) {
      const { ctx } = chart;
      const yOf = (value: number) => chart.scales.y?.getPixelForValue(value) ?? 0;
      ctx.save();
      items.forEach((item, i) => {
        const x = xOf(chart, i);
        ctx.strokeStyle = ink.of(item.colour);
        ctx.lineWidth = ink.lineWidth;
        line(ctx, x, yOf(item.lo), x, yOf(item.hi));
        line(ctx, x - 6, yOf(item.lo), x + 6, yOf(item.lo));
        line(ctx, x - 6, yOf(item.hi), x + 6, yOf(item.hi));
      });
      ctx.restore();
    },
  };
}
