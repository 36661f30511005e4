import { Doubt, Figure } from "../../parts/figure.tsx";
import type { FigureLine } from "../../words/figure-line.ts";
import type { FigureGroup } from "../../words/report-figures.ts";
import { ValveLimitField } from "./valve-limit-field.tsx";

interface Properties {
  groups: readonly FigureGroup[];
  /** the figures that are asked for first stand larger on a small display */
  main: boolean;
}

export function FigureGroups({ groups, main }: Properties) {
  return (
    <>
      {groups.map((group) => (
        <Group key={group.title} group={group} main={main} />
      ))}
    </>
  );
}

/** A run with many stops has many phases: the rest of a long list is folded. */
const linesAtOnce = 6;

function Group({ group, main }: { group: FigureGroup; main: boolean }) {
  return (
    <section class={`figure-group ${main ? "main-figures" : ""}`}>
      <h2>{group.title}</h2>
      {group.note !== undefined && <p>{group.note}</p>}
      {group.lines.slice(0, linesAtOnce).map((line) => (
        <Line key={line.key} line={line} />
      ))}
      {group.lines.some(({ key }) => key === "safetyValve.rise") && <ValveLimitField />}
      {group.lines.length > linesAtOnce && (
        <details class="more-lines">
          <summary>{group.lines.length - linesAtOnce} more</summary>
          {group.lines.slice(linesAtOnce).map((line) => (
            <Line key={line.key} line={line} />
          ))}
        </details>
      )}
    </section>
  );
}

function Line({ line }: { line: FigureLine }) {
  const { figure, form, name, note, decimals } = line;
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
        <Figure figure={figure} form={form} decimals={decimals} />
      </summary>
      <Doubt figure={figure} form={form} />
    </details>
  );
}
