import { useMemo } from "preact/hooks";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { newId } from "../../api/new-id.ts";
import type { Draft } from "../../forms/draft.ts";
import { FieldList } from "../../forms/field-list.tsx";
import { halfGiven } from "../../forms/half-given.ts";
import { beginFields, steamingFurtherFields } from "../../forms/steaming-fields.ts";
import { unreadable } from "../../forms/unreadable.ts";
import { measureAnew, rawNow, serverMsOf, serverNowMs } from "../../outbox/clock.ts";
import type { EngineHere } from "../../outbox/engines-here.ts";
import { keepSteaming } from "../../outbox/records.ts";
import { momentOf } from "../../outbox/stamp.ts";
import { oneGoesOn } from "../../outbox/steamings.ts";
import { Notice } from "../../parts/notice.tsx";
import { useSignal } from "../../signals/use-signal.ts";

interface Properties {
  of: EngineHere;
  onBegun: (id: string) => void;
}

const fields = [...beginFields, ...steamingFurtherFields];
const problemsOf = (draft: Draft) => [...unreadable(fields, draft), ...halfGiven(draft)];

/** A steaming of an engine, with the particulars of her last one offered; it needs no server. */
export function BeginForm({ of: { engine, last }, onBegun }: Properties) {
  const start = useMemo<Draft>(() => ({ purpose: "trial", ...last }), [last]);
  const draft = useSignal<Draft>(start);
  const tried = useSignal(false);
  const failure = useSignal<string | null>(null);
  const problems = tried.value ? problemsOf(draft.value) : [];
  const common = {
    form: "begin",
    draft: draft.value,
    problems,
    onDraft: (next: Draft) => {
      draft.value = next;
    },
  };
  const begin = async () => {
    tried.value = true;
    if (problemsOf(draft.value).length > 0) return;
    try {
      // one that goes on keeps its clock
      if (!(await oneGoesOn(serverNowMs()))) measureAnew();
      const raw = rawNow();
      const id = newId(raw.phoneMs);
      const head = { ...draft.value, id, locomotiveId: engine.id, startedAt: momentOf(serverMsOf(raw)) };
      await keepSteaming(head as unknown as SteamingHead, engine, raw);
      onBegun(id);
    } catch (error) {
      failure.value = error instanceof Error ? error.message : String(error);
    }
  };
  return (
    <form
      class="form begin"
      noValidate
      aria-label={`A steaming of ${engine.name}`}
      onSubmit={(event) => {
        event.preventDefault();
        void begin();
      }}
    >
      <button type="submit" class="key primary">
        Begin: {engine.name}
        <span class="sub">the clock starts now</span>
      </button>
      {problems.length > 0 && (
        <Notice grade="danger" word="Not begun:">
          a figure below is missing or cannot be read.
        </Notice>
      )}
      {failure.value !== null && (
        <Notice grade="danger" word="Not begun:">
          this browser keeps nothing ({failure.value}). Private windows may deny it.
        </Notice>
      )}
      <FieldList {...common} fields={beginFields} />
      <details class="fold" open={Object.keys(last).length > 1}>
        <summary>
          Conditions, track and train <span class="unit">as last time; change what is not so</span>
        </summary>
        <FieldList {...common} fields={steamingFurtherFields} allOptional />
      </details>
    </form>
  );
}
