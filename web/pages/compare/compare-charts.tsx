import { useMemo } from "preact/hooks";
import type { Comparison } from "../../../src/compare/compare-runs.ts";
import { Chart } from "../../charts/chart.tsx";
import { ChartTableFold } from "../../parts/chart-table-fold.tsx";
import { units } from "../../preferences/units.ts";
import { overlayCharts } from "./overlay-charts.ts";

/** One chart for each quantity, all runs laid over one another on one time axis. */
export function CompareCharts({ comparison }: { comparison: Comparison }) {
  const chosen = units.value;
  const charts = useMemo(() => overlayCharts(comparison), [comparison, chosen]);
  if (charts.length === 0) return <p class="soft">There is nothing to draw for these runs on this clock.</p>;
  return (
    <div class="chart-stack">
      {charts.map((chart) => (
        <figure key={chart.key} class="chart">
          <figcaption>{chart.sentence}</figcaption>
          <ChartTableFold table={chart.table} name={chart.sentence.split(":")[0] ?? chart.key} />
          <Chart spec={chart.spec} heightPx={chart.heightPx} sentence={chart.sentence} />
        </figure>
      ))}
    </div>
  );
}
