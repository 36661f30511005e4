import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Draft } from "../../forms/draft.ts";
import { particularsFields, particularsProblems } from "../../forms/particulars.ts";
import type { Particulars } from "../../outbox/database.ts";
import { ChangeForm } from "./change-form.tsx";
import type { Recorder } from "./recorder.ts";

/** Title, purpose, conditions, track and train of the steaming that goes on. Its start stays the tap that began it. */
export function ParticularsPanel({ recorder, onLeave }: { recorder: Recorder; onLeave: () => void }) {
  const { id, locomotiveId, startedAt, ...particulars } = useMemo(() => recorder.steaming.peek().head, []);
  const draft = useSignal<Draft>({ ...particulars });
  return (
    <ChangeForm
      title="This steaming"
      form="footplate-particulars"
      fields={particularsFields}
      problems={particularsProblems(draft.value)}
      draft={draft}
      onKeep={() => recorder.changeParticulars(particulars, draft.value as unknown as Particulars)}
      onLeave={onLeave}
    >
      <span class="sub">sent when the server answers</span>
    </ChangeForm>
  );
}
