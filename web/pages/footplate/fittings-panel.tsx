import { useSignal } from "@preact/signals";
import type { EntryOf } from "../../../src/logbook/entry.ts";
import type { Fitting, Locomotive } from "../../../src/logbook/locomotive.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { Overlay } from "../../parts/overlay.tsx";

interface Properties {
  engine: Locomotive;
  entries: readonly LogEntry[];
  at: string;
  onLook: (fitting: string, grade: EntryOf<"look">["grade"]) => void;
  onCatch: (fitting: string) => void;
  onLeave: () => void;
}

const grades = ["dry", "damp", "weeping", "dripping", "blowing"] as const;

/** Which fitting; then what is seen there, or a cup held under it. */
export function FittingsPanel({ engine, entries, at, onLook, onCatch, onLeave }: Properties) {
  const chosen = useSignal<Fitting | null>(null);
  const fitting = chosen.value;
  return (
    <Overlay title={fitting?.name ?? "Which fitting?"} aside={`at ${at}`} kind="panel" onLeave={onLeave}>
      {engine.fittings.length === 0 && (
        <p>No fittings are written down for {engine.name}. Add them to her particulars in the Shed.</p>
      )}
      <div class="panel-keys">
        {fitting === null ? (
          engine.fittings.map((each) => (
            <button
              key={each.id}
              type="button"
              class="key"
              onClick={() => {
                chosen.value = each;
              }}
            >
              {each.name}
              <span class="sub">{lastSeen(each.id, entries)}</span>
            </button>
          ))
        ) : (
          <>
            <button type="button" class="key" onClick={() => onCatch(fitting.id)}>
              Catch its drip
              <span class="sub">the stopwatch starts</span>
            </button>
            {grades.map((grade) => (
              <button key={grade} type="button" class="key" onClick={() => onLook(fitting.id, grade)}>
                {grade}
              </button>
            ))}
          </>
        )}
      </div>
    </Overlay>
  );
}

function lastSeen(fitting: string, entries: readonly LogEntry[]): string {
  const last = entries.findLast(
    (entry) => (entry.kind === "look" || entry.kind === "drip") && entry.fitting === fitting,
  );
  if (last?.kind === "look") return last.grade;
  return last?.kind === "drip" ? `${last.g} g in ${last.overS} s` : "not looked at";
}
