import type { Plugin } from "chart.js";
import type { Ink } from "./ink.ts";
import type { LineChart } from "./spec.ts";

/** Where a label goes: `left` is the left edge of its words. */
export interface EndLabel {
  words: string;
  colour: string;
  bold: boolean;
  left: number;
  width: number;
  y: number;
}

const lineHeight = 17;

/** Each line's name at its end, in its colour, moved apart where two would touch. */
export function endLabels(spec: LineChart, ink: Ink): Plugin {
  return {
    id: "endLabels",
    afterDatasetsDraw(chart) {
      const { ctx, chartArea: area, scales } = chart;
      ctx.save();
      const fontOf = (bold: boolean) => ink.font(bold ? 700 : 500);
      const labels = spec.lines.flatMap((item): EndLabel[] => {
        const last = item.points.at(-1);
        if (last === undefined || item.label === "") return [];
        const end = scales.x?.getPixelForValue(last[0]) ?? area.right;
        const height = scales.y?.getPixelForValue(last[1]) ?? area.bottom;
        const bold = item.limit !== true;
        ctx.font = fontOf(bold);
        const width = ctx.measureText(item.label).width;
        const named = { words: item.label, colour: item.colour, bold, width };
        if (end + 8 + width <= chart.width) return [{ ...named, left: end + 8, y: height }];
        const above = height - 14 < area.top + 8 ? height + 14 : height - 14;
        return [{ ...named, left: area.right - 2 - width, y: above }];
      });
      ctx.textBaseline = "middle";
      ctx.textAlign = "left";
      ctx.lineJoin = "round";
      for (const label of movedApart(labels, area.top + 6, area.bottom - 4)) {
        ctx.font = fontOf(label.bold);
        if (label.left < area.right) {
          ctx.strokeStyle = ink.of("paper");
          ctx.lineWidth = 4;
          ctx.strokeText(label.words, label.left, label.y);
        }
        ctx.fillStyle = ink.of(label.colour);
        ctx.fillText(label.words, label.left, label.y);
      }
      ctx.restore();
    },
  };
}

const beside = (a: EndLabel, b: EndLabel): boolean =>
  a.left < b.left + b.width + 4 && b.left < a.left + a.width + 4;

/** Keeps the order from top to bottom and a line's height between labels that stand above one another. */
export function movedApart(labels: readonly EndLabel[], top: number, bottom: number): EndLabel[] {
  const placed: EndLabel[] = [];
  for (const label of [...labels].sort((a, b) => a.y - b.y)) {
    const over = placed.filter((other) => beside(label, other)).map((other) => other.y + lineHeight);
    placed.push({ ...label, y: Math.max(top, label.y, ...over) });
  }
  const settled: EndLabel[] = [];
  for (const label of placed.reverse()) {
    const under = settled.filter((other) => beside(label, other)).map((other) => other.y - lineHeight);
    settled.push({ ...label, y: Math.min(bottom, label.y, ...under) });
  }
  return settled;
}
