import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { Problem } from "../../src/logbook/problems.ts";
import type { Refusal } from "../api/client.ts";
import { Refused } from "../parts/refused.tsx";

interface Properties {
  title: string;
  saveWord: string;
  sending: boolean;
  refusal: Refusal | null;
  fieldOf: (problem: Problem) => string;
  onSave: () => void;
  onLeave: () => void;
  children: ComponentChildren;
}

/** A form on the page itself: its title takes the focus, its problems stand above the button that raised them. */
export function FormFrame({
  title,
  saveWord,
  sending,
  refusal,
  fieldOf,
  onSave,
  onLeave,
  children,
}: Properties) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.focus();
  }, []);
  return (
    <form
      class="ruled form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        onSave();
      }}
    >
      <h2 ref={heading} tabIndex={-1}>
        {title}
      </h2>
      {children}
      {refusal !== null && (
        <Refused word="Not saved; what you typed is still here" refusal={refusal} fieldOf={fieldOf} />
      )}
      <div class="actions">
        <button type="submit" class="primary" disabled={sending}>
          {sending ? "Saving" : saveWord}
        </button>
        <button type="button" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </form>
  );
}
