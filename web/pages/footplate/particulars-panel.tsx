import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Draft } from "../../forms/draft.ts";
import { FieldList } from "../../forms/field-list.tsx";
import { halfGiven } from "../../forms/half-given.ts";
import { beginFields, steamingFurtherFields } from "../../forms/steaming-fields.ts";
import { unreadable } from "../../forms/unreadable.ts";
import type { Particulars } from "../../outbox/database.ts";
import { Overlay } from "../../parts/overlay.tsx";
import type { Recorder } from "./recorder.ts";

const fields = [...beginFields, ...steamingFurtherFields];

/** Title, purpose, conditions, track and train of the steaming that goes on. Its start stays the tap that began it. */
export function ParticularsPanel({ recorder, onLeave }: { recorder: Recorder; onLeave: () => void }) {
  const { id, locomotiveId, startedAt, ...particulars } = useMemo(() => recorder.steaming.peek().head, []);
  const draft = useSignal<Draft>({ ...particulars });
  const problems = [...unreadable(fields, draft.value), ...halfGiven(draft.value)];
  const save = () => {
    if (problems.length > 0) return;
    void recorder.changeParticulars(particulars, draft.value as unknown as Particulars).then(onLeave);
  };
  return (
    <Overlay title="This steaming" kind="panel change" onLeave={onLeave}>
      <form
        class="entry-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <FieldList
          form="footplate-particulars"
          fields={fields}
          draft={draft.value}
          problems={problems}
          onDraft={(next) => {
            draft.value = next;
          }}
        />
        <button type="submit" class="key primary">
          Keep the change
          <span class="sub">sent when the server answers</span>
        </button>
      </form>
    </Overlay>
  );
}
