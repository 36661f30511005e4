import { useSignal } from "@preact/signals";
import type { Entry, EntryKind } from "../../../src/logbook/entry.ts";
import type { Sheet } from "../../api/shapes.ts";
import { mayWrite } from "../../api/token.ts";
import { entryValue } from "../../words/entry-words.ts";
import { entryKindNames } from "../../words/names.ts";
import { clockOf, clockTime } from "../../words/time.ts";
import { EntryForm } from "./entry-form.tsx";

interface Properties {
  sheet: Sheet;
  pointedAt: string | null;
  onDelete: (entry: Entry) => void;
  onSaved: (words: string) => void;
}

const atFirst = 20;

export function EntriesTable({ sheet, pointedAt, onDelete, onSaved }: Properties) {
  const kind = useSignal<EntryKind | "all">("all");
  const whole = useSignal(false);
  const correcting = useSignal<string | null>(null);
  const { entries } = sheet;
  if (entries.length === 0) return <p class="soft">Nothing is written down yet.</p>;
  const kinds = [...new Set(entries.map((entry) => entry.kind))];
  const chosen = entries.filter((entry) => kind.value === "all" || entry.kind === kind.value);
  const shown = whole.value || pointedAt !== null ? chosen : chosen.slice(0, atFirst);
  return (
    <>
      <div class="filter">
        <label for="entry-kind">Show</label>
        <select
          id="entry-kind"
          value={kind.value}
          onChange={(event) => {
            kind.value = kinds.find((each) => each === event.currentTarget.value) ?? "all";
          }}
        >
          <option value="all">all {entries.length}</option>
          {kinds.map((each) => (
            <option key={each} value={each}>
              {entryKindNames[each]} ({entries.filter((entry) => entry.kind === each).length})
            </option>
          ))}
        </select>
      </div>
      <table class="entry-table">
        <thead>
          <tr>
            <th scope="col">At</th>
            <th scope="col">Entry</th>
            <th scope="col">{mayWrite() && <span class="unseen">Change it</span>}</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((entry, i) =>
            correcting.value !== null && correcting.value === entry.id ? (
              <tr key={entry.id}>
                <td colSpan={3}>
                  <EntryForm
                    sheet={sheet}
                    entry={entry}
                    onSaved={(words) => {
                      correcting.value = null;
                      onSaved(words);
                    }}
                    onLeave={() => {
                      correcting.value = null;
                    }}
                  />
                </td>
              </tr>
            ) : (
              <EntryRow
                key={entry.id ?? `place ${String(i)}`}
                entry={entry}
                sheet={sheet}
                pointed={pointedAt !== null && entry.id === pointedAt}
                onCorrect={() => {
                  correcting.value = entry.id ?? null;
                }}
                onDelete={() => onDelete(entry)}
              />
            ),
          )}
        </tbody>
      </table>
      {shown.length < chosen.length && (
        <button
          type="button"
          onClick={() => {
            whole.value = true;
          }}
        >
          Show all {chosen.length}
        </button>
      )}
    </>
  );
}

interface RowProperties {
  entry: Entry;
  sheet: Sheet;
  pointed: boolean;
  onCorrect: () => void;
  onDelete: () => void;
}

function EntryRow({ entry, sheet, pointed, onCorrect, onDelete }: RowProperties) {
  const at = clockOf(entry.atS);
  const what = entryKindNames[entry.kind];
  return (
    <tr id={`entry-${entry.id ?? ""}`} tabIndex={-1} class={pointed ? "pointed" : ""}>
      <td class="at">
        {at}
        <span class="clock">{clockTime(sheet.steaming.startedAt, entry.atS, true)}</span>
      </td>
      <td>
        <strong>{what}</strong> {entryValue(entry, sheet.locomotive)}
        <FormerValues entry={entry} sheet={sheet} />
        {entry.note !== undefined && <span class="remark">{entry.note}</span>}
      </td>
      <td class="row-actions">
        {entry.id !== undefined && mayWrite() && (
          <>
            <button type="button" class="as-link" onClick={onCorrect}>
              Correct
              <span class="unseen">
                {" "}
                {what} at {at}
              </span>
            </button>
            <button type="button" class="as-link" onClick={onDelete}>
              Delete
              <span class="unseen">
                {" "}
                {what} at {at}
              </span>
            </button>
          </>
        )}
      </td>
    </tr>
  );
}

/** What corrections replaced, the oldest first. */
function FormerValues({ entry, sheet }: { entry: Entry; sheet: Sheet }) {
  const formers = sheet.history.filter(({ entryId, what }) => entryId === entry.id && what === "corrected");
  return formers.map(({ former }, i) =>
    former === null ? null : (
      <span key={String(i)} class="remark">
        was {entryValue(former, sheet.locomotive)}
        {former.atS !== entry.atS && ` at ${clockOf(former.atS)}`}
        {former.note !== entry.note && former.note !== undefined && `, ${former.note}`}
      </span>
    ),
  );
}
