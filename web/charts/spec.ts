/** What a chart shows, without a word of how it is drawn. Times are seconds, colours names of tokens. */

export type Marker = "none" | "circle" | "triangle" | "square" | "diamond" | "cross" | "star";

export interface ChartLine {
  /** written at the line's end */
  label: string;
  colour: string;
  dash: readonly number[];
  marker: Marker;
  hollow?: boolean;
  stepped?: boolean;
  /** a limit and no reading: a fine line, its label in plain letters */
  limit?: boolean;
  points: readonly (readonly [x: number, y: number])[];
  band?: readonly (readonly [x: number, lo: number, hi: number])[];
}

export interface Shade {
  fromS: number;
  toS: number;
  name: string;
  /** running stands on plain paper, the rest is shaded */
  shaded: boolean;
}

interface TimeFrame {
  fromS: number;
  toS: number;
  shades: readonly Shade[];
  /** names of the shades stand above this chart */
  shadeNames: boolean;
  /** words under the time axis; null where a chart below carries it */
  timeAxis: string | null;
}

export interface LineChart extends TimeFrame {
  kind: "lines";
  unit: string;
  fromZero: boolean;
  /** how far two marks of a line stand apart at least */
  marksApartPx: number;
  lines: readonly ChartLine[];
  /** room right of the plot for the labels; on a narrow display they stand inside it instead */
  labelWidth: number;
  labelsInsideWhenNarrow: boolean;
}

export interface StripRow {
  name: string;
  spans: readonly (readonly [fromS: number, toS: number])[];
  ticks: readonly number[];
}

/** What was done and when: a row for each valve, the fire, the feed and the laps. */
export interface StripChart extends TimeFrame {
  kind: "strip";
  rows: readonly StripRow[];
  labelWidth: number;
}

export interface IntervalItem {
  label: string;
  date: string;
  colour: string;
  marker: Marker;
  hollow?: boolean;
  value: number;
  lo: number;
  hi: number;
}

/** One figure over several runs in order of date, each with its interval. */
export interface IntervalChart {
  kind: "intervals";
  unit: string;
  items: readonly IntervalItem[];
}

export type ChartSpec = LineChart | StripChart | IntervalChart;

/** Width kept for the figures of the upright axis, so that charts on one time axis line up. */
export const axisWidth = 72;
/** Below this width of the plot's box a display counts as narrow. */
export const narrowBelow = 560;

export const labelRoom = (spec: ChartSpec, width: number): number => {
  if (spec.kind === "intervals") return 12;
  if (spec.kind === "lines" && spec.labelsInsideWhenNarrow && width < narrowBelow) return 12;
  return spec.kind === "strip" && width < narrowBelow ? 12 : spec.labelWidth;
};

export const stripRowHeight = 22;
