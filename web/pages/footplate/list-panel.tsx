import { useSignal } from "@preact/signals";
import type { EntryRecord, LogEntry } from "../../outbox/database.ts";
import { unkept } from "../../outbox/unkept.ts";
import { Mark } from "../../parts/mark.tsx";
import { Overlay } from "../../parts/overlay.tsx";
import { entryInWords, entryValue } from "../../words/entry-words.ts";
import { clockOf, clockTime } from "../../words/time.ts";
import type { Recorder } from "./recorder.ts";

interface Properties {
  recorder: Recorder;
  onChange: (record: EntryRecord) => void;
  onLeave: () => void;
}

const atFirst = 40;

/** Everything that was tapped, the latest first, with what corrections replaced and what could not be kept. */
export function ListPanel({ recorder, onChange, onLeave }: Properties) {
  const whole = useSignal(false);
  const held = unkept.value.filter(({ steamingId }) => steamingId === recorder.steaming.value.id);
  const records = [...recorder.records.value, ...held].sort((a, b) => b.entry.atS - a.entry.atS);
  const shown = whole.value ? records : records.slice(0, atFirst);
  return (
    <Overlay title={`Written down: ${records.length}`} kind="panel list" onLeave={onLeave}>
      <ol class="record-list">
        {shown.map((each) =>
          "id" in each ? (
            <RecordRow key={each.id} record={each} recorder={recorder} onChange={onChange} />
          ) : (
            <UnkeptRow key={each.entry.id} entry={each.entry} recorder={recorder} />
          ),
        )}
      </ol>
      {shown.length < records.length && (
        <button
          type="button"
          onClick={() => {
            whole.value = true;
          }}
        >
          Show all {records.length}
        </button>
      )}
    </Overlay>
  );
}

function UnkeptRow({ entry, recorder }: { entry: LogEntry; recorder: Recorder }) {
  const words = entryInWords(entry, recorder.steaming.value.engine);
  return (
    <li class="unkept">
      <p>
        <span class="record-at">{clockOf(entry.atS)}</span> <strong>{words}</strong>{" "}
        <strong class="not-kept">
          <Mark of="danger" /> NOT kept: only this open page has it
        </strong>
      </p>
      <div class="actions">
        <button type="button" onClick={() => void recorder.keepUnkept()}>
          Keep it again<span class="unseen"> {words}</span>
        </button>
      </div>
    </li>
  );
}

function RecordRow({
  record,
  recorder,
  onChange,
}: { record: EntryRecord } & Pick<Properties, "recorder" | "onChange">) {
  const { head, engine, refused } = recorder.steaming.value;
  const { entry } = record;
  const words = entryInWords(entry, engine);
  const at = clockOf(entry.atS);
  const which = () => (
    <span class="unseen">
      {" "}
      {words} at {at}
    </span>
  );
  return (
    <li class={record.deleted === true ? "gone" : ""}>
      <p>
        <span class="record-at">
          {at} <span class="unit">{clockTime(head.startedAt, entry.atS, true)}</span>
        </span>{" "}
        {record.deleted === true ? <s>{words}</s> : <strong>{words}</strong>}
        {record.deleted === true && " taken out"}
        {record.pending !== undefined && <span class="unit"> not sent yet</span>}
      </p>
      {(record.former ?? []).map((former, i) => (
        <p key={`${former.atS} ${String(i)}`} class="soft">
          was {entryValue(former, engine)}
          {former.atS !== entry.atS && ` at ${clockOf(former.atS)}`}
        </p>
      ))}
      {record.refused !== undefined && record.refused !== refused && (
        <p class="soft">
          The server refused it: {record.refused}. It is kept here. Change it, or send it again as it is.
        </p>
      )}
      {record.doubt !== undefined && <p class="soft">{record.doubt}</p>}
      <div class="actions">
        {record.deleted === true ? (
          <button type="button" onClick={() => void recorder.putBack(record)}>
            Put back<span class="unseen"> {words}</span>
          </button>
        ) : (
          <>
            {record.refused !== undefined && refused === undefined && (
              <button type="button" onClick={() => void recorder.sendAgain(record)}>
                Send it again
                {which()}
              </button>
            )}
            <button type="button" onClick={() => onChange(record)}>
              Change
              {which()}
            </button>
            <button type="button" onClick={() => void recorder.remove(record)}>
              Take out
              {which()}
            </button>
          </>
        )}
      </div>
    </li>
  );
}
