import { CAUTION_SENTENCES } from "../../src/analysis/words/cautions.ts";
import type { Sheet } from "../api/shapes.ts";
import type { SheetChart } from "../charts/sheet-charts.ts";
import { engineLine } from "../words/engine-line.ts";
import { purposeNames } from "../words/names.ts";
import { dateInWords } from "../words/time.ts";
import { fitted } from "./fitted.ts";
import { PaperLineChart } from "./line-chart.tsx";
import { PaperFigures } from "./paper-figures.tsx";
import { PaperRules } from "./paper-rules.tsx";
import { PaperTitleBlock, type SheetPlace } from "./paper-title-block.tsx";
import { UNTOLD } from "./room.ts";
import { PaperStripChart } from "./strip-chart.tsx";

/** One steaming on one page, as an owner keeps it in the engine's book. */
export function PaperSheet({ sheet, place }: { sheet: Sheet; place: SheetPlace | null }) {
  const { steaming, locomotive } = sheet;
  const { charts, partOfScreen, groups, done, said, again, untold, notes, crowded, leftOff } = fitted(sheet);
  return (
    <article class={`paper-sheet ${crowded ? "crowded" : ""}`}>
      <div class="paper-body">
        <header>
          <h1>
            {locomotive.name}, {dateInWords(steaming.startedAt)}:{" "}
            {steaming.title ?? purposeNames[steaming.purpose]}
          </h1>
          <p class="paper-engine">{engineLine(locomotive)}</p>
          <p>{done}</p>
        </header>
        <div class="paper-charts">
          <Charts charts={charts} partOfScreen={partOfScreen} />
        </div>
        <PaperFigures groups={groups} />
        <Said title="What it means" sentences={said} />
        <Said title="To look at again" sentences={again} />
        {untold !== "" && (
          <p class="paper-untold">
            <strong>{UNTOLD}</strong>
            {untold}
          </p>
        )}
        <section class="paper-remarks">
          <h2>Remarks</h2>
          {notes !== undefined && <p>{notes}</p>}
          <PaperRules />
        </section>
      </div>
      <p class="paper-cautions">
        Right of each figure: its range, 19 times in 20. Charts: all but running is shaded
        {leftOff && "; for room without the fuel's curve"}. Reckoned by Lapwater from the entries; passes no
        boiler: tests are for your club or licensing authority, its code and its inspector.{" "}
        {CAUTION_SENTENCES.join(" ")}
      </p>
      <PaperTitleBlock sheet={sheet} place={place} />
    </article>
  );
}

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
