import type { ChartOptions, Scale } from "chart.js";
import type { Ink } from "./ink.ts";
import { axisWidth, type ChartSpec, type LineChart, stripRowHeight } from "./spec.ts";
import { highestOf, lowestOf } from "./thin.ts";
import { timeTicks } from "./ticks.ts";

type ScaleOptions = NonNullable<ChartOptions<"line">["scales"]>[string];
export interface Text {
  color: string;
  font: { family: string; size: number; weight: number };
}

/** Time in whole minutes, or the runs one by one. */
export function xScale(spec: ChartSpec, ink: Ink, text: Text): ScaleOptions {
  if (spec.kind === "intervals") {
    return {
      type: "linear",
      min: -0.5,
      max: spec.items.length - 0.5,
      grid: { display: false },
      border: { color: ink.of("ink") },
      afterBuildTicks: (scale: Scale) => {
        scale.ticks = spec.items.map((_, value) => ({ value }));
      },
      ticks: {
        ...text,
        autoSkip: false,
        maxRotation: 0,
        callback(value) {
          const room = this.chart.width / spec.items.length;
          return dateLabel(spec.items[Number(value)], room);
        },
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

const dateLabel = (item: { label: string; date: string } | undefined, roomPx: number): string | string[] => {
  if (item === undefined) return "";
  return roomPx >= 90 ? [item.label, item.date] : item.label;
};

/** The upright axis: always as wide, so that charts on one time axis line up. */
export function yScale(spec: ChartSpec, ink: Ink, text: Text): ScaleOptions {
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
