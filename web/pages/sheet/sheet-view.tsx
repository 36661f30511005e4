import { useSignal } from "@preact/signals";
import type { Sheet } from "../../api/shapes.ts";
import { mayWrite } from "../../api/token.ts";
import { PaperSheet } from "../../paper/paper-sheet.tsx";
import { Cautions } from "../../parts/cautions.tsx";
import { printing } from "../../preferences/theme.ts";
import { purposeNames } from "../../words/names.ts";
import { reportFigures } from "../../words/report-figures.ts";
import { sheetSentence } from "../../words/sheet-sentence.ts";
import { dateInWords } from "../../words/time.ts";
import { SteamingForm } from "../shed/steaming-form.tsx";
import { type AmongSheets, useAmongSheets } from "./among-sheets.ts";
import { EntriesSection } from "./entries-section.tsx";
import { FigureGroups } from "./figure-groups.tsx";
import { SheetChartStack } from "./sheet-chart-stack.tsx";
import { SheetTitleBlock } from "./sheet-title-block.tsx";
import { TakeOutSteaming } from "./take-out-steaming.tsx";
import { Warnings } from "./warnings.tsx";

interface Properties {
  sheet: Sheet;
  reload: () => Promise<unknown>;
}

/** Groups of figures that stand beside the charts where there is room; the rest follows below. */
const besideCharts = 3;

export function SheetView({ sheet, reload }: Properties) {
  const { steaming, locomotive, report } = sheet;
  const groups = reportFigures(report, locomotive, sheet);
  const among = useAmongSheets(sheet);
  const editing = useSignal(false);
  /** the entry that a warning pointed at */
  const pointedAt = useSignal<string | null>(null);
  return (
    <>
      {printing.value && <PaperSheet sheet={sheet} place={placeOf(among)} />}
      <div class="sheet">
        <div class="sheet-head">
          <h1>
            {locomotive.name}, {dateInWords(steaming.startedAt)}:{" "}
            {steaming.title ?? purposeNames[steaming.purpose]}
          </h1>
          <p class="lead">{sheetSentence(report)}</p>
          {steaming.notes !== undefined && <p class="soft">{steaming.notes}</p>}
        </div>
        <div class="sheet-charts">
          <SheetChartStack sheet={sheet} />
        </div>
        <div class="sheet-figures">
          {groups.length === 0 && <p class="soft">No figure can be had of these entries yet.</p>}
          <FigureGroups groups={groups.slice(0, 1)} main />
          <p class="hint on-screen">
            Under each figure: where it lies, 19 times in 20. Open one to see where the doubt comes from.
          </p>
          <Warnings
            report={report}
            entries={sheet.entries}
            onPoint={(id) => {
              pointedAt.value = id;
            }}
          />
          <FigureGroups groups={groups.slice(1, besideCharts)} main={false} />
        </div>
        <div class="sheet-more">
          <FigureGroups groups={groups.slice(besideCharts)} main={false} />
        </div>
      </div>
      <div class="actions on-screen">
        <button type="button" onClick={() => print()}>
          Print the sheet
        </button>
        {mayWrite() && (
          <>
            <button
              type="button"
              aria-expanded={editing.value}
              onClick={() => {
                editing.value = !editing.value;
              }}
            >
              Edit the particulars
            </button>
            <TakeOutSteaming steaming={steaming} />
          </>
        )}
      </div>
      {editing.value && (
        <SteamingForm
          engine={locomotive}
          head={steaming}
          onSaved={() => {
            editing.value = false;
            void reload();
          }}
          onLeave={() => {
            editing.value = false;
          }}
        />
      )}
      <EntriesSection sheet={sheet} reload={reload} pointedAt={pointedAt} />
      <Cautions />
      <SheetTitleBlock sheet={sheet} among={among} />
    </>
  );
}

const placeOf = ({ inOrder, place }: AmongSheets) =>
  place < 0 ? null : { nth: place + 1, of: inOrder.length };
