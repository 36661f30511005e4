import type { Sheet } from "../api/shapes.ts";
import { type SheetChart, sheetCharts } from "../charts/sheet-charts.ts";
import { doneSentence } from "../charts/what-was-done.ts";
import { capital } from "../words/capital.ts";
import { meanings } from "../words/meaning.ts";
import { purposeNames } from "../words/names.ts";
import { type FigureGroup, reportFigures } from "../words/report-figures.ts";
import { runningSentence, sheetSentence } from "../words/sheet-sentence.ts";
import { inParagraph, leftOpen } from "./left-open.ts";
import { type Besides, roomForCharts } from "./room.ts";

const mostWarnings = 3;
const mostMeanings = 9;

/** Line charts are this part of their height on the screen, as the rest leaves room. */
const share = { least: 0.16, readable: 0.24, most: 0.62 };

/** On a sheet that is kept, what stood in the boiler at the end is no longer news. */
const leftOut = ["forecast."];

/** What these are is said under the figures, in a sentence each. */
const explained = ["cooling.", "engine."];

/** What stands on the page of one steaming, so that all of it fits. */
export interface Fitted extends Omit<Besides, "lists"> {
  charts: readonly SheetChart[];
  partOfScreen: number;
  said: readonly string[];
  again: readonly string[];
  /** whether the fuel's chart was left off for room */
  leftOff: boolean;
}

/** What goes on paper: of each leak its rate alone. */
const paperGroups = (sheet: Sheet): FigureGroup[] =>
  reportFigures(sheet.report, sheet.locomotive, sheet).map((group) => ({
    ...group,
    lines: group.lines.filter(
      ({ key }) =>
        !(key.startsWith("leaks.") && key.endsWith(".equivalentHole")) &&
        !leftOut.some((start) => key.startsWith(start)),
    ),
  }));

/** Those of them that can be had. */
function withValues(groups: readonly FigureGroup[]): FigureGroup[] {
  return groups
    .map((group) => ({
      ...group,
      lines: group.lines
        .filter(({ figure }) => figure.value !== null)
        .map(({ note, ...line }) =>
          note === undefined || explained.some((start) => line.key.startsWith(start))
            ? line
            : { ...line, note },
        ),
    }))
    .filter((group) => group.lines.length > 0);
}

/**
 * A page that is too full for charts that can be read goes without the fuel's, which is all but straight, and without the
 * sentence that says two of the figures again, and has its sentences in small type; then the last of the reasons go.
 */
export function fitted(sheet: Sheet): Fitted {
  const { steaming, locomotive, report, entries, logged } = sheet;
  const all = paperGroups(sheet);
  const { charts } = sheetCharts(sheet);
  const running = runningSentence(report);
  const meant = meanings(report, locomotive, sheet);
  const said = [...(running === null ? [] : [running]), ...meant];
  const { warnings } = report;
  const more = warnings.length - mostWarnings;
  const again = [
    ...warnings.slice(0, mostWarnings).map((warning) => warning.text),
    ...(more > 0 ? [`${more} more in the logbook.`] : []),
  ];
  const open = leftOpen(all);
  const always = {
    groups: withValues(all),
    done: `${capital(purposeNames[steaming.purpose])}. ${doneSentence(entries, report.totals?.laps ?? 0, logged)}`,
    notes: steaming.notes,
    again,
  };
  const whole = {
    ...always,
    charts,
    said: (said.length > 0 ? said : [sheetSentence(report)]).slice(0, mostMeanings),
    crowded: false,
    leftOff: false,
  };
  const full = {
    ...always,
    charts: charts.filter(({ key }) => key !== "fuel"),
    said: meant.length > 0 ? meant : whole.said,
    crowded: true,
    leftOff: charts.some(({ key }) => key === "fuel"),
  };
  const tries = [whole, full]
    .flatMap((page, i) =>
      (i === 0 ? [0] : [0, ...open.map((_, n) => n + 1)]).map((fewer) => ({
        ...page,
        untold: inParagraph(open, fewer),
      })),
    )
    .map((page) => ({
      page,
      room: roomForCharts(page.charts, { ...page, lists: [page.said, page.again] }),
    }));
  const chosen = tries.find(({ room }) => room >= share.readable) ?? tries.at(-1);
  if (chosen === undefined) throw new Error("there is a page to try always");
  const partOfScreen = Math.min(share.most, Math.max(share.least, chosen.room));
  return { ...chosen.page, partOfScreen };
}
