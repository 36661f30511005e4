import { useMemo } from "preact/hooks";
import type { Comparison } from "../../../src/compare/compare-runs.ts";
import { Chart } from "../../charts/chart.tsx";
import type { IntervalChart, IntervalItem } from "../../charts/spec.ts";
import { ChartTableFold } from "../../parts/chart-table-fold.tsx";
import { toShown } from "../../preferences/shown.ts";
import { units } from "../../preferences/units.ts";
import { figureText, showingFor } from "../../words/figure-text.ts";
import { dateInWords } from "../../words/time.ts";
import { formOf } from "./figure-form.ts";
import { runStyle } from "./run-styles.ts";

interface Properties {
  comparison: Comparison;
  figure: string;
  onFigure: (key: string) => void;
}

/** One figure over the runs in order of date, each with its interval. */
export function AcrossRuns({ comparison, figure, onFigure }: Properties) {
  const chosenUnits = units.value;
  const to = comparison.figures.filter(({ key }) =>
    comparison.runs.some((run) => (run.figures[key]?.value ?? null) !== null),
  );
  const chosen = to.find(({ key }) => key === figure) ?? to[0];
  const key = chosen?.key ?? "";
  const items = useMemo(() => itemsOf(comparison, key), [comparison, key, chosenUnits]);
  const spec = useMemo<IntervalChart>(
    () => ({ kind: "intervals", unit: items[0]?.unit ?? "", items }),
    [items],
  );
  if (chosen === undefined) return null;
  const sentence = `${chosen.name} over ${items.length} runs in order of date: ${items
    .map((item) => `${item.label} ${item.text}`)
    .join(", ")}${spec.unit === "" ? "" : ` ${spec.unit}`}.`;
  return (
    <section class="across ruled" aria-labelledby="across-title">
      <h2 id="across-title">One figure from run to run</h2>
      <div class="filter on-screen">
        <label for="across-figure">Figure</label>
        <select id="across-figure" value={key} onChange={(event) => onFigure(event.currentTarget.value)}>
          {to.map((each) => (
            <option key={each.key} value={each.key}>
              {each.name}
            </option>
          ))}
        </select>
      </div>
      <figure class="chart">
        <figcaption>{sentence}</figcaption>
        <ChartTableFold
          name={chosen.name}
          table={{
            columns: ["run", "date", `figure${spec.unit === "" ? "" : `, ${spec.unit}`}`, "19 times in 20"],
            rows: items.map((item) => [item.label, item.date, item.text, item.interval]),
          }}
        />
        <Chart spec={spec} heightPx={250} sentence={sentence} />
      </figure>
    </section>
  );
}

function itemsOf(
  comparison: Comparison,
  key: string,
): (IntervalItem & { unit: string; text: string; interval: string })[] {
  return comparison.runs
    .map((run, i) => ({ run, style: runStyle(i) }))
    .sort((a, b) => Date.parse(a.run.startedAt) - Date.parse(b.run.startedAt))
    .flatMap(({ run, style }) => {
      const figure = run.figures[key];
      if (figure === undefined || figure.value === null) return [];
      const text = figureText(figure, formOf(key));
      if (text.value === null) return [];
      const as = showingFor(figure.unit, formOf(key));
      return [
        {
          label: style.letter,
          date: dateInWords(run.startedAt).replace(/ \d{4}$/, ""),
          colour: style.colour,
          marker: style.marker,
          hollow: style.hollow,
          value: toShown(figure.value, as),
          lo: toShown(figure.lo95, as),
          hi: toShown(figure.hi95, as),
          unit: as.unit,
          text: text.value,
          interval: text.interval ?? "",
        },
      ];
    });
}
