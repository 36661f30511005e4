import type { EntryRecord } from "../../outbox/database.ts";
import { entryValue } from "../../words/entry-words.ts";
import { AskingBar } from "./asking-bar.tsx";
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
  const mending = (): [string, () => void] => {
    if (meant !== null)
      return [`Make it ${entryValue(meant, engine)}`, () => void recorder.correct(record.id, meant)];
    return record.entry.kind === "lap"
      ? ["Take it out", () => void recorder.remove(record)]
      : ["Change", onChange];
  };
  return (
    <AskingBar
      words={record.doubt}
      keys={[mending(), ["It is right", () => void recorder.itIsRight(record.id)]]}
    >
      It is kept.
    </AskingBar>
  );
}
