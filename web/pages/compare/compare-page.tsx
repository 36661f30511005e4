import type { Alignment, Comparison } from "../../../src/compare/compare-runs.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { useLoaded } from "../../api/loaded.ts";
import type { Shed } from "../../api/shapes.ts";
import { Loading } from "../../parts/loading.tsx";
import { Refused } from "../../parts/refused.tsx";
import { TitleBlock } from "../../parts/title-block.tsx";
import { compareAddress } from "../../room-addresses.ts";
import { replaceAddress, route } from "../../route.ts";
import { AcrossRuns } from "./across-runs.tsx";
import { CompareCharts } from "./compare-charts.tsx";
import { comparisonSentence } from "./comparison-sentence.ts";
import { FigureTable } from "./figure-table.tsx";
import { RunChooser } from "./run-chooser.tsx";
import { RunKey } from "./run-key.tsx";
import { mostRuns } from "./run-styles.ts";

export const alignmentNames: Record<Alignment, string> = {
  lit: "since lit",
  "first-steam": "since first steam",
  "first-lap": "since the first lap",
};

function asked(): { runs: string[]; by: Alignment; figure: string } {
  const { query } = route.value;
  const by = query.get("by");
  return {
    runs: (query.get("runs") ?? "")
      .split(",")
      .filter((id) => id !== "")
      .map(decodeURIComponent)
      .slice(0, mostRuns),
    by: by === "first-steam" || by === "first-lap" ? by : "lit",
    figure: query.get("figure") ?? "waterPerLap",
  };
}

export default function ComparePage() {
  const { runs, by, figure } = asked();
  const shed = useLoaded<Shed>(furtherAddresses.shed);
  const enough = runs.length >= 2;
  const comparison = useLoaded<Comparison>(
    enough ? furtherAddresses.compare : null,
    enough ? JSON.stringify({ steamings: runs, alignBy: by }) : undefined,
  );
  const { value: engines, refusal: noShed } = shed.loaded.value;
  const { value: compared, refusal } = comparison.loaded.value;
  const show = (next: { runs?: string[]; by?: Alignment; figure?: string }) =>
    replaceAddress(compareAddress(next.runs ?? runs, next.by ?? by, next.figure ?? figure));

  return (
    <>
      <h1>Compare</h1>
      {enough && compared !== null && <p class="lead">{comparisonSentence(compared)}</p>}
      {engines === null ? (
        <Loading what="list of steamings" refusal={noShed} retry={() => void shed.reload()} />
      ) : (
        <RunChooser
          shed={engines}
          chosen={runs}
          by={by}
          onRuns={(next) => show({ runs: next })}
          onBy={(next) => show({ by: next })}
        />
      )}
      {enough && refusal !== null && (
        <Refused word="Not compared" refusal={refusal} retry={() => void comparison.reload()} />
      )}
      {enough && compared === null && refusal === null && (
        <p class="loading" role="status">
          Reckoning {runs.length} runs
        </p>
      )}
      {enough && compared !== null && (
        <>
          <RunKey comparison={compared} shed={engines} />
          <CompareCharts comparison={compared} />
          <FigureTable comparison={compared} />
          <AcrossRuns comparison={compared} figure={figure} onFigure={(next) => show({ figure: next })} />
        </>
      )}
      <TitleBlock
        cells={[
          ["Sheet", <strong key="name">Compare</strong>],
          ["Runs", runs.length === 0 ? "none chosen" : runs.length],
          ["Time", alignmentNames[by]],
        ]}
      />
    </>
  );
}
