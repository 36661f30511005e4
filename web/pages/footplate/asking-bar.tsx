import type { ComponentChildren } from "preact";
import { Mark } from "../../parts/mark.tsx";

interface Properties {
  kind?: string;
  grade?: "caution" | "danger";
  /** what is asked or wrong */
  words: ComponentChildren;
  keys: readonly (readonly [name: string, act: () => void])[];
  children: ComponentChildren;
}

/** A question, or what is wrong, with its keys above those that are always there. */
export const AskingBar = ({ kind = "", grade = "caution", words, keys, children }: Properties) => (
  <div class={`doubt-bar ${kind}`} role={grade === "danger" ? "alert" : "status"}>
    <p>
      <Mark of={grade} /> <strong>{words}</strong> {children}
    </p>
    {keys.map(([name, act]) => (
      <button key={name} type="button" class="key" onClick={act}>
        {name}
      </button>
    ))}
  </div>
);
