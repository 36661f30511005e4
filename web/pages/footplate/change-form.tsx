import type { Signal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import type { Draft } from "../../forms/draft.ts";
import { FieldList } from "../../forms/field-list.tsx";
import { Overlay } from "../../parts/overlay.tsx";

interface Properties extends Pick<Parameters<typeof FieldList>[0], "form" | "fields" | "problems"> {
  title: string;
  draft: Signal<Draft>;
  /** said under the key that keeps */
  children?: ComponentChildren;
  onKeep: () => Promise<unknown>;
  onLeave: () => void;
}

/** Fields of something that was kept, to be changed; kept once nothing is wrong with them. */
export function ChangeForm({ title, draft, children, onKeep, onLeave, ...list }: Properties) {
  return (
    <Overlay title={title} kind="panel change" onLeave={onLeave}>
      <form
        class="entry-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          if (list.problems.length === 0) void onKeep().then(onLeave);
        }}
      >
        <FieldList
          {...list}
          draft={draft.value}
          onDraft={(next) => {
            draft.value = next;
          }}
        />
        <button type="submit" class="key primary">
          Keep the change
          {children}
        </button>
      </form>
    </Overlay>
  );
}
