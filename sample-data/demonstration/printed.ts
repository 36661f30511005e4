import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import { curveAt } from "../simulator/ledger.ts";
import type { Truth } from "../simulator/truth-types.ts";
import type { Demonstration } from "./demonstration.ts";

/** A logbook with one entry (or service) a line, so that it can be read and compared. */
export function printedLogbook(logbook: LogbookFile): string {
  const steamings = logbook.steamings.map(({ entries, traces, ...head }) => {
    const parts = [
      JSON.stringify(head).slice(0, -1),
      `"entries":${lines(entries, 4)}`,
      ...(traces === undefined ? [] : [`"traces":${lines(traces, 4)}`]),
    ];
    return `${parts.join(",\n   ")}}`;
  });
  return `{"format":"${logbook.format}","version":${logbook.version},
"locomotives":[
${logbook.locomotives.map((locomotive) => JSON.stringify(locomotive, null, 1)).join(",\n")}
],
"steamings":[
${steamings.join(",\n")}
],
"services":${lines(logbook.services, 1)}}
`;
}

function lines(items: readonly unknown[], indent: number): string {
  if (items.length === 0) return "[]";
  const margin = " ".repeat(indent);
  return `[\n${items.map((item) => margin + JSON.stringify(item)).join(",\n")}\n${margin}]`;
}

/** Samples kept of each curve: enough to see, not to reckon by. */
const EVERY_S = 30;
const curvesKept = ["massG", "drawnG", "fedG", "burntG", "pressureBarG"] as const;

/** What really happened in each steaming of the demonstration, rounded to what anyone could want. */
export function printedTruth({ truths, holdTruths }: Demonstration): string {
  const steamings = Object.fromEntries(Object.entries(truths).map(([id, truth]) => [id, shortened(truth)]));
  const rounding = (_key: string, value: unknown) =>
    typeof value === "number" ? Number(value.toPrecision(8)) : value;
  const note = "Truth of invented steamings, from the simulator that made them.";
  const rows = Object.entries(steamings).map(
    ([id, truth]) => `${JSON.stringify(id)}:${JSON.stringify(truth, rounding)}`,
  );
  const holds = JSON.stringify(holdTruths, rounding);
  return `{"note":"${note}","steamings":{\n${rows.join(",\n")}\n},"coldHolds":${holds}}\n`;
}

function shortened(truth: Truth) {
  const { curves, residuals, ...kept } = truth;
  const times: number[] = [];
  for (let s = 0; s <= truth.endS; s += EVERY_S) times.push(s);
  const sampled = curvesKept.map((name) => [
    name,
    times.map((s) => Number(curveAt(curves[name], s).toFixed(3))),
  ]);
  return { ...kept, curves: { everyS: EVERY_S, ...Object.fromEntries(sampled) } };
}
