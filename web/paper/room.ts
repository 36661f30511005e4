import type { SheetChart } from "../charts/sheet-charts.ts";
import type { FigureGroup } from "../words/report-figures.ts";
import { linesShown } from "./paper-figures.tsx";
import { paperRowHeight } from "./strip-chart.tsx";

/** Heights on the page, CSS pixels: all of it, what always stands there with its gaps, and a line of each thing. */
const page = {
  all: 1043,
  fixed: 186,
  remarks: 82,
  figureLine: 14.8,
  group: 22,
  textLine: 14.2,
  smallLine: 13,
  title: 22,
  gap: 7,
  more: 12,
};
/** Letters in a line of text across the page, and of small text. */
const lineLength = 138;
const smallLength = 150;

/** The title of the figures that cannot be had, on the line of their reasons. */
export const UNTOLD = "What could not be told. ";

const linesOf = (words: string, letters: number): number => Math.ceil(words.length / letters);

/** Two columns, of groups that are not broken: the higher one, were they parted as evenly as may be. */
function figuresHeight(groups: readonly FigureGroup[]): number {
  const heights = groups.map((group) => {
    const shown = linesShown(group).length;
    return page.figureLine * shown + page.group + (group.lines.length > shown ? page.more : 0);
  });
  const all = heights.reduce((a, b) => a + b, 0);
  let [first, higher] = [0, all];
  for (const height of heights) {
    first += height;
    higher = Math.min(higher, Math.max(first, all - first));
  }
  return higher;
}

/** What stands on the page besides the charts. */
export interface Besides {
  groups: readonly FigureGroup[];
  /** under the title, of which one line is always there; and of the remarks */
  done: string;
  notes: string | undefined;
  /** with a title each, a sentence a line */
  lists: readonly (readonly string[])[];
  /** a small paragraph after its title */
  untold: string;
  /** whether the lists are in small type too */
  crowded: boolean;
}

/** How high line charts may be so that all stands on one page, as a part of their height on the screen. */
export function roomForCharts(charts: readonly SheetChart[], besides: Besides): number {
  const { groups, done, notes, lists, untold, crowded } = besides;
  const [lineHeight, letters] = crowded ? [page.smallLine, smallLength] : [page.textLine, lineLength];
  const listed = lists.flatMap((sentences) =>
    sentences.length === 0
      ? []
      : [page.title, ...sentences.map((words) => lineHeight * linesOf(words, letters))],
  );
  const strips = charts.map(({ spec }) =>
    spec.kind === "strip" ? spec.rows.length * paperRowHeight + 20 : 0,
  );
  const taken = [
    page.fixed,
    page.remarks,
    figuresHeight(groups),
    page.textLine * (linesOf(done, lineLength) - 1 + linesOf(notes ?? "", lineLength)),
    untold === "" ? 0 : page.gap + page.smallLine * linesOf(UNTOLD + untold, smallLength),
    ...listed,
    ...strips,
  ].reduce((a, b) => a + b, 0);
  const screen = charts.reduce((sum, { spec, heightPx }) => sum + (spec.kind === "strip" ? 0 : heightPx), 0);
  return (page.all - taken) / Math.max(1, screen);
}
