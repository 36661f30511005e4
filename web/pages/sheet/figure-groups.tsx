import type { Report } from "../../../src/analysis/report-schema.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { Doubt, Figure } from "../../parts/figure.tsx";
import { type FigureGroup, type FigureLine, reportFigures } from "../../words/report-figures.ts";

interface Properties {
  report: Report;
  locomotive: Locomotive;
}

export function FigureGroups({ report, locomotive }: Properties) {
  return (
    <>
      {reportFigures(report, locomotive).map((group, i) => (
        <Group key={group.title} group={group} first={i === 0} />
      ))}
      <p class="hint on-screen">
        Under each figure: where it lies, 19 times in 20. Open one to see where the doubt comes from.
      </p>
    </>
  );
}

function Group({ group, first }: { group: FigureGroup; first: boolean }) {
  return (
    <section class={`figure-group ${first ? "main-figures" : ""}`}>
      <h2>{group.title}</h2>
      {group.note !== undefined && <p>{group.note}</p>}
      {group.lines.map((line) => (
        <Line key={line.key} line={line} />
      ))}
    </section>
  );
}

function Line({ line }: { line: FigureLine }) {
  const { figure, form, name, note } = line;
  const named = (
    <span class="figure-name">
      {name}
      {note !== undefined && <span class="figure-note">{note}</span>}
    </span>
  );
  if (figure.value === null) {
    return (
      <div class="figure-line none" data-figure={line.key}>
        {named}
        <Figure figure={figure} form={form} />
      </div>
    );
  }
  return (
    <details class="figure-line" data-figure={line.key}>
      <summary>
        {named}
        <Figure figure={figure} form={form} />
      </summary>
      <Doubt figure={figure} form={form} />
    </details>
  );
}
