import type { EntryRecord } from "../../outbox/database.ts";
import { Mark } from "../../parts/mark.tsx";
import { entryValue } from "../../words/entry-words.ts";
import { meantBy } from "./doubt.ts";
import type { Recorder } from "./recorder.ts";

interface Properties {
  record: EntryRecord;
  recorder: Recorder;
  onChange: () => void;
}

/** A question about what was kept: one tap mends it, another says that it is right. It stands in nobody's way. */
export function DoubtBar({ record, recorder, onChange }: Properties) {
  const { engine } = recorder.steaming.value;
  const meant = meantBy(record.entry, recorder.entries.value, engine);
  const mending = () => {
    if (meant !== null)
      return {
        words: `Make it ${entryValue(meant, engine)}`,
        act: () => void recorder.correct(record.id, meant),
      };
    if (record.entry.kind === "lap") return { words: "Take it out", act: () => void recorder.remove(record) };
    return { words: "Change", act: onChange };
  };
  const { words, act } = mending();
  return (
    <div class="doubt-bar" role="status">
      <p>
        <Mark of="caution" /> <strong>{record.doubt}</strong> It is kept.
      </p>
      <button type="button" class="key" onClick={act}>
        {words}
      </button>
      <button type="button" class="key" onClick={() => void recorder.itIsRight(record.id)}>
        It is right
      </button>
    </div>
  );
}
