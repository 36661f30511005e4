import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { ChartTable } from "../charts/chart-table.ts";

interface Properties {
  table: ChartTable;
  name: string;
}

/** The chart's figures as a table, written out when it is opened. */
export function ChartTableFold({ table, name }: Properties) {
  const open = useSignal(false);
  const box = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    // a box that scrolls must be reached by the keyboard
    if (box.current !== null) box.current.tabIndex = 0;
  }, [open.value]);
  return (
    <details
      class="chart-table on-screen"
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>
        As a table<span class="unseen">: {name}</span>
      </summary>
      {open.value && (
        <section class="scroll" ref={box} aria-label={`${name}, as a table`}>
          <table>
            <thead>
              <tr>
                {table.columns.map((column) => (
                  <th key={column} scope="col">
                    {column}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row, i) => (
                <tr key={`${row.join(" ")} ${String(i)}`}>
                  {row.map((cell, c) => (
                    <td key={table.columns[c]}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </details>
  );
}
