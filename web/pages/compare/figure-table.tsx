import type { Comparison } from "../../../src/compare/compare-runs.ts";
import type { Reported } from "../../../src/quantity/reported.ts";
import { Figure } from "../../parts/figure.tsx";
import { figureText } from "../../words/figure-text.ts";
import { formOf } from "./figure-form.ts";
import { RunSample } from "./run-sample.tsx";
import { runStyle } from "./run-styles.ts";

/** Every figure that at least one run has: the runs below one another on one scale, each against the first. */
export function FigureTable({ comparison }: { comparison: Comparison }) {
  const figures = comparison.figures.filter(({ key }) =>
    comparison.runs.some((run) => (run.figures[key]?.value ?? null) !== null),
  );
  if (figures.length === 0) return <p class="soft">No figure can be had of any of these runs.</p>;
  return (
    <table class="figure-table">
      <caption>
        <h2>Figures, each against A’s</h2>
      </caption>
      <thead>
        <tr>
          <th scope="col">Run</th>
          <th scope="col" class="scale">
            <span class="unseen">On one scale</span>
          </th>
          <th scope="col">Figure</th>
          <th scope="col">Against A</th>
        </tr>
      </thead>
      {figures.map(({ key, name }) => (
        <tbody key={key}>
          <tr class="figure-head">
            <th scope="rowgroup" colSpan={4}>
              {name}
            </th>
          </tr>
          {comparison.runs.map((run, i) => (
            <RunRow key={run.steamingId} comparison={comparison} index={i} figureKey={key} />
          ))}
        </tbody>
      ))}
    </table>
  );
}

interface RowProperties {
  comparison: Comparison;
  index: number;
  figureKey: string;
}

function RunRow({ comparison, index, figureKey }: RowProperties) {
  const run = comparison.runs[index];
  const figure = run?.figures[figureKey] ?? { value: null, why: "not recorded in this run" };
  const difference = comparison.differences.find(
    (each) => each.key === figureKey && each.b === run?.steamingId,
  );
  const all = comparison.runs.flatMap((each) => each.figures[figureKey] ?? []);
  return (
    <tr data-figure={`${figureKey} ${runStyle(index).letter}`}>
      <th scope="row" class="run">
        <strong>{runStyle(index).letter}</strong>
        <RunSample style={runStyle(index)} />
      </th>
      <td class="scale">
        <IntervalOnScale figure={figure} all={all} colour={runStyle(index).colour} />
      </td>
      <td>
        <Figure figure={figure} form={formOf(figureKey)} />
      </td>
      <td class="against">
        {difference !== undefined && <Against difference={difference} figureKey={figureKey} />}
      </td>
    </tr>
  );
}

function Against({
  difference,
  figureKey,
}: {
  difference: Comparison["differences"][number];
  figureKey: string;
}) {
  const text = figureText(difference.difference, formOf(figureKey));
  if (text.value === null) return <span class="soft">{difference.words}</span>;
  const more = /^[1-9]|^0\.0*[1-9]/.test(text.value) ? "+" : "";
  return (
    <>
      <span class={difference.toldApart === true ? "told" : "not-told"}>{difference.words}</span>
      <span class="interval">
        <span>
          {more}
          {text.value}
          {text.unit === "" ? "" : ` ${text.unit}`}
        </span>
        {text.interval !== null && <span> ({text.interval})</span>}
      </span>
    </>
  );
}

/** The interval as a bar, the figure as a stroke across it, on the scale that all runs share. */
function IntervalOnScale({
  figure,
  all,
  colour,
}: {
  figure: Reported;
  all: readonly Reported[];
  colour: string;
}) {
  if (figure.value === null) return null;
  const ends = all.flatMap((each) => (each.value === null ? [] : [each.lo95, each.hi95]));
  const margin = 0.04 * (Math.max(...ends) - Math.min(...ends));
  const least = Math.min(...ends) - margin;
  const span = Math.max(...ends) + margin - least;
  const place = (value: number) => (span > 0 ? (100 * (value - least)) / span : 50);
  const from = place(figure.lo95);
  return (
    <div class="on-scale" aria-hidden="true">
      <span
        class="bar"
        style={{
          left: `${from}%`,
          width: `${Math.max(0.5, place(figure.hi95) - from)}%`,
          background: `var(--${colour})`,
        }}
      />
      <span class="at" style={{ left: `${place(figure.value)}%`, background: `var(--${colour})` }} />
    </div>
  );
}
