import { CAUTION_SENTENCES } from "../../src/analysis/cautions.ts";
import type { Sheet } from "../api/shapes.ts";
import { type SheetChart, sheetCharts } from "../charts/sheet-charts.ts";
import { doneSentence } from "../charts/what-was-done.ts";
import { engineLine } from "../words/engine-line.ts";
import { meanings } from "../words/meaning.ts";
import { purposeNames } from "../words/names.ts";
import { type FigureGroup, reportFigures } from "../words/report-figures.ts";
import { runningSentence } from "../words/sheet-sentence.ts";
import { dateInWords } from "../words/time.ts";
import { PaperLineChart } from "./line-chart.tsx";
import { linesShown, PaperFigures } from "./paper-figures.tsx";
import { PaperRules } from "./paper-rules.tsx";
import { PaperTitleBlock } from "./paper-title-block.tsx";
import { PaperStripChart, paperRowHeight } from "./strip-chart.tsx";

const mostWarnings = 3;
const mostMeanings = 9;

/** Heights on the page, CSS pixels: all of it, what always stands there with its gaps, and a line of each thing. */
const page = {
  all: 1043,
  fixed: 199,
  remarks: 84,
  figureLine: 14.8,
  group: 22,
  textLine: 14.2,
  title: 22,
  more: 12,
};
/** Letters in a line of text across the page. */
const lineLength = 140;
/** Line charts are this part of their height on the screen, as the rest leaves room. */
const share = { least: 0.19, most: 0.62 };

/** On a sheet that is kept, what stood in the boiler at the end is no longer news. */
const leftOut = ["forecast."];

/** What these are is said under the figures, in a sentence each. */
const explained = ["cooling.", "engine."];

/** What goes on paper: figures that can be had, and of each leak its rate. */
function paperGroups({ report, locomotive, held }: Sheet): FigureGroup[] {
  return reportFigures(report, locomotive, held)
    .map((group) => ({
      ...group,
      lines: group.lines
        .filter(
          ({ key, figure }) =>
            figure.value !== null &&
            !(key.startsWith("leaks.") && key.endsWith(".equivalentHole")) &&
            !leftOut.some((start) => key.startsWith(start)),
        )
        .map(({ note, ...line }) =>
          note === undefined || explained.some((start) => line.key.startsWith(start))
            ? line
            : { ...line, note },
        ),
    }))
    .filter((group) => group.lines.length > 0);
}

/** One steaming on one page, as an owner keeps it in the engine's book. */
export function PaperSheet({ sheet }: { sheet: Sheet }) {
  const { steaming, locomotive, report, held } = sheet;
  const groups = paperGroups(sheet);
  const { charts } = sheetCharts(sheet);
  const said = [runningSentence(report), ...meanings(report, locomotive, held)]
    .filter((sentence) => sentence !== null)
    .slice(0, mostMeanings);
  const { warnings } = report;
  const more = warnings.length - mostWarnings;
  const again = [
    ...warnings.slice(0, mostWarnings).map((warning) => warning.text),
    ...(more > 0 ? [`${more} more in the logbook.`] : []),
  ];
  return (
    <article class="paper-sheet">
      <div class="paper-body">
        <header>
          <h1>
            {locomotive.name}, {dateInWords(steaming.startedAt)}:{" "}
            {steaming.title ?? purposeNames[steaming.purpose]}
          </h1>
          <p class="paper-engine">{engineLine(locomotive)}</p>
          <p>
            {capital(purposeNames[steaming.purpose])}. {doneSentence(sheet.entries, report.totals?.laps ?? 0)}
          </p>
        </header>
        <div class="paper-charts">
          <Charts charts={charts} partOfScreen={chartShare(charts, groups, [said, again])} />
        </div>
        <PaperFigures groups={groups} />
        <Said title="What it means" sentences={said} />
        <Said title="To look at again" sentences={again} />
        <section class="paper-remarks">
          <h2>Remarks</h2>
          {steaming.notes !== undefined && <p>{steaming.notes}</p>}
          <PaperRules />
        </section>
      </div>
      <p class="paper-cautions">
        Right of each figure: its range, 19 times in 20. Charts: all but running is shaded. Reckoned from the
        entries; passes no boiler: tests are for your club or licensing authority, its code and its inspector.{" "}
        {CAUTION_SENTENCES.join(" ")}
      </p>
      <PaperTitleBlock sheet={sheet} />
    </article>
  );
}

const capital = (words: string): string => words.replace(/^./, (letter) => letter.toUpperCase());

function Said({ title, sentences }: { title: string; sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <section class="paper-meaning">
      <h2>{title}</h2>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}

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

/** How high the charts may be so that all stands on one page. */
function chartShare(
  charts: readonly SheetChart[],
  groups: readonly FigureGroup[],
  texts: readonly (readonly string[])[],
): number {
  const text = texts.reduce(
    (sum, sentences) =>
      sum +
      (sentences.length > 0 ? page.title : 0) +
      sentences.reduce((lines, words) => lines + page.textLine * Math.ceil(words.length / lineLength), 0),
    0,
  );
  const strips = charts.reduce(
    (sum, { spec }) => sum + (spec.kind === "strip" ? spec.rows.length * paperRowHeight + 20 : 0),
    0,
  );
  const screen = charts.reduce((sum, { spec, heightPx }) => sum + (spec.kind === "strip" ? 0 : heightPx), 0);
  const left = page.all - page.fixed - page.remarks - figuresHeight(groups) - text - strips;
  return Math.min(share.most, Math.max(share.least, left / Math.max(1, screen)));
}

function Charts({ charts, partOfScreen }: { charts: readonly SheetChart[]; partOfScreen: number }) {
  return (
    <>
      {charts.map(({ key, spec, sentence, heightPx }) => {
        if (spec.kind === "strip") return <PaperStripChart key={key} spec={spec} sentence={sentence} />;
        if (spec.kind !== "lines") return null;
        const height = Math.round(partOfScreen * heightPx);
        return <PaperLineChart key={key} spec={spec} height={height} sentence={sentence} />;
      })}
    </>
  );
}
