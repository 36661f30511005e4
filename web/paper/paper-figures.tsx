import type { FigureLine } from "../words/figure-line.ts";
import { figureText } from "../words/figure-text.ts";
import type { FigureGroup } from "../words/report-figures.ts";

/** A long run has many phases; of each group so many lines go on the sheet. */
const linesOfGroup = 6;

/** Figures for paper in columns: name, value, and under what name it stands in the report. */
export function PaperFigures({ groups }: { groups: readonly FigureGroup[] }) {
  return (
    <div class="paper-figures">
      {groups.map((group) => {
        const shown = linesShown(group);
        return (
          <section key={group.title}>
            <h2>{group.title}</h2>
            <table>
              <tbody>
                {shown.map((line) => (
                  <Row key={line.key} line={line} />
                ))}
              </tbody>
            </table>
            {group.lines.length > shown.length && (
              <p class="more">{group.lines.length - shown.length} more in the logbook</p>
            )}
          </section>
        );
      })}
    </div>
  );
}

export const linesShown = (group: FigureGroup): readonly FigureLine[] => group.lines.slice(0, linesOfGroup);

function Row({ line }: { line: FigureLine }) {
  const text = figureText(line.figure, line.form, line.decimals);
  if (text.value === null) return null;
  return (
    <tr data-paper-figure={line.key}>
      <th scope="row">
        {line.name}
        {line.note !== undefined && <small> {line.note}</small>}
      </th>
      <td>
        <data value={String(line.figure.value)}>{text.value}</data>
        {text.unit !== "" && <span class="unit"> {text.unit}</span>}
        <span class="interval">{text.interval ?? ""}</span>
      </td>
    </tr>
  );
}
