import type { Comparison } from "../../../src/compare/compare-runs.ts";
import type { Shed } from "../../api/shapes.ts";
import { sheetAddress } from "../../route.ts";
import { dateInWords } from "../../words/time.ts";
import { RunSample } from "./run-sample.tsx";
import { runStyle } from "./run-styles.ts";

/** Which letter and which line stand for which run. */
export function RunKey({ comparison, shed }: { comparison: Comparison; shed: Shed | null }) {
  const nameOf = (id: string) =>
    shed?.engines.find((engine) => engine.locomotive.id === id)?.locomotive.name ?? "";
  return (
    <ol class="run-key">
      {comparison.runs.map((run, i) => (
        <li key={run.steamingId}>
          <strong>{runStyle(i).letter}</strong>
          <RunSample style={runStyle(i)} />
          <span>
            <a href={sheetAddress(run.steamingId)}>
              {nameOf(run.locomotiveId)}, {dateInWords(run.startedAt)}
            </a>
            <span class="soft"> {run.title}</span>
            {run.zeroS === null && <span class="soft"> (has no such moment, so is not in the charts)</span>}
          </span>
        </li>
      ))}
    </ol>
  );
}
