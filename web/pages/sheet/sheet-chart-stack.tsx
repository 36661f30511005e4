import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Sheet } from "../../api/shapes.ts";
import { Chart } from "../../charts/chart.tsx";
import { sheetCharts } from "../../charts/sheet-charts.ts";
import { ChartTableFold } from "../../parts/chart-table-fold.tsx";
import { units } from "../../preferences/units.ts";
import { ReadAt } from "./read-at.tsx";

export function SheetChartStack({ sheet }: { sheet: Sheet }) {
  const momentS = useSignal<number | null>(null);
  const chosen = units.value;
  // made anew when the sheet or the reader's units change
  const { charts, fromS, toS } = useMemo(() => sheetCharts(sheet), [sheet, chosen]);
  if (sheet.entries.length === 0 && charts.length === 0) {
    return <p class="soft">No readings yet: there is nothing to draw.</p>;
  }
  const { report } = sheet;
  const inferred = report.phases.some((phase) => phase.inferred);
  return (
    <>
      <div class="chart-stack">
        {charts.map((chart) => (
          <figure key={chart.key} class="chart">
            <figcaption>{chart.sentence}</figcaption>
            <ChartTableFold table={chart.table} name={chart.sentence.split(":")[0] ?? chart.key} />
            <Chart spec={chart.spec} heightPx={chart.heightPx} sentence={chart.sentence} momentS={momentS} />
          </figure>
        ))}
      </div>
      <ReadAt sheet={sheet} momentS={momentS} fromS={fromS} toS={toS} />
      <p class="hint">
        {report.phases.length > 0 &&
          `Shaded: phases, ${inferred ? "as they follow from the entries" : "as they were marked"}. `}
        {sheet.series.waterDrawn.points.length > 0 && "Band: where the water drawn lies, 19 times in 20."}
      </p>
    </>
  );
}
